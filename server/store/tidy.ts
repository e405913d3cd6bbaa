import type { Dirent } from 'node:fs';
import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { discard, isPart, writeDurably } from './durable-file.ts';
import {
  binFolder,
  copyFile,
  isId,
  jobFile,
  productsFolder,
  readCopy,
  readingsFolder,
  revisionsFolder,
} from './job-folder.ts';
import { createLimit } from './limit.ts';
import { abandon, isMaking } from './making.ts';

async function discardParts(disk: Disk, folder: string, entries: readonly Dirent[]): Promise<void> {
  const parts = entries.filter((entry) => entry.isFile() && isPart(entry.name));
  for (const { name } of parts) await discard(disk, join(folder, name));
}

async function tidyJob(disk: Disk, folder: string): Promise<void> {
  const entries = await disk.entries(folder);
  const isFile = (name: string): boolean => entries.some((entry) => entry.name === name && entry.isFile());
  if (!isFile(jobFile) && !isFile(copyFile)) return;
  await discardParts(disk, folder, entries);
  for (const name of [revisionsFolder, readingsFolder]) {
    if (!entries.some((entry) => entry.name === name && entry.isDirectory())) continue;
    await discardParts(disk, join(folder, name), await disk.entries(join(folder, name)));
  }
  if (entries.some((entry) => entry.name === jobFile)) return;
  const copy = await readCopy(disk, folder);
  if (copy.kind === 'file') await writeDurably(disk, folder, [{ name: jobFile, text: copy.file.text }]);
}

async function tidyEntry(disk: Disk, root: string, entry: Dirent): Promise<void> {
  const path = join(root, entry.name);
  if (entry.isFile() && isPart(entry.name)) await discard(disk, path);
  if (!entry.isDirectory()) return;
  if (isMaking(entry.name)) await abandon(disk, path);
  else if (isId(entry.name)) await tidyJob(disk, path);
}

/** Tidies the folders of jobs in a folder, a few at a time. What cannot be tidied stays as it is. */
async function tidyEach(disk: Disk, folder: string): Promise<void> {
  const limited = createLimit(16);
  const entries = await disk.entries(folder).catch(() => []);
  await Promise.all(
    entries.map((entry) => limited(() => tidyEntry(disk, folder, entry).catch(() => undefined))),
  );
}

/**
 * Clears away what a stopped process left behind, and nothing else: files and folders under the names that only
 * this program makes, the files only beside a job. A job whose file is gone comes back from its copy. Only for the
 * service that holds the folder, before it answers anybody. What cannot be tidied stays: the list says what is
 * wrong with it.
 */
export async function tidyWorkshop(disk: Disk, root: string): Promise<void> {
  await tidyEach(disk, root);
  const isFolder = async (path: string): Promise<boolean> =>
    (await disk.look(path).catch(() => undefined))?.isDirectory() ?? false;
  const bin = join(root, binFolder);
  if (await isFolder(bin)) await tidyEach(disk, bin);
  const products = join(root, productsFolder);
  if (await isFolder(products))
    await discardParts(disk, products, await disk.entries(products).catch(() => []));
}
