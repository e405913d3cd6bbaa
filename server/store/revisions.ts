import { join } from 'node:path';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { found, refused } from '../../src/outcome.ts';
import type { ListedRevision, Revision, RevisionEntry } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { lookIfThere } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { revisionsFolder } from './job-folder.ts';
import { openFile } from './kept-jobs.ts';
import { createLimit } from './limit.ts';
import { freezeRevision, readRevision, revisionIds } from './revision-files.ts';
import { slugOf } from './slug.ts';
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

/** The job of the version the caller opened, if its revision can still be issued. */
function issuable(workshop: Workshop, at: { id: string; version: Version }): Kept<Job> {
  return onVersion(workshop, at, async (file) => {
    const read = await openFile(workshop, at.id, file);
    if (!read.ok) return read;
    const { job } = read.value;
    const id = slugOf(job.title.revision, '');
    if (id === '') return refused(unnamed);
    const isIssued = (await revisionIds(workshop.disk, folderOf(workshop, at.id))).includes(id);
    return isIssued ? refused(alreadyIssued(job.title.revision)) : found(job);
  });
}

/** Freezes what was sized, in the folder the job was opened in and no other that came to have its id meanwhile. */
function frozen(
  workshop: Workshop,
  { id, which, job }: { id: string; which: string; job: Job },
  { sizing, note }: { sizing: Sizing; note: string },
): Kept<RevisionEntry> {
  return workshop.inTurn(id, async () => {
    const folder = folderOf(workshop, id);
    if ((await whichFolder(workshop, id)) !== which) return refused(noSuchJob(id));
    const { revision } = job.title;
    const entry = {
      id: slugOf(revision, ''),
      revision,
      issued: new Date().toISOString(),
      engine: sizing.engine,
      note,
    };
    const isNew = await freezeRevision(workshop.disk, folder, { ...entry, job, sizing });
    return isNew ? found(entry) : refused(alreadyIssued(revision));
  });
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
  { size, note }: Issuing,
): Kept<RevisionEntry> {
  return workshop.inTurn(join(at.id, revisionsFolder), async () => {
    const which = await whichFolder(workshop, at.id);
    const job = await issuable(workshop, at);
    if (!job.ok) return job;
    const sizing = await size(job.value);
    return frozen(workshop, { id: at.id, which, job: job.value }, { sizing, note });
  });
}

async function listed(disk: Disk, folder: string, id: string): Promise<ListedRevision> {
  const opened = await readRevision(disk, folder, id);
  if (!opened.ok) {
    const trouble = opened.issues.map((issue) => issue.sentence).join(' ');
    return { id, revision: id, issued: '', engine: '', note: '', trouble };
  }
  const { revision, issued, engine, note } = opened.value;
  return { id, revision, issued, engine, note, trouble: null };
}

async function isKept(workshop: Workshop, id: string): Promise<boolean> {
  return (await fileOf(workshop, id)).kind !== 'absent';
}

/** Every revision of a job, oldest first; one that cannot be opened is listed with the reason. */
export async function listRevisions(workshop: Workshop, id: string): Kept<ListedRevision[]> {
  if (!(await isKept(workshop, id))) return refused(noSuchJob(id));
  const folder = folderOf(workshop, id);
  const limited = createLimit(8);
  const entries = await Promise.all(
    (await revisionIds(workshop.disk, folder)).map((revision) =>
      limited(() => listed(workshop.disk, folder, revision)),
    ),
  );
  return found(entries.sort((a, b) => a.issued.localeCompare(b.issued)));
}

/** Opens one revision as it was issued. Refuses an unknown job or revision, and one that no longer matches its seal. */
export async function openRevision(workshop: Workshop, id: string, revision: string): Kept<Revision> {
  if (!(await isKept(workshop, id))) return refused(noSuchJob(id));
  return readRevision(workshop.disk, folderOf(workshop, id), revision);
}
