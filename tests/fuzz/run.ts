import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { careful } from './careful.ts';
import { failures } from './failures.ts';
import { http } from './http.ts';
import { jobs } from './jobs.ts';
import { fuzz, type Kind } from './kind.ts';
import { order } from './order.ts';
import { proposals } from './proposals.ts';
import { store } from './store.ts';

/** A kind without its type of cases, as a command line knows it. */
const named = <Case>(kind: Kind<Case>) => ({
  name: kind.name,
  fuzz: (
    ...[run, onBroken, clock]: Parameters<typeof fuzz<unknown>> extends [unknown, ...infer Rest]
      ? Rest
      : never
  ) => fuzz(kind, run, onBroken, clock),
  replay: async (text: string): Promise<string[] | null> => {
    const of = kind.read(text);
    return of === null ? null : kind.broken(of);
  },
  close: async (): Promise<void> => kind.close?.(),
});

const kinds = [
  ...[named(jobs), named(careful), named(order), named(failures), named(proposals)],
  ...[named(http), named(store)],
];

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

/** Runs a file that broke something again, by every kind that reads it. */
async function replay(file: string): Promise<number> {
  const text = readFileSync(file, 'utf8');
  let brokenCount = 0;
  for (const kind of kinds) {
    const broken = await kind.replay(text);
    if (broken === null) continue;
    brokenCount += broken.length;
    console.log(`${kind.name}: ${broken.length === 0 ? 'nothing broke' : broken.join('\n  ')}`);
    await kind.close();
  }
  return brokenCount;
}

/** Runs cases and keeps each that broke something as a file to replay. */
async function run(name: string, count: number): Promise<number> {
  const kind = kinds.find((each) => each.name === name);
  if (!kind || !Number.isInteger(count)) throw new Error(usage);
  const [seed, from] = [Number(values.seed), Number(values.from)];
  mkdirSync(values.out, { recursive: true });
  let brokenCount = 0;
  const { slowest, slowest_ms } = await kind.fuzz(
    { seed, from, count },
    (number, of, broken) => {
      brokenCount++;
      const file = `${values.out}/${name}-${seed}-${number}.json`;
      writeFileSync(file, `${JSON.stringify(of, null, 2)}\n`);
      console.log(`${file}\n  ${broken.join('\n  ')}`);
    },
    () => performance.now(),
  );
  await kind.close();
  console.log(`${count} ${name} from ${from}, seed ${seed}: ${brokenCount} broke something.`);
  console.log(`Slowest: number ${slowest}, ${Math.round(slowest_ms)} ms. Go on with --from ${from + count}.`);
  return brokenCount;
}

const [what, argument = ''] = positionals;
const brokenCount = what === 'replay' ? await replay(argument) : await run(what ?? '', Number(argument));
process.exitCode = brokenCount > 0 ? 1 : 0;
