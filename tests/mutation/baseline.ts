import { readFileSync, writeFileSync } from 'node:fs';
import type { Told } from './journal.ts';
import type { Change } from './plant.ts';

/** What became of changes: noticed, gone through by a test and not noticed, gone through by none. */
interface Score {
  readonly killed: number;
  readonly survived: number;
  readonly notCovered: number;
}

/** Of a folder, with what was drawn from it, or else file by file. */
interface FolderScore extends Score {
  /** Noticed over all, in percent. */
  readonly percent: number;
  readonly sample?: string;
  readonly files?: Readonly<Record<string, Score>>;
}

const baselineFile = 'tests/mutation/baseline.json';

const baseline = (): Record<string, FolderScore> => JSON.parse(readFileSync(baselineFile, 'utf8'));

const add = (a: Score, b: Score): Score => ({
  killed: a.killed + b.killed,
  survived: a.survived + b.survived,
  notCovered: a.notCovered + b.notCovered,
});

const nothing: Score = { killed: 0, survived: 0, notCovered: 0 };

const percentOf = ({ killed, survived, notCovered }: Score): number =>
  Math.round((1000 * killed) / Math.max(1, killed + survived + notCovered)) / 10;

export function scoreOf(changes: readonly Change[], { killed, covered }: Told): Score {
  const left = changes.filter(({ id }) => !killed.has(id));
  const survived = left.filter(({ id }) => covered.has(id)).length;
  return { killed: changes.length - left.length, survived, notCovered: left.length - survived };
}

export const sum = (scores: Readonly<Record<string, Score>>): FolderScore => {
  const all = Object.values(scores).reduce(add, nothing);
  return { ...all, percent: percentOf(all) };
};

const sorted = <T>(record: Readonly<Record<string, T>>): Record<string, T> =>
  Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1)));

/** Keeps the score of a sample, or of files, beside those of the folder's other files that still stand there. */
export function store(
  folder: string,
  scores: Readonly<Record<string, Score>>,
  sample: string | null,
  standing: readonly string[],
): void {
  const before = baseline();
  const known = Object.entries({ ...before[folder]?.files, ...scores });
  const files = sorted(Object.fromEntries(known.filter(([file]) => standing.includes(file))));
  const score = sample ? { ...sum(scores), sample } : { ...sum(files), files };
  writeFileSync(baselineFile, `${JSON.stringify(sorted({ ...before, [folder]: score }), null, 2)}\n`);
}
