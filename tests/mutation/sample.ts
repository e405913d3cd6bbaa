import { readdirSync, readFileSync } from 'node:fs';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { shuffled } from '../fuzz/random.ts';

/** What begins at the margin and can be changed; imports, types and interfaces cannot. */
const beginsCode = /^(?:export )?(?:async )?(?:function|const|class)\b/;

/** Every function, constant and class at the top of a file, as `file:from-to`, its docblock and the blank lines included. */
function piecesOf(file: string): string[] {
  const lines = readFileSync(file, 'utf8').split('\n');
  const starts = lines.flatMap((line, i) => (/^\w/.test(line) ? [i + 1] : []));
  return starts.flatMap((from, i) =>
    beginsCode.test(lines[from - 1]!) ? [`${file}:${from}-${(starts[i + 1] ?? lines.length + 1) - 1}`] : [],
  );
}

/** A seeded sample of a folder's code: `count` whole functions or constants, all alike likely, whatever their size. */
export function sampleOf(folder: string, count: number, seed: number): { drawn: string[]; of: number } {
  const files = readdirSync(`src/${folder}`, { recursive: true, encoding: 'utf8' }).sort();
  const pieces = files
    .filter((file) => file.endsWith('.ts'))
    .flatMap((file) => piecesOf(`src/${folder}/${file}`));
  return { drawn: shuffled(seededRandom(seed), pieces).slice(0, count), of: pieces.length };
}
