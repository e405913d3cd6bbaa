import { createHash } from 'node:crypto';
import { basename, join } from 'node:path';
import type { Disk } from './disk.ts';
import { readUpTo, withFile } from './durable-file.ts';
import { isAbsent, isError } from './trouble.ts';

/** A file of the store as it stands: what it says and which version of it this is. */
export interface JobFile {
  readonly text: string;
  readonly etag: string;
  readonly saved: string;
}

/** What stands where a file of the store should be; a trouble is a sentence that says what is wrong and what to do. */
export type Stored =
  | { readonly kind: 'file'; readonly file: JobFile }
  | { readonly kind: 'absent' }
  | { readonly kind: 'trouble'; readonly sentence: string };

/** A folder of the store and the name of a file in it. */
export interface Place {
  readonly folder: string;
  readonly name: string;
}

/** The largest job that is read, in bytes: laid out for reading, one of 400 slots is well below a tenth of it. */
export const largestJob = 16 * 1024 * 1024;

/** Text of a UTF-8 file without the mark that some editors put before it. */
export function withoutMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

/** The version of a text as an HTTP entity tag: whatever changes it changes the tag. */
export function etagOf(text: string): string {
  return `"${createHash('sha256').update(text).digest('hex').slice(0, 32)}"`;
}

const trouble = (sentence: string): Stored => ({ kind: 'trouble', sentence });

/** Why something on the disk cannot be read, from what the system says. */
export function readingTrouble(what: string, error: unknown): string {
  if (isError(error, 'EACCES', 'EPERM'))
    return `${what} may not be read by the service: have its permissions put right.`;
  const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
  return `The disk did not give ${what}${code}: try again, and if it stays so, have the disk looked at and take the job from your backup.`;
}

async function readText(disk: Disk, path: string, most: number): Promise<string> {
  const bytes = await withFile(disk, { path, purpose: 'read' }, (file) => readUpTo(file, most));
  return withoutMark(bytes.toString('utf8'));
}

/** Reads what the two looks allow: an ordinary file, in an ordinary folder, of bounded size. */
async function looked(disk: Disk, { folder, name }: Place, largest: number): Promise<Stored> {
  const shown = `"${basename(folder)}/${name}"`;
  const around = await disk.look(folder);
  if (around.isSymbolicLink())
    return trouble(
      `"${basename(folder)}" is a link, which is never followed: put the folder itself in its place.`,
    );
  const { size, mtime, ...kind } = await lookedAt(disk, join(folder, name));
  if (kind.isLink)
    return trouble(`${shown} is a link, which is never followed: put the file itself in its place.`);
  if (!kind.isFile) return trouble(`${shown} is not a file: move it away and take the job from your backup.`);
  if (size > largest)
    return trouble(`${shown} has ${size} bytes, more than a job can have: look what it is.`);
  const text = await readText(disk, join(folder, name), Number(size));
  return { kind: 'file', file: { text, etag: etagOf(text), saved: mtime.toISOString() } };
}

async function lookedAt(disk: Disk, path: string) {
  const seen = await disk.look(path);
  return { size: seen.size, mtime: seen.mtime, isLink: seen.isSymbolicLink(), isFile: seen.isFile() };
}

/**
 * Reads a file of the store. It follows no link, waits for no pipe and throws nothing: whatever stands there,
 * the answer says so.
 */
export async function readStored(disk: Disk, place: Place, largest = largestJob): Promise<Stored> {
  try {
    return await looked(disk, place, largest);
  } catch (error) {
    if (isAbsent(error)) return { kind: 'absent' };
    return trouble(readingTrouble(`"${basename(place.folder)}/${place.name}"`, error));
  }
}
