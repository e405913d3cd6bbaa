import { readJobText } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { found, refused } from '../../src/outcome.ts';
import type { KeptJob } from '../contract/kept-jobs.ts';
import { storeIssue } from './issues.ts';
import { namesIn, readKept } from './job-folder.ts';
import {
  copyOf,
  entryOf,
  fileOf,
  type Kept,
  keep,
  noSuchJob,
  onVersion,
  underNewId,
  type Version,
  type Workshop,
  written,
} from './workshop.ts';

/** A kept job, opened: its document, when it was saved, and the version to send back when saving over it. */
export interface OpenedJob {
  readonly job: Job;
  readonly etag: string;
  readonly saved: string;
}

const renamed = (job: Job, name: string): Job => ({ ...job, title: { ...job.title, job: name } });

/** Every job in the folder, by id; those that cannot be read too, with the reason. */
export async function listJobs(workshop: Workshop): Promise<KeptJob[]> {
  const entries = (await namesIn(workshop.root)).map(async (id) => {
    const file = await fileOf(workshop, id);
    return file ? [await entryOf(workshop, id, file)] : [];
  });
  return (await Promise.all(entries)).flat();
}

/** Keeps a new job under an id made from its name. It is on the disk when the promise resolves. */
export function createJob(workshop: Workshop, job: Job): Promise<KeptJob> {
  return underNewId(workshop, job.title.job, (id) => written(workshop, id, job));
}

/** Opens a job. Refuses an unknown one and one whose file cannot be read. */
export async function openJob(workshop: Workshop, id: string): Kept<OpenedJob> {
  const file = await fileOf(workshop, id);
  if (!file) return refused(noSuchJob(id));
  const read = readKept(id, file, await copyOf(workshop, id));
  return read.ok ? found({ job: read.value, etag: file.etag, saved: file.saved }) : read;
}

/** The version of a job's file, readable or not; undefined when there is no such job. */
export async function versionOf(workshop: Workshop, id: string): Promise<string | undefined> {
  return (await fileOf(workshop, id))?.etag;
}

/** Opens the last good copy of a job, with the version of the file it may replace. */
export async function openLastGoodCopy(workshop: Workshop, id: string): Kept<OpenedJob> {
  const file = await fileOf(workshop, id);
  if (!file) return refused(noSuchJob(id));
  const copy = await copyOf(workshop, id);
  const read = copy && readJobText(copy.text);
  if (read?.ok) return found({ job: read.value, etag: file.etag, saved: copy!.saved });
  return refused(
    storeIssue('no-last-good-copy', `There is no good copy of the job "${id}" here: look in your backup.`),
  );
}

/** Saves over the version that was opened. It is on the disk when the promise resolves. Refuses as `onVersion` does. */
export function saveJob(workshop: Workshop, at: { id: string; version: Version }, job: Job): Kept<KeptJob> {
  return onVersion(workshop, at, () => keep(written(workshop, at.id, job)));
}

/** Gives a job another name in its title block; its id stays, so that every address of it stays good. */
export function renameJob(
  workshop: Workshop,
  at: { id: string; version: Version },
  name: string,
): Kept<KeptJob> {
  return onVersion(workshop, at, async () => {
    const read = await openJob(workshop, at.id);
    return read.ok ? keep(written(workshop, at.id, renamed(read.value.job, name))) : read;
  });
}

/** Copies a job under another name, without the revisions issued of it. */
export async function duplicateJob(workshop: Workshop, id: string, name: string): Kept<KeptJob> {
  const read = await openJob(workshop, id);
  return read.ok ? keep(createJob(workshop, renamed(read.value.job, name))) : read;
}
