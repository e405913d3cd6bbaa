import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { found, refused } from '../../src/outcome.ts';
import type { ListedRevision, Revision, RevisionEntry } from '../contract/kept-jobs.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { openJob } from './kept-jobs.ts';
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

async function frozen(folder: string, job: Job, { size, note }: Issuing): Kept<RevisionEntry> {
  const revision = job.title.revision;
  const id = slugOf(revision, '');
  if (id === '') return refused(unnamed);
  const sizing = await size(job);
  const entry = { id, revision, issued: new Date().toISOString(), engine: sizing.engine, note };
  const isNew = await freezeRevision(folder, { ...entry, job, sizing });
  return isNew ? found(entry) : refused(alreadyIssued(revision));
}

/**
 * Freezes the job with its sizing, the engine and the date under the revision of its title block. Refuses as
 * `onVersion` does, a job without a revision, and a revision that was issued before. Nobody can save the job while it is sized, so
 * job and sizing belong together.
 */
export function issueRevision(
  workshop: Workshop,
  at: { readonly id: string; readonly version: Version },
  issuing: Issuing,
): Kept<RevisionEntry> {
  return onVersion(workshop, at, async () => {
    const read = await openJob(workshop, at.id);
    return read.ok ? frozen(folderOf(workshop, at.id), read.value.job, issuing) : read;
  });
}

async function listed(folder: string, id: string): Promise<ListedRevision> {
  const opened = await readRevision(folder, id);
  if (!opened.ok) {
    const trouble = opened.issues.map((issue) => issue.sentence).join(' ');
    return { id, revision: id, issued: '', engine: '', note: '', trouble };
  }
  const { revision, issued, engine, note } = opened.value;
  return { id, revision, issued, engine, note, trouble: null };
}

/** Every revision of a job, oldest first; one that cannot be opened is listed with the reason. */
export async function listRevisions(workshop: Workshop, id: string): Kept<ListedRevision[]> {
  if (!(await fileOf(workshop, id))) return refused(noSuchJob(id));
  const folder = folderOf(workshop, id);
  const entries = await Promise.all((await revisionIds(folder)).map((revision) => listed(folder, revision)));
  return found(entries.sort((a, b) => a.issued.localeCompare(b.issued)));
}

/** Opens one revision as it was issued. Refuses an unknown job or revision, and one that no longer matches its seal. */
export async function openRevision(workshop: Workshop, id: string, revision: string): Kept<Revision> {
  if (!(await fileOf(workshop, id))) return refused(noSuchJob(id));
  return readRevision(folderOf(workshop, id), revision);
}
