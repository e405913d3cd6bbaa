import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';
import { binList, removeJob, restoreJob } from '../../server/store/bin.ts';
import { realDisk } from '../../server/store/disk.ts';
import {
  createJob,
  duplicateJob,
  jobList,
  openJob,
  renameJob,
  saveJob,
} from '../../server/store/kept-jobs.ts';
import { keepReadings } from '../../server/store/readings.ts';
import { revisionIdsFor } from '../../server/store/revision-name.ts';
import { issueRevision } from '../../server/store/revisions.ts';
import { slugOf } from '../../server/store/slug.ts';
import { StoreTrouble } from '../../server/store/trouble.ts';
import type { Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { demoJobs, readJobText } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { failingDisk, manners } from '../server/failing-disk.ts';
import { type JobState, openAfterStop, type StoreState, storeState } from '../server/store-state.ts';
import { type Kind, thrown } from './kind.ts';
import { chance, pick, randomOf, whole } from './random.ts';

const operations = [
  'create',
  'save',
  'rename',
  'duplicate',
  'issue',
  'measure',
  'delete',
  'restore',
  'list',
] as const;

const step = z.strictObject({
  operation: z.enum(operations),
  which: z.int().min(0).describe('the job or the deleted job it is done to, round and round'),
  isStale: z.boolean().describe('asks with a version that is not the latest'),
  name: z.string(),
  revision: z.string(),
  width_mm: z.int(),
  failure: z
    .strictObject({
      at: z.int().min(0),
      manner: z.enum(manners),
      code: z.enum(['ENOSPC', 'EIO', 'EACCES']),
    })
    .nullable(),
  isStoppedAfterwards: z.boolean(),
});

const storeCase = z.strictObject({ kind: z.literal('store'), steps: z.array(step) });

type Step = z.infer<typeof step>;
type StoreCase = z.infer<typeof storeCase>;

const names = ['Wall', 'wall', 'Hall', 'Ü', 'CON', '書斎', 'W'.repeat(60), 'Wall 2'];
const letters = ['A', 'a', 'B', 'Å', '', 'C-1', 'C.1', '2'];

function randomStep(random: Random): Step {
  const failure = {
    at: whole(random, 0, 45),
    manner: pick(random, manners),
    code: pick(random, ['ENOSPC', 'EIO', 'EACCES'] as const),
  };
  return {
    operation: pick(random, operations),
    which: whole(random, 0, 9),
    isStale: chance(random, 0.1),
    name: pick(random, names),
    revision: pick(random, letters),
    width_mm: whole(random, 900, 4000),
    failure: chance(random, 0.6) ? failure : null,
    isStoppedAfterwards: chance(random, 0.15),
  };
}

const jobOf = ({ name, revision, width_mm }: Step): Job => {
  const job = structuredClone(demoJobs[0]!.job);
  return { ...job, title: { ...job.title, job: name, revision }, panel: { width_mm, height_mm: 2000 } };
};

const size = async (): Promise<Sizing> => ({ engine: 'fuzz' }) as unknown as Sizing;

/** What an operation is done to: the id of a job or of a deleted one; undefined when there is none. */
function subject({ jobs, bin }: StoreState, { operation, which }: Step): string | undefined {
  const ids = operation === 'restore' ? bin.map(({ name }) => name) : Object.keys(jobs).filter(isOurs);
  return ids[which % ids.length];
}

/** What lies in the folder beside the jobs from the beginning, and must lie there at the end. */
const strangers = ['notes.txt', 'lost+found'];
const isOurs = (name: string): boolean => !strangers.includes(name);

async function versionOf(workshop: Workshop, id: string, isStale: boolean): Promise<string> {
  const opened = await openJob(workshop, id);
  return isStale || !opened.ok ? '"stale"' : opened.value.etag;
}

/** Which revision is measured, what is read at a row of its own for each width, and whether that was kept. */
const measuredAt = ({ revisions }: JobState, { which }: Step): string | undefined =>
  Object.keys(revisions)[which % Object.keys(revisions).length];

async function measured(
  workshop: Workshop,
  job: JobState,
  { id, step }: { id: string; step: Step },
): Promise<boolean> {
  const revision = measuredAt(job, step);
  if (revision === undefined) return false;
  const { width_mm } = step;
  const reading = { row: `R${width_mm}`, quantity: 'noLoad_V', value: width_mm, version: 0 } as const;
  return (await keepReadings(workshop, { id, revision, by: 'fuzz' }, [reading])).ok;
}

/** Asks the store. The version is read on a sound disk, as a page has it from before. */
async function ask(sound: Workshop, workshop: Workshop, state: StoreState, step: Step): Promise<boolean> {
  const { operation, name, isStale } = step;
  if (operation === 'list') return (await jobList(workshop)()).length === Object.keys(state.jobs).length;
  if (operation === 'create') return (await createJob(workshop, jobOf(step))).id !== '';
  const id = subject(state, step);
  if (id === undefined) return false;
  if (operation === 'restore') return (await restoreJob(workshop, id)).ok;
  if (operation === 'duplicate') return (await duplicateJob(workshop, id, name)).ok;
  if (operation === 'measure') return measured(workshop, state.jobs[id]!, { id, step });
  const at = { id, version: await versionOf(sound, id, isStale) };
  if (operation === 'save') return (await saveJob(workshop, at, jobOf(step))).ok;
  if (operation === 'rename') return (await renameJob(workshop, at, name)).ok;
  if (operation === 'issue') return (await issueRevision(workshop, at, { size, note: '' })).ok;
  return (await removeJob(workshop, at)).ok;
}

const textOf = (job: Job): string => `${JSON.stringify(job, null, 2)}\n`;
const twice = (
  text: string,
  { revisions, readings }: Pick<JobState, 'revisions' | 'readings'> = { revisions: {}, readings: {} },
): JobState => ({ job: text, copy: text, revisions, readings });

function freeId(jobs: StoreState['jobs'], name: string): string {
  const base = slugOf(name, 'job');
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (!(id in jobs)) return id;
  }
}

const read = (text: string): Job => {
  const outcome = readJobText(text);
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
};

const renamed = (text: string, name: string): string => {
  const job = read(text);
  return textOf({ ...job, title: { ...job.title, job: name } });
};

function withRevision(jobId: string, state: JobState): JobState | undefined {
  const job = read(state.job);
  const [id] = revisionIdsFor(job.title.revision);
  if (id === undefined || id in state.revisions) return undefined;
  const content = {
    id,
    revision: job.title.revision,
    engine: 'fuzz',
    note: '',
    sequence: Object.keys(state.revisions).length + 1,
    by: '',
    jobId,
    job,
    sizing: { engine: 'fuzz' },
  };
  return { ...state, revisions: { ...state.revisions, [id]: content } };
}

function withReading(state: JobState, step: Step): JobState | undefined {
  const revision = measuredAt(state, step);
  if (revision === undefined) return undefined;
  const lines = (state.readings[revision] ?? []) as readonly unknown[][];
  const row = `R${step.width_mm}`;
  if (lines.some(([known]) => known === row)) return state;
  const readings = { ...state.readings, [revision]: [...lines, [row, 'noLoad_V', step.width_mm]] };
  return { ...state, readings };
}

/** What should be kept once the step is done; undefined where the store should refuse it. */
function expected(state: StoreState, step: Step): StoreState | undefined {
  const { jobs, bin } = state;
  const { operation, name } = step;
  if (operation === 'list') return state;
  const plus = (id: string, job: JobState): StoreState => ({ ...state, jobs: { ...jobs, [id]: job } });
  if (operation === 'create') return plus(freeId(jobs, name), twice(textOf(jobOf(step))));
  const id = subject(state, step);
  if (id === undefined) return undefined;
  if (operation === 'restore') {
    const back = bin.find((entry) => entry.name === id)!;
    const left = bin.filter((entry) => entry !== back);
    return { ...plus(freeId(jobs, back.id), back.state), bin: left };
  }
  const job = jobs[id]!;
  if (operation === 'duplicate') return plus(freeId(jobs, name), twice(renamed(job.job, name)));
  if (operation === 'measure') {
    const read = withReading(job, step);
    return read && plus(id, read);
  }
  if (step.isStale) return undefined;
  if (operation === 'save') return plus(id, twice(textOf(jobOf(step)), job));
  if (operation === 'rename') return plus(id, twice(renamed(job.job, name), job));
  if (operation === 'issue') {
    const issued = withRevision(id, job);
    return issued && plus(id, issued);
  }
  const { [id]: removed, ...rest } = jobs;
  return { ...state, jobs: rest, bin: [...bin, { name: '', id, state: removed! }] };
}

/** The same without what this cannot know: when something was deleted, and files not yet cleared away. */
const comparable = ({ jobs, bin }: StoreState): unknown => ({
  jobs,
  bin: bin.map(({ id, state }) => JSON.stringify([id, state])).sort(),
});

/** The new job beside its former copy, as a failure between the two leaves them. */
const withFormerCopies = (before: StoreState, after: StoreState): StoreState => ({
  ...after,
  jobs: Object.fromEntries(
    Object.entries(after.jobs).map(([id, job]) => [id, { ...job, copy: before.jobs[id]?.copy ?? job.copy }]),
  ),
});

const digest = (value: unknown): string =>
  createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 6);

/** A state in a line: of each job what its file, its copy and its revisions hold, as digests. */
function shortly({ jobs, bin }: StoreState): Record<string, string> {
  const said = ({ job, copy, revisions }: JobState): string =>
    [digest(job), digest(copy), ...Object.keys(revisions).map((id) => `${id}=${digest(revisions[id])}`)].join(
      ' ',
    );
  return Object.fromEntries([
    ...Object.entries(jobs).map(([id, job]) => [id, said(job)]),
    ...bin.map(({ id, state }, k) => [`bin ${k} ${id}`, said(state)]),
  ]);
}

type Outcome = 'done' | 'not done' | 'unsure';

function outcomeOf(error: unknown, { failure }: Step): Outcome {
  if (failure === null) throw error;
  const isUnsure = error instanceof StoreTrouble && error.code === 'unsure';
  return isUnsure || failure.manner === 'stopped' ? 'unsure' : 'not done';
}

function wrongState(before: StoreState, now: StoreState, step: Step, outcome: Outcome): string[] {
  const after = expected(before, step);
  // A refusal, or reading that failed on the way, changes nothing; what was done is what was to be done.
  const done = after ? [after] : [];
  const allowed = {
    done,
    'not done': [before],
    unsure: [before, ...done, ...done.map((each) => withFormerCopies(before, each))],
  }[outcome];
  if (allowed.some((each) => isDeepStrictEqual(comparable(each), comparable(now)))) return [];
  const shown = {
    before: shortly(before),
    expected: after ? shortly(after) : 'refused',
    found: shortly(now),
  };
  return [`${outcome}: ${JSON.stringify(shown)}`];
}

async function outcomeOn(sound: Workshop, state: StoreState, step: Step): Promise<Outcome> {
  const disk = failingDisk(realDisk, step.failure ?? undefined);
  try {
    const isDone = await ask(sound, { ...sound, disk }, state, step);
    if (step.failure === null && isDone !== (expected(state, step) !== undefined))
      throw new Error(isDone ? 'done, and should be refused' : 'refused, and should be done');
    return isDone ? 'done' : 'not done';
  } catch (error) {
    return outcomeOf(error, step);
  }
}

async function brokenBy(root: string, steps: readonly Step[]): Promise<string[]> {
  let workshop = await openAfterStop(root);
  for (const [k, step] of steps.entries()) {
    const before = await storeState(root);
    const outcome = await outcomeOn(workshop, before, step);
    const isStopped = step.isStoppedAfterwards || step.failure?.manner === 'stopped';
    if (isStopped) workshop = await openAfterStop(root);
    const now = await storeState(root);
    const troubles = (await jobList(workshop)()).filter(({ id, name }) => id === null && isOurs(name));
    const broken = [
      ...wrongState(before, now, step, outcome),
      ...(isStopped ? now.debris.map((name) => `${name} was left`) : []),
      ...troubles.map(({ trouble }) => `listed with trouble: ${trouble}`),
    ];
    if (broken.length > 0) return broken.map((words) => `step ${k}, ${step.operation}: ${words}`);
    await binList(workshop)();
  }
  return [];
}

/** Random operations on a workshop's folder, with failing disks and stops in the middle of them. */
export const store: Kind<StoreCase> = {
  name: 'store',
  make: (seed, number) => {
    const random = randomOf(seed, number);
    return { kind: 'store', steps: Array.from({ length: 12 }, () => randomStep(random)) };
  },
  read: (text) => storeCase.safeParse(JSON.parse(text)).data ?? null,
  broken: async ({ steps }) => {
    const root = await mkdtemp(join(tmpdir(), 'slotwatt-fuzz-'));
    try {
      await writeFile(join(root, 'notes.txt'), 'mine');
      await mkdir(join(root, 'lost+found'));
      return await brokenBy(root, steps);
    } catch (error) {
      return thrown(error);
    } finally {
      await rm(root, { recursive: true });
    }
  },
};
