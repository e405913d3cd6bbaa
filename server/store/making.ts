import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { discard, flushDirectory, isPart, type NamedText, writeWhole } from './durable-file.ts';
import { copyFile, jobFile, savedByFile } from './job-folder.ts';

const pattern = /^\.slotwatt-new-[0-9a-f]{16}$/;

/** Whether a name is that of the folder of a new job which this program began and did not finish. */
export function isMaking(name: string): boolean {
  return pattern.test(name);
}

/** Removes the folder of a new job that did not come to be. What somebody else put into it keeps it there. */
export async function abandon(disk: Disk, folder: string): Promise<void> {
  const entries = await disk.entries(folder).catch(() => []);
  for (const { name } of entries) {
    if ([jobFile, copyFile, savedByFile].includes(name) || isPart(name))
      await discard(disk, join(folder, name));
  }
  await disk.removeFolder(folder).catch(() => undefined);
}

/**
 * Makes the folder of a new job, whole and on the disk, under a name that nobody sees: it is a job once it is
 * renamed. Leaves nothing behind when the disk fails.
 */
export async function makeAside(disk: Disk, root: string, files: readonly NamedText[]): Promise<string> {
  const folder = join(root, `.slotwatt-new-${randomBytes(8).toString('hex')}`);
  try {
    await disk.makeFolder(folder);
    for (const { name, text } of files) await writeWhole(disk, join(folder, name), text);
    await flushDirectory(disk, folder);
    return folder;
  } catch (error) {
    await abandon(disk, folder);
    throw error;
  }
}
