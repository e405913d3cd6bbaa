import { createHash } from 'node:crypto';
import { demoJobs, type Job, newJob, sizeAt } from '../src/index.ts';

/**
 * What identifies the numbers of the engine: a digest over a fixed set of sized jobs. Numbers count to seven
 * figures, because the functions of two platforms differ in their last bits; residues of the solvers, which are
 * nothing but such bits, and words count not at all.
 */
const figureCount = 7;
const least = 1e-9;
const residues = new Set(['unaccounted_A', 'imbalance_W', 'balance', 'iterationCount']);

function inLayout(layout: Job['cables']['layout']): Job {
  const job = newJob();
  job.cables.layout = layout;
  return job;
}

const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;

/** The jobs, in an order that does not change: every layout, every demo job, and one of each accuracy. */
const asked = [
  ...layouts.map((layout) => ({ job: inLayout(layout), accuracy: 'quick' as const })),
  ...demoJobs.map(({ job }) => ({ job, accuracy: 'quick' as const })),
  { job: demoJobs[0]!.job, accuracy: 'careful' as const },
];

const written = (value: number): string =>
  Math.abs(value) < least ? '0' : String(Number(value.toPrecision(figureCount)));

/** Every number of a value with the way to it, keys in order, and the status of every finding. */
function numbersIn(value: unknown, way: string): string[] {
  if (typeof value === 'number') return [`${way} ${written(value)}`];
  if (way.endsWith('.status')) return [`${way} ${value}`];
  if (Array.isArray(value)) return value.flatMap((each, i) => numbersIn(each, `${way}.${i}`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value)
    .filter(([key]) => !residues.has(key))
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([key, each]) => numbersIn(each, `${way}.${key}`));
}

function numbersOf({ job, accuracy }: (typeof asked)[number]): string[] {
  const sized = sizeAt(job, accuracy);
  return sized.ok ? numbersIn(sized.value, accuracy) : sized.issues.map(({ code }) => `refused ${code}`);
}

/** The first seven digits of SHA-256 over the numbers of the fixed set of jobs, hexadecimal. */
export function numbersDigest(): string {
  return createHash('sha256').update(asked.flatMap(numbersOf).join('\n')).digest('hex').slice(0, 7);
}
