import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readJobText } from '../../src/index.ts';
import { careful } from './careful.ts';
import { jobs } from './jobs.ts';
import { fuzz } from './kind.ts';

const kinds = [jobs, careful];

const usage = `npm run fuzz -- KIND COUNT [--seed 1] [--from 0] [--out build/fuzz]   KIND: ${kinds.map(({ name }) => name).join(', ')}
npm run fuzz -- replay FILE`;

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string', default: '1' },
    from: { type: 'string', default: '0' },
    out: { type: 'string', default: 'build/fuzz' },
  },
});

/** Runs a file that broke something again, by every kind there is. */
async function replay(file: string): Promise<number> {
  const job = readJobText(readFileSync(file, 'utf8'));
  if (!job.ok) throw new Error(job.issues.map((issue) => issue.sentence).join('\n'));
  let brokenCount = 0;
  for (const kind of kinds) {
    const broken = await kind.broken(job.value);
    brokenCount += broken.length;
    console.log(`${kind.name}: ${broken.length === 0 ? 'nothing broke' : broken.join('\n  ')}`);
  }
  return brokenCount;
}

/** Runs cases and keeps each that broke something as a job file. */
async function run(name: string, count: number): Promise<number> {
  const kind = kinds.find((each) => each.name === name);
  if (!kind || !Number.isInteger(count)) throw new Error(usage);
  const [seed, from] = [Number(values.seed), Number(values.from)];
  mkdirSync(values.out, { recursive: true });
  let brokenCount = 0;
  const { slowest, slowest_ms } = await fuzz(
    kind,
    { seed, from, count },
    (number, job, broken) => {
      brokenCount++;
      const file = `${values.out}/${name}-${seed}-${number}.json`;
      writeFileSync(file, `${JSON.stringify(job, null, 2)}\n`);
      console.log(`${file}\n  ${broken.join('\n  ')}`);
    },
    () => performance.now(),
  );
  console.log(`${count} ${name} from ${from}, seed ${seed}: ${brokenCount} broke something.`);
  console.log(`Slowest: number ${slowest}, ${Math.round(slowest_ms)} ms. Go on with --from ${from + count}.`);
  return brokenCount;
}

const [what, argument = ''] = positionals;
const brokenCount = what === 'replay' ? await replay(argument) : await run(what ?? '', Number(argument));
process.exitCode = brokenCount > 0 ? 1 : 0;
