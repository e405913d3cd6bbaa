import { link, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import writeFileAtomic from 'write-file-atomic';

/** Begins the name of a file that is not finished. */
const partPrefix = '.part-';

/** Flushes a directory, so that a name just made or changed in it survives a power cut. */
export async function flushDirectory(folder: string): Promise<void> {
  // Windows cannot open a directory for flushing; its file system journals names by itself.
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function writeFlushed(path: string, text: string, mode: number): Promise<void> {
  const bytes = Buffer.from(text, 'utf8');
  await writeFileAtomic(path, bytes, { fsync: true, mode });
  // A full disk may cut a write short without an error.
  if ((await stat(path)).size !== bytes.length) {
    throw Object.assign(new Error(`${path} was cut short`), { code: 'ENOSPC' });
  }
}

/**
 * Replaces a file or makes it: whoever reads sees the old bytes or the new ones, never a mixture, and when the
 * promise resolves the new ones are on the disk. Throws what the file system throws, and `ENOSPC` when the disk
 * took less than it was given.
 */
export async function writeDurably(path: string, text: string): Promise<void> {
  await writeFlushed(path, text, 0o644);
  await flushDirectory(dirname(path));
}

/**
 * Makes a file that must not exist yet, as durably as `writeDurably`, and read-only. Throws `EEXIST` when there
 * is one already: the link is what decides, so two writers cannot both win.
 */
export async function writeOnce(path: string, text: string): Promise<void> {
  const folder = dirname(path);
  const part = join(folder, `${partPrefix}${basename(path)}`);
  await writeFlushed(part, text, 0o444);
  try {
    await link(part, path);
  } finally {
    await rm(part, { force: true });
  }
  await flushDirectory(folder);
}

/** Moves a directory or a file, durably at both ends. Throws what the file system throws. */
export async function moveDurably(from: string, to: string): Promise<void> {
  await rename(from, to);
  await flushDirectory(dirname(to));
  await flushDirectory(dirname(from));
}

/** Whether a name in the store is what a process left behind that was stopped in the middle of writing. */
export function isUnfinished(name: string): boolean {
  return name.startsWith(partPrefix) || /\.json\.\d+$/.test(name);
}
