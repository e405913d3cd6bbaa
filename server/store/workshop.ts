import { basename, dirname, join } from 'node:path';
import type { Job } from '../../src/job/job.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import type { KeptJob } from '../contract/kept-jobs.ts';
import { type Disk, realDisk } from './disk.ts';
import { isThere, moveDurably, type NamedText } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { jobFile, jobFiles, makeFolder, readCopy, readKept, writeOver } from './job-folder.ts';
import { takeLock } from './lock.ts';
import { revisionIds } from './revision-files.ts';
import { readSavedBy, savedByFiles } from './saved-by.ts';
import { slugOf } from './slug.ts';
import { type JobFile, readStored, type Stored } from './stored-file.ts';
import { tidyWorkshop } from './tidy.ts';
import { isError, unsure } from './trouble.ts';
import { createTurns, type Turns } from './turns.ts';

/** Where the jobs are, which is all that reading them takes. */
export interface JobsFolder {
  readonly root: string;
  readonly disk: Disk;
}

/** The workshop's folder of jobs, held by this service, and who may write to which of them now. */
export interface Workshop extends JobsFolder {
  /** Runs what changes a job, one after the other, and only while the folder is held. */
  readonly inTurn: Turns;
  /** Throws `folder-lost` when the folder is held no longer. */
  expectHeld(): Promise<void>;
  /** Clears what a stopped process left behind, once; whoever asks again waits for the same. Never throws. */
  tidied(): Promise<void>;
  /** Lets go of the folder. */
  close(): Promise<void>;
}

/** The `If-Match` header as it came; undefined when there was none. */
export type Version = string | undefined;

/** What every question to the store comes back as. */
export type Kept<Value> = Promise<Outcome<Value, StoreIssue>>;

function once(task: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | undefined;
  return () => {
    running ??= task();
    return running;
  };
}

/** Makes a folder with everything above it, and finds out where it really is: it alone may be a link. */
async function foundOrMade(disk: Disk, folder: string): Promise<string> {
  try {
    return await disk.resolve(folder);
  } catch (error) {
    if (!isError(error, 'ENOENT')) throw error;
    const above = await foundOrMade(disk, dirname(folder));
    await makeFolder(disk, join(above, basename(folder)));
    return disk.resolve(folder);
  }
}

/**
 * Opens the workshop's folder for this service alone, making it if need be.
 * Nothing in it is touched before `tidied`. Throws `folder-in-use` when another service holds it, and what the
 * file system throws when the folder cannot be made or read.
 */
export async function openWorkshop(folder: string, disk: Disk = realDisk): Promise<Workshop> {
  const root = await foundOrMade(disk, folder);
  // A file in its place, or a folder that may not be read, is told apart before anything is made.
  await disk.entries(root);
  const lock = await takeLock(disk, root);
  const turns = createTurns();
  return {
    root,
    disk,
    inTurn: (key, task) =>
      turns(key, async () => {
        await lock.expectHeld();
        return task();
      }),
    expectHeld: () => lock.expectHeld(),
    tidied: once(() => tidyWorkshop(disk, root)),
    close: () => lock.release(),
  };
}

/** The folder of a job. The id must be one that `slugOf` makes: nothing else is checked here. */
export function folderOf({ root }: JobsFolder, id: string): string {
  return join(root, id);
}

/** What stands where the file of a job should be. */
export function fileOf(jobs: JobsFolder, id: string): Promise<Stored> {
  return readStored(jobs.disk, { folder: folderOf(jobs, id), name: jobFile });
}

/** The last good copy of a job, as it stands. */
export function copyOf(jobs: JobsFolder, id: string): Promise<Stored> {
  return readCopy(jobs.disk, folderOf(jobs, id));
}

/** The file of a job. Refuses an unknown job, and one whose file cannot even be opened. */
export async function fileOr(workshop: Workshop, id: string): Kept<JobFile> {
  const stored = await fileOf(workshop, id);
  if (stored.kind === 'file') return found(stored.file);
  return refused(stored.kind === 'absent' ? noSuchJob(id) : unopened(stored.sentence));
}

/** Says what stands in the way of a job's file. */
export function unopened(sentence: string): StoreIssue {
  return storeIssue('unreadable-job', sentence);
}

/** A job as the list shows it; one that cannot be read is shown with the reason. */
export async function entryOf(jobs: JobsFolder, id: string, file: JobFile): Promise<KeptJob> {
  const folder = folderOf(jobs, id);
  const kept = readKept(id, file, { kind: 'absent' });
  const read = kept.ok ? kept : readKept(id, file, await readCopy(jobs.disk, folder));
  const unread = { job: id, client: '', documentNumber: '', revision: '' };
  const { job: name, client, documentNumber, revision } = read.ok ? read.value.title : unread;
  return {
    id,
    name,
    client,
    documentNumber,
    revision,
    saved: file.saved,
    savedBy: await readSavedBy(jobs.disk, folder, file.etag),
    etag: file.etag,
    revisions: await revisionIds(jobs.disk, folder).catch(() => []),
    trouble: read.ok ? null : read.issues.map((issue) => issue.sentence).join(' '),
  };
}

/** A job that was just written or moved, as the list shows it. Throws `unsure` when it cannot be read back. */
export async function readBack(workshop: Workshop, id: string): Promise<KeptJob> {
  const stored = await fileOf(workshop, id);
  if (stored.kind === 'file') return entryOf(workshop, id, stored.file);
  throw unsure(stored.kind === 'trouble' ? stored.sentence : undefined);
}

/** The files of a job that somebody saves; who that is stands beside it, where it was said. */
export function filesOf(job: Job, by: string): NamedText[] {
  const files = jobFiles(job);
  return [...files, ...savedByFiles(files[0]!.text, by)];
}

/** Writes a job into its folder and reads it back as the list shows it. */
export async function written(workshop: Workshop, id: string, job: Job, by: string): Promise<KeptJob> {
  await writeOver(workshop.disk, folderOf(workshop, id), filesOf(job, by));
  return readBack(workshop, id);
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

const changedMeanwhile = (id: string, saved: string, by: string): StoreIssue =>
  storeIssue(
    'changed-meanwhile',
    `The job "${id}" was saved by ${by === '' ? 'somebody else' : by} at ${saved}, after you opened it. Nothing was overwritten: open it again and bring your changes in, or save yours as a new job.`,
  );

async function versionIssue(
  { disk, root }: Workshop,
  { id, version }: { readonly id: string; readonly version: Version },
  file: JobFile,
): Promise<StoreIssue | undefined> {
  const tags = (version ?? '').split(',').map((tag) => tag.trim());
  // An asterisk would match whatever is there, which is what the header is meant to prevent.
  if (version === undefined || tags.includes('*')) return versionMissing;
  if (tags.includes(file.etag)) return undefined;
  return changedMeanwhile(id, file.saved, await readSavedBy(disk, join(root, id), file.etag));
}

/**
 * Runs a task on the version the caller opened, while nobody else can change the job. Refuses an unknown job, one
 * whose file cannot be opened, a missing version, and a version that is no longer the latest.
 */
export function onVersion<Value>(
  workshop: Workshop,
  { id, version }: { readonly id: string; readonly version: Version },
  task: (file: JobFile) => Kept<Value>,
): Kept<Value> {
  return workshop.inTurn(id, async () => {
    const opened = await fileOr(workshop, id);
    if (!opened.ok) return opened;
    const issue = await versionIssue(workshop, { id, version }, opened.value);
    return issue ? refused(issue) : task(opened.value);
  });
}

/** Whether the folder could be moved to that id; not when something is there already. */
function placed(workshop: Workshop, from: string, id: string): Promise<boolean> {
  return workshop.inTurn(id, async () => {
    if (await isThere(workshop.disk, folderOf(workshop, id))) return false;
    try {
      await moveDurably(workshop.disk, from, folderOf(workshop, id));
      return true;
    } catch (error) {
      if (isError(error, 'EEXIST', 'ENOTEMPTY', 'ENOTDIR')) return false;
      throw error;
    }
  });
}

/** Moves a whole folder to the first free id made from the name (wall, wall-2, wall-3), and returns the id. */
export async function underNewId(workshop: Workshop, from: string, name: string): Promise<string> {
  const base = slugOf(name, 'job');
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (await placed(workshop, from, id)) return id;
  }
}

/** The value found, in the shape every question to the store comes back as. */
export async function keep<Value>(value: Promise<Value>): Kept<Value> {
  return found(await value);
}
