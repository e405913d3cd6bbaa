import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { folders, isFolder } from './folders.ts';
import { sampleOf } from './sample.ts';

/** What became of the mutants of one folder, as kept in the baseline. */
interface Score {
  readonly killed: number;
  readonly survived: number;
  readonly notCovered: number;
  /** Killed over all, in percent; a mutant that makes the tests run out of time counts as killed. */
  readonly percent: number;
  /** Of what, where not the whole folder was tried. */
  readonly sample?: string;
}

const baselineFile = 'tests/mutation/baseline.json';

const baseline = (): Record<string, Score> =>
  existsSync(baselineFile) ? JSON.parse(readFileSync(baselineFile, 'utf8')) : {};

/**
 * Changes the code of one folder of the engine in small ways, one at a time, and runs the tests that cover each
 * change. Prints the changes no test noticed. Strings are left alone: sentences are for people, and a key that is
 * wrong does not pass the type checker.
 */
async function mutate(folder: keyof typeof folders, patterns: string[]): Promise<Score> {
  process.env.SLOTWATT_MUTATION_TESTS = folders[folder].join(',');
  const stryker = new Stryker({
    mutate: patterns,
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts' },
    // TypeScript 7 has no compiler interface, and nothing here has to be rewritten for the sandbox.
    tsconfigFile: 'no-tsconfig',
    coverageAnalysis: 'perTest',
    mutator: { plugins: null, excludedMutations: ['StringLiteral'] },
    ignoreStatic: true,
    // A busy machine is no endless loop: what runs out of time counts as noticed.
    timeoutMS: 30_000,
    concurrency: Number(process.env.SLOTWATT_MUTATION_WORKERS ?? 2),
    reporters: ['clear-text', 'progress-append-only', 'json'],
    clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
    jsonReporter: { fileName: `build/mutation/${folder}.json` },
    tempDirName: 'build/mutation/sandbox',
    ignorePatterns: ['build', 'jobs'],
    allowConsoleColors: false,
  });
  const results = await stryker.runMutationTest();
  const count = (...statuses: readonly string[]): number =>
    results.filter((result) => statuses.includes(result.status)).length;
  const [killed, survived, notCovered] = [count('Killed', 'Timeout'), count('Survived'), count('NoCoverage')];
  const percent = Math.round((1000 * killed) / (killed + survived + notCovered)) / 10;
  return { killed, survived, notCovered, percent };
}

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { write: { type: 'boolean' }, sample: { type: 'string' }, seed: { type: 'string', default: '1' } },
});
const [folder = '', ...files] = positionals;
if (!isFolder(folder)) throw new Error(`name a folder of src: ${Object.keys(folders).join(', ')}`);
const whole = files.length > 0 ? files.map((file) => `src/${folder}/${file}`) : [`src/${folder}/**/*.ts`];
const sample = values.sample ? sampleOf(folder, Number(values.sample), Number(values.seed)) : null;
const before = baseline()[folder];
const score = await mutate(folder, sample?.drawn ?? whole);
console.log(
  `${folder}: ${score.percent} % of ${score.killed + score.survived + score.notCovered} changes noticed`,
);
if (before) console.log(`before: ${before.percent} %`);
if (values.write) {
  const of = sample && {
    sample: `${sample.drawn.length} of ${sample.of} functions and constants, seed ${values.seed}`,
  };
  const scores = { ...baseline(), [folder]: { ...score, ...of } };
  writeFileSync(baselineFile, `${JSON.stringify(scores, null, 2)}\n`);
}
