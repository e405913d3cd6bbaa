import { basename, dirname, join } from 'node:path';
import { readJobText } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { keptId } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { flushDirectory, lookIfThere, type NamedText, writeDurably } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { type JobFile, readStored, type Stored } from './stored-file.ts';
import { isError, StoreTrouble } from './trouble.ts';

/**
 * How the workshop's folder is laid out: one folder for each job, named by its id, holding the job, its last good
 * copy and the revisions issued; deleted jobs lie in `.bin`, whole, and own products in `.products`. Everything else in it is somebody else's and is
 * left alone.
 */
export const jobFile = 'job.json';
export const copyFile = 'last-good-copy.json';
export const revisionsFolder = 'revisions';
/** Names every revision issued, with the digest of its file. */
export const registerFile = 'revisions-issued.json';
/** What was measured on each revision. */
export const readingsFolder = 'readings';
/** Who saved the job. */
export const savedByFile = 'saved-by.json';
export const binFolder = '.bin';
/** The workshop's own products, all in one file. */
export const productsFolder = '.products';

/**
 * What tells whether a job changed: its file, its folder and, where there are any, its revisions. Without any they
 * come to be in the folder; looking for what is not there costs more.
 */
export function dependedOn(root: string, id: string, isIssued: boolean): string[] {
  const folder = join(root, id);
  return [folder, join(folder, jobFile), ...(isIssued ? [join(folder, revisionsFolder)] : [])];
}

/** Whether a name can be that of a job's folder. */
export function isId(name: string): boolean {
  return keptId.safeParse(name).success;
}

/** The files of a job: its text, and the copy of it. */
export function jobFiles(job: Job): NamedText[] {
  const text = `${JSON.stringify(job, null, 2)}\n`;
  return [
    { name: jobFile, text },
    { name: copyFile, text },
  ];
}

/** Throws unless what stands at a path is a folder, and no link to one. */
export async function expectFolder(disk: Disk, path: string): Promise<void> {
  if ((await disk.look(path)).isDirectory()) return;
  throw new StoreTrouble(
    'not-a-folder',
    `Nothing was changed: "${basename(path)}" in the folder of jobs is a link or a file, where a folder of its own belongs. Move it away and put the folder in its place.`,
  );
}

/** Throws unless a file can be put at a path: nothing stands there, or an ordinary file. */
async function expectReplaceable(disk: Disk, path: string): Promise<void> {
  if ((await lookIfThere(disk, path))?.isFile() ?? true) return;
  throw new StoreTrouble(
    'not-a-folder',
    `Nothing was changed: "${basename(dirname(path))}/${basename(path)}" in the folder of jobs is not an ordinary file. Move it away, then try again.`,
  );
}

/** Writes files of a folder over what is there, and never through a link. Throws as `writeDurably` does. */
export async function writeOver(disk: Disk, folder: string, files: readonly NamedText[]): Promise<void> {
  await expectFolder(disk, folder);
  for (const { name } of files) await expectReplaceable(disk, join(folder, name));
  await writeDurably(disk, folder, files);
}

/** Reads the text of a kept job, and says whether a good copy is at hand when it cannot be read. */
export function readKept(id: string, file: JobFile, copy: Stored): Outcome<Job, StoreIssue> {
  const read = readJobText(file.text);
  if (read.ok) return found(read.value, read.notes);
  const reasons = read.issues.map((issue) => issue.sentence).join(' ');
  const hasCopy = copy.kind === 'file' && readJobText(copy.file.text).ok;
  const remedy = hasCopy
    ? `The last good copy, saved ${copy.file.saved}, can be opened instead.`
    : 'There is no good copy of it here: look in your backup.';
  return refused(
    storeIssue('unreadable-job', `The file of the job "${id}" cannot be read. ${reasons} ${remedy}`),
  );
}

/** The last good copy in a job's folder. */
export function readCopy(disk: Disk, folder: string): Promise<Stored> {
  return readStored(disk, { folder, name: copyFile });
}

/** Makes a folder durably unless it is there. Throws when something else is in its place. */
export async function makeFolder(disk: Disk, folder: string): Promise<void> {
  try {
    await disk.makeFolder(folder);
    await flushDirectory(disk, dirname(folder));
  } catch (error) {
    if (!isError(error, 'EEXIST')) throw error;
    await expectFolder(disk, folder);
  }
}
