import { randomBytes } from 'node:crypto';
import type { BigIntStats } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Disk, OpenFile } from './disk.ts';
import { createLimit } from './limit.ts';
import { isAbsent, isError, StoreTrouble, unsure } from './trouble.ts';

/** A text and the name of the file in a folder that is to hold it. */
export interface NamedText {
  readonly name: string;
  readonly text: string;
}

/** However many ask at once, the store holds no more files open than this. */
const limited = createLimit(48);

/** Opens a file, does something with it, and closes it whatever happens. A task may not open another one inside. */
export function withFile<Value>(
  disk: Disk,
  { path, purpose, mode }: { path: string; purpose: Parameters<Disk['open']>[1]; mode?: number },
  task: (file: OpenFile) => Promise<Value>,
): Promise<Value> {
  return limited(async () => {
    const file = await disk.open(path, purpose, mode);
    try {
      return await task(file);
    } finally {
      await file.close();
    }
  });
}

const partPattern = /^\.slotwatt-part-[0-9a-f]{16}$/;

/** A new name for a file that is not finished. */
export const partName = (): string => `.slotwatt-part-${randomBytes(8).toString('hex')}`;

/** Whether a name is that of a file which this program began and did not finish; nobody else makes such names. */
export function isPart(name: string): boolean {
  return partPattern.test(name);
}

/** Flushes a directory, so that a name just made or changed in it survives a power cut. */
export async function flushDirectory(disk: Disk, folder: string): Promise<void> {
  // Windows cannot open a directory for flushing; its file system journals names by itself.
  if (process.platform === 'win32') return;
  await withFile(disk, { path: folder, purpose: 'flush-folder' }, (file) => file.flush());
}

const cutShort = (): Error =>
  Object.assign(new Error('the disk took less than it was given'), { code: 'ENOSPC' });

async function writeAll(file: OpenFile, bytes: Uint8Array): Promise<void> {
  for (let at = 0; at < bytes.length; ) {
    const count = await file.write(bytes.subarray(at), at);
    if (count === 0) throw cutShort();
    at += count;
  }
}

/** Reads up to so many bytes from the beginning of a file. */
export async function readUpTo(file: OpenFile, most: number): Promise<Buffer> {
  const into = Buffer.alloc(most);
  let at = 0;
  while (at < most) {
    const count = await file.read(into.subarray(at), at);
    if (count === 0) break;
    at += count;
  }
  return into.subarray(0, at);
}

/** Makes a file: writes all of it, flushes it, reads it back and compares. It must not be there yet. */
export async function writeWhole(disk: Disk, path: string, text: string, mode = 0o644): Promise<void> {
  const bytes = Buffer.from(text, 'utf8');
  await withFile(disk, { path, purpose: 'make', mode }, async (file) => {
    await writeAll(file, bytes);
    await file.flush();
    // A full disk may cut a write short without an error.
    if (!bytes.equals(await readUpTo(file, bytes.length + 1))) throw cutShort();
  });
}

/** Removes a file of the store's own making when it is in the way; what cannot be removed stays for the tidying. */
export async function discard(disk: Disk, path: string): Promise<void> {
  await disk.removeFile(path).catch(() => undefined);
}

async function writePart(disk: Disk, folder: string, text: string, mode?: number): Promise<string> {
  const part = join(folder, partName());
  try {
    await writeWhole(disk, part, text, mode);
    return part;
  } catch (error) {
    await discard(disk, part);
    throw error;
  }
}

/** What stands at a path, undefined when nothing does. Throws what the file system throws when that cannot be told. */
export async function lookIfThere(disk: Disk, path: string): Promise<BigIntStats | undefined> {
  try {
    return await disk.look(path);
  } catch (error) {
    if (isAbsent(error)) return undefined;
    throw error;
  }
}

/** Whether something stands at a path. */
export async function isThere(disk: Disk, path: string): Promise<boolean> {
  return (await lookIfThere(disk, path)) !== undefined;
}

/** Renames. Throws the error when it was not done for sure, and `unsure` when it may have been. */
async function renameSurely(disk: Disk, from: string, to: string): Promise<void> {
  try {
    await disk.rename(from, to);
  } catch (error) {
    // A network may lose the answer of a rename that was done.
    if (await isThere(disk, from).catch(() => false)) throw error;
    throw unsure(error);
  }
}

async function orUnsure(task: () => Promise<void>): Promise<void> {
  try {
    await task();
  } catch (error) {
    throw error instanceof StoreTrouble ? error : unsure(error);
  }
}

/**
 * Replaces files of one folder, or makes them: whoever reads sees the old bytes or the new ones, never a mixture,
 * and when the promise resolves the new ones are on the disk. All are written, flushed and compared before the
 * first takes its place, so that a full disk changes nothing. Throws what the file system throws when nothing was
 * changed, and `unsure` from then on.
 */
export async function writeDurably(disk: Disk, folder: string, files: readonly NamedText[]): Promise<void> {
  const parts: { part: string; path: string }[] = [];
  try {
    for (const { name, text } of files) {
      parts.push({ part: await writePart(disk, folder, text), path: join(folder, name) });
    }
    await renameSurely(disk, parts[0]!.part, parts[0]!.path);
    await orUnsure(async () => {
      for (const { part, path } of parts.slice(1)) await disk.rename(part, path);
      await flushDirectory(disk, folder);
    });
  } catch (error) {
    for (const { part } of parts) await discard(disk, part);
    throw error;
  }
}

/** Gives a part its name unless that is taken. Throws `EEXIST` when it is. */
async function nameOnce(disk: Disk, part: string, path: string): Promise<void> {
  try {
    // The link is what decides, so two writers cannot both win.
    await disk.link(part, path);
  } catch (error) {
    if (!isError(error, 'EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK')) throw error;
    // Sticks and some network disks have no hard links; there the lock of the folder keeps others away.
    if (await isThere(disk, path)) throw Object.assign(new Error(`${path} is there`), { code: 'EEXIST' });
    await renameSurely(disk, part, path);
  }
}

/**
 * Makes a file that must not exist yet, as durably as `writeDurably`, by default read-only. Throws `EEXIST` when
 * there is one already.
 */
export async function writeOnce(disk: Disk, folder: string, file: NamedText, mode = 0o444): Promise<void> {
  const path = join(folder, file.name);
  const part = await writePart(disk, folder, file.text, mode);
  try {
    await nameOnce(disk, part, path);
  } catch (error) {
    const isSure = isError(error, 'EEXIST') || !(await isThere(disk, path).catch(() => true));
    throw isSure || error instanceof StoreTrouble ? error : unsure(error);
  } finally {
    await discard(disk, part);
  }
  await orUnsure(() => flushDirectory(disk, folder));
}

/** Moves a directory or a file, durably at both ends. Throws as `writeDurably` does. */
export async function moveDurably(disk: Disk, from: string, to: string): Promise<void> {
  await renameSurely(disk, from, to);
  await orUnsure(async () => {
    await flushDirectory(disk, dirname(to));
    await flushDirectory(disk, dirname(from));
  });
}
