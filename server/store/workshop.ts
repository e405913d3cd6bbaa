import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Job } from '../../src/job/job.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import type { KeptJob } from '../contract/kept-jobs.ts';
import { flushDirectory } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import {
  binFolder,
  copyFile,
  isError,
  type JobFile,
  jobFile,
  makeFolder,
  readJobFile,
  readKept,
  tidyWorkshop,
  writeJob,
} from './job-folder.ts';
import { revisionIds } from './revision-files.ts';
import { slugOf } from './slug.ts';
import { createTurns, type Turns } from './turns.ts';

/** The workshop's folder of jobs, and who may write to which of them now. */
export interface Workshop {
  readonly root: string;
  readonly inTurn: Turns;
}

/** The `If-Match` header as it came; undefined when there was none. */
export type Version = string | undefined;

/** What every question to the store comes back as. */
export type Kept<Value> = Promise<Outcome<Value, StoreIssue>>;

/**
 * Opens the workshop's folder, making it if need be and clearing what a stopped process left behind. One service
 * at a time may use a folder. Throws what the file system throws when the folder cannot be made or read.
 */
export async function openWorkshop(root: string): Promise<Workshop> {
  await makeFolder(root);
  await makeFolder(join(root, binFolder));
  await tidyWorkshop(root);
  return { root, inTurn: createTurns() };
}

/** The folder of a job. The id must be one that `slugOf` makes: nothing else is checked here. */
export function folderOf({ root }: Workshop, id: string): string {
  return join(root, id);
}

/** The file of a job, undefined when there is no such job. */
export function fileOf(workshop: Workshop, id: string): Promise<JobFile | undefined> {
  return readJobFile(join(folderOf(workshop, id), jobFile));
}

/** The last good copy of a job, undefined when there is none. */
export function copyOf(workshop: Workshop, id: string): Promise<JobFile | undefined> {
  return readJobFile(join(folderOf(workshop, id), copyFile));
}

/** A job as the list shows it; one that cannot be read is shown with the reason. */
export async function entryOf(workshop: Workshop, id: string, file: JobFile): Promise<KeptJob> {
  const read = readKept(id, file, await copyOf(workshop, id));
  const unread = { job: id, client: '', documentNumber: '', revision: '' };
  const { job: name, client, documentNumber, revision } = read.ok ? read.value.title : unread;
  return {
    id,
    name,
    client,
    documentNumber,
    revision,
    saved: file.saved,
    etag: file.etag,
    revisions: await revisionIds(folderOf(workshop, id)),
    trouble: read.ok ? null : read.issues.map((issue) => issue.sentence).join(' '),
  };
}

/** Writes a job into its folder and reads it back as the list shows it. */
export async function written(workshop: Workshop, id: string, job: Job): Promise<KeptJob> {
  await writeJob(folderOf(workshop, id), job);
  return entryOf(workshop, id, (await fileOf(workshop, id))!);
}

/** Says that an id names no job. */
export function noSuchJob(id: string): StoreIssue {
  return storeIssue(
    'no-such-job',
    `There is no job "${id}" here: it may have been deleted. Take one from the list.`,
  );
}

const versionMissing = storeIssue(
  'version-missing',
  'Say which version of the job you opened: send its ETag as the If-Match header, so that nobody’s work is overwritten.',
);

const changedMeanwhile = (id: string, saved: string): StoreIssue =>
  storeIssue(
    'changed-meanwhile',
    `The job "${id}" was saved by somebody else at ${saved}, after you opened it. Nothing was overwritten: open it again and bring your changes in, or save yours as a new job.`,
  );

function versionIssue(id: string, version: Version, file: JobFile): StoreIssue | undefined {
  const tags = (version ?? '').split(',').map((tag) => tag.trim());
  // An asterisk would match whatever is there, which is what the header is meant to prevent.
  if (version === undefined || tags.includes('*')) return versionMissing;
  return tags.includes(file.etag) ? undefined : changedMeanwhile(id, file.saved);
}

/**
 * Runs a task on the version the caller opened, while nobody else can change the job. Refuses an unknown job, a
 * missing version, and a version that is no longer the latest.
 */
export function onVersion<Value>(
  workshop: Workshop,
  { id, version }: { readonly id: string; readonly version: Version },
  task: (file: JobFile) => Kept<Value>,
): Kept<Value> {
  return workshop.inTurn(id, async () => {
    const file = await fileOf(workshop, id);
    if (!file) return refused(noSuchJob(id));
    const issue = versionIssue(id, version, file);
    return issue ? refused(issue) : task(file);
  });
}

async function claim(workshop: Workshop, id: string): Promise<boolean> {
  try {
    await mkdir(folderOf(workshop, id));
    await flushDirectory(workshop.root);
    return true;
  } catch (error) {
    if (isError(error, 'EEXIST')) return false;
    throw error;
  }
}

/** Gives the task the first free id made from the name (wall, wall-2, wall-3) with an empty folder of its own. */
export async function underNewId(
  workshop: Workshop,
  name: string,
  task: (id: string) => Promise<KeptJob>,
): Promise<KeptJob> {
  const base = slugOf(name, 'job');
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`;
    const made = await workshop.inTurn(id, async () => ((await claim(workshop, id)) ? task(id) : undefined));
    if (made) return made;
  }
}

/** The value found, in the shape every question to the store comes back as. */
export async function keep<Value>(value: Promise<Value>): Kept<Value> {
  return found(await value);
}
