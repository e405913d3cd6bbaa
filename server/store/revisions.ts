import { join } from 'node:path';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { revisionKey } from '../../src/job/revision-key.ts';
import { found, refused } from '../../src/outcome.ts';
import type { ListedRevision, Revision, RevisionEntry } from '../contract/kept-jobs.ts';
import { lookIfThere } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { revisionsFolder } from './job-folder.ts';
import { openFile, openJob } from './kept-jobs.ts';
import { digestOfJob, freezeRevision, readRevisionFile } from './revision-files.ts';
import { type History, historyOf, type Past } from './revision-history.ts';
import { revisionIdsFor } from './revision-name.ts';
import { writeRegister } from './revision-register.ts';
import {
  fileOf,
  folderOf,
  type Kept,
  noSuchJob,
  onVersion,
  type Version,
  type Workshop,
} from './workshop.ts';

/** What is frozen together with the job: its answer, computed when its turn comes, and what changed. */
export interface Issuing {
  readonly size: (job: Job) => Promise<Sizing>;
  readonly note: string;
  /** Who issues it; empty where nobody said. */
  readonly by?: string;
}

const alreadyIssued = (name: string): StoreIssue =>
  storeIssue(
    'revision-already-issued',
    `Revision ${name} has been issued and never changes: give the job the next revision in its title block, then issue that.`,
    'title.revision',
  );

const unnamed = storeIssue(
  'revision-unnamed',
  'The job has no revision to issue: write a letter or number into its title block first, such as A.',
  'title.revision',
);

/** The revision of that name among those issued; one that cannot be read is known by its id only. */
function namesake({ past }: History, name: string): Past | undefined {
  const ids = revisionIdsFor(name);
  return past.find(
    (one) =>
      revisionKey(one.revision) === revisionKey(name) || (one.trouble !== null && ids.includes(one.id)),
  );
}

/** The job of the version the caller opened, if its revision can still be issued. */
function issuable(workshop: Workshop, at: { id: string; version: Version }): Kept<Job> {
  return onVersion(workshop, at, async (file) => {
    const read = await openFile(workshop, at.id, file);
    if (!read.ok) return read;
    const { job } = read.value;
    if (revisionIdsFor(job.title.revision).length === 0) return refused(unnamed);
    const history = await historyOf(workshop.disk, folderOf(workshop, at.id), at.id, 'unregistered');
    return namesake(history, job.title.revision) ? refused(alreadyIssued(job.title.revision)) : found(job);
  });
}

/** Number, id and predecessor of the revision that comes next. */
function nextIn({ past, registered }: History, name: string) {
  const before = registered.at(-1) ?? past.at(-1);
  const taken = new Set(past.map(({ id }) => id));
  return {
    id: revisionIdsFor(name).find((id) => !taken.has(id)),
    sequence: (registered.at(-1)?.sequence ?? past.length) + 1,
    predecessor: before?.digest ?? null,
  };
}

/** What is frozen of a job, apart from what its place among the others gives it. */
interface Frozen {
  readonly job: Job;
  readonly sizing: Sizing;
  readonly note: string;
  readonly by: string;
}

/** Writes a revision behind those issued so far, and then into the register. */
async function freeze(workshop: Workshop, id: string, content: Frozen): Kept<RevisionEntry> {
  const { disk } = workshop;
  const folder = folderOf(workshop, id);
  const { revision } = content.job.title;
  const history = await historyOf(disk, folder, id, 'unregistered');
  const { id: revisionId, sequence, predecessor } = nextIn(history, revision);
  if (revisionId === undefined || namesake(history, revision)) return refused(alreadyIssued(revision));
  const { job, sizing, note, by } = content;
  const issued = new Date().toISOString();
  const entry = { id: revisionId, revision, issued, engine: sizing.engine, note, sequence, by };
  const digest = await freezeRevision(disk, folder, { ...entry, jobId: id, predecessor, job, sizing });
  if (digest === undefined) return refused(alreadyIssued(revision));
  const registered = { sequence, id: revisionId, revision, issued, digest };
  await writeRegister(disk, folder, [...history.registered, registered]);
  return found(entry);
}

/** Freezes what was sized, in the folder the job was opened in and no other that came to have its id meanwhile. */
function frozen(
  workshop: Workshop,
  { id, which }: { id: string; which: string },
  content: Frozen,
): Kept<RevisionEntry> {
  return workshop.inTurn(id, async () =>
    (await whichFolder(workshop, id)) === which ? freeze(workshop, id, content) : refused(noSuchJob(id)),
  );
}

/** The number of the folder that stands under an id: another job that comes to have the id has another. */
async function whichFolder(workshop: Workshop, id: string): Promise<string> {
  const seen = await lookIfThere(workshop.disk, folderOf(workshop, id));
  return seen ? `${seen.dev}:${seen.ino}` : '';
}

/**
 * Freezes the job with its sizing, the engine and the date under the revision of its title block. Refuses as
 * `onVersion` does, a job without a revision, and a revision that was issued before. What is sized is the version
 * that the caller opened; others can go on saving meanwhile, and nobody waits but who issues the same job.
 */
export function issueRevision(
  workshop: Workshop,
  at: { readonly id: string; readonly version: Version },
  { size, note, by = '' }: Issuing,
): Kept<RevisionEntry> {
  return workshop.inTurn(join(at.id, revisionsFolder), async () => {
    const which = await whichFolder(workshop, at.id);
    const job = await issuable(workshop, at);
    if (!job.ok) return job;
    const sizing = await size(job.value);
    return frozen(workshop, { id: at.id, which }, { job: job.value, sizing, note, by });
  });
}

async function isKept(workshop: Workshop, id: string): Promise<boolean> {
  return (await fileOf(workshop, id)).kind !== 'absent';
}

/** Every revision of a job in the order of issue; one that cannot be trusted is listed with the reason. */
export async function listRevisions(workshop: Workshop, id: string): Kept<ListedRevision[]> {
  if (!(await isKept(workshop, id))) return refused(noSuchJob(id));
  const { past } = await historyOf(workshop.disk, folderOf(workshop, id), id);
  const kept = await openJob(workshop, id);
  const keptDigest = kept.ok ? digestOfJob(kept.value.job) : undefined;
  return found(
    past.map(({ digest, jobDigest, ...entry }) => ({
      ...entry,
      isAsKept: entry.trouble === null && jobDigest === keptDigest,
    })),
  );
}

/** Opens one revision as it was issued. Refuses an unknown job or revision, and one that is not as it was issued. */
export async function openRevision(workshop: Workshop, id: string, revision: string): Kept<Revision> {
  if (!(await isKept(workshop, id))) return refused(noSuchJob(id));
  const folder = folderOf(workshop, id);
  const { past } = await historyOf(workshop.disk, folder, id);
  const trouble = past.find((one) => one.id === revision)?.trouble ?? null;
  if (trouble !== null) return refused(storeIssue('revision-damaged', trouble));
  return (await readRevisionFile(workshop.disk, folder, revision)).read;
}
