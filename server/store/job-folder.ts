import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rmdir, stat, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import { readJobText } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { flushDirectory, isUnfinished, writeDurably } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';

/**
 * How the workshop's folder is laid out: one folder for each job, named by its id, holding the job, its last good
 * copy and the revisions issued; deleted jobs lie in `.bin`, whole.
 */
export const jobFile = 'job.json';
export const copyFile = 'last-good-copy.json';
export const revisionsFolder = 'revisions';
export const binFolder = '.bin';

/** A file of the store as it stands: what it says and which version of it this is. */
export interface JobFile {
  readonly text: string;
  readonly etag: string;
  readonly saved: string;
}

/** Whether an error is the one that the system calls by this code. */
export function isError(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}

/** Whether an error says that there is no such file or folder. */
export function isAbsent(error: unknown): boolean {
  return isError(error, 'ENOENT') || isError(error, 'ENOTDIR');
}

/** Names in a folder that a person would see: no leading dot, nothing unfinished; none when it is absent. */
export async function namesIn(folder: string): Promise<string[]> {
  try {
    const names = await readdir(folder);
    return names.filter((name) => !name.startsWith('.') && !isUnfinished(name)).sort();
  } catch (error) {
    if (isAbsent(error)) return [];
    throw error;
  }
}

/** Text of a UTF-8 file without the mark that some editors put before it. */
export function withoutMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

/** The version of a text as an HTTP entity tag: whatever changes it changes the tag. */
function etagOf(text: string): string {
  return `"${createHash('sha256').update(text).digest('hex').slice(0, 32)}"`;
}

/** Reads a file of the store; undefined when it is absent. Throws what else the file system throws. */
export async function readJobFile(path: string): Promise<JobFile | undefined> {
  try {
    const text = await readFile(path, 'utf8');
    const { mtime } = await stat(path);
    return { text: withoutMark(text), etag: etagOf(text), saved: mtime.toISOString() };
  } catch (error) {
    if (isAbsent(error)) return undefined;
    throw error;
  }
}

/** The text of a job document as it is written to disk. */
function jobText(job: Job): string {
  return `${JSON.stringify(job, null, 2)}\n`;
}

/**
 * Writes the job and its copy. The copy goes first: whenever the process is stopped, at least one of the two is
 * whole, and a failure to write leaves the job as it was.
 */
export async function writeJob(folder: string, job: Job): Promise<void> {
  const text = jobText(job);
  await writeDurably(join(folder, copyFile), text);
  await writeDurably(join(folder, jobFile), text);
}

/** Reads the text of a kept job, and says whether a good copy is at hand when it cannot be read. */
export function readKept(id: string, file: JobFile, copy: JobFile | undefined): Outcome<Job, StoreIssue> {
  const read = readJobText(file.text);
  if (read.ok) return found(read.value, read.notes);
  const reasons = read.issues.map((issue) => issue.sentence).join(' ');
  const hasCopy = copy !== undefined && readJobText(copy.text).ok;
  const remedy = hasCopy
    ? `The last good copy, saved ${copy.saved}, can be opened instead.`
    : 'There is no good copy of it here: look in your backup.';
  return refused(
    storeIssue('unreadable-job', `The file of the job "${id}" cannot be read. ${reasons} ${remedy}`),
  );
}

/** Makes a folder with everything above it, durably. */
export async function makeFolder(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  await flushDirectory(join(folder, '..'));
}

async function tidyFolder(folder: string): Promise<void> {
  for (const name of (await readdir(folder)).filter(isUnfinished)) await unlink(join(folder, name));
}

async function tidyJob(folder: string): Promise<void> {
  await tidyFolder(folder);
  const revisions = join(folder, revisionsFolder);
  if ((await namesIn(folder)).includes(revisionsFolder)) await tidyFolder(revisions);
  const file = await readJobFile(join(folder, jobFile));
  const copy = await readJobFile(join(folder, copyFile));
  if (!file && copy) await writeDurably(join(folder, jobFile), copy.text);
  else if (!file) await rmdir(folder).catch(() => undefined);
}

/**
 * Clears away what a stopped process left behind: unfinished files, the empty folder of a job that never came to
 * be; a job whose file is gone comes back from its copy. Only for the one service that uses the folder, before it
 * answers anybody.
 */
export async function tidyWorkshop(folder: string): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    if (entry.isDirectory() && !entry.name.startsWith('.')) await tidyJob(join(folder, entry.name));
  }
}
