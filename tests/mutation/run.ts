import { readdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { scoreOf, store, sum } from './baseline.ts';
import { type Folder, isFolder, testsOf } from './folders.ts';
import type { Told } from './journal.ts';
import { type Change, type Piece, plant } from './plant.ts';
import { sampleOf } from './sample.ts';
import { tryChanges } from './try.ts';

/** The changes no test noticed, and the tests that judged nothing. */
function print(changes: readonly Change[], { killed, covered, unsteady }: Told): void {
  for (const { id, file, line, kind, was, is } of changes.filter((change) => !killed.has(change.id)))
    console.log(`${file}:${line} ${kind}${covered.has(id) ? '' : ', in no test'}\n-   ${was}\n+   ${is}`);
  for (const test of unsteady) console.log(`does not hold when it is asked again: ${test}`);
}

/**
 * Changes pieces of the code of one folder of the engine in small ways, one at a time, and runs the tests that go through
 * each change. Prints the changes no test noticed, and gives the score of each file. Strings are left alone: sentences
 * are for people, and a key that is wrong does not pass the type checker. So is what is worked out while a file is loaded.
 */
async function mutate(folder: Folder, pieces: readonly Piece[]) {
  const files = [...new Set(pieces.map(({ file }) => file))];
  const planted = await plant(folder, pieces);
  const told = await tryChanges(planted, testsOf(folder, files));
  const changes = planted.changes.filter(({ id }) => told.covered.has(id) || !told.loaded.has(id));
  print(changes, told);
  const of = (file: string) => changes.filter((change) => change.file === file);
  return Object.fromEntries(files.map((file) => [file, scoreOf(of(file), told)]));
}

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { write: { type: 'boolean' }, sample: { type: 'string' }, seed: { type: 'string', default: '1' } },
});
const [folder = '', ...named] = positionals;
if (!isFolder(folder)) throw new Error('name a folder of src that tests/mutation/folders.ts has');
const standing = readdirSync(`src/${folder}`, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .sort();
const sample = values.sample ? sampleOf(folder, standing, Number(values.sample), Number(values.seed)) : null;
const whole = named.length > 0 ? named : standing;
const scores = await mutate(folder, sample?.drawn ?? whole.map((file) => ({ file })));
for (const [file, score] of Object.entries(scores)) console.log(file, JSON.stringify(score));
console.log(`${folder}: ${JSON.stringify(sum(scores))}`);
const of = sample && `${sample.drawn.length} of ${sample.of} functions and constants, seed ${values.seed}`;
if (values.write) store(folder, scores, of, standing);
process.exit();
