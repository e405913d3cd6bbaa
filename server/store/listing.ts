import type { BigIntStats } from 'node:fs';
import type { Disk } from './disk.ts';
import { lookIfThere } from './durable-file.ts';
import { createLimit } from './limit.ts';

/**
 * A disk that looks at each path once and then answers from memory, failures as well. It is for reading one entry:
 * what tells later whether the entry changed is then the very look it was read by.
 */
function lookingOnce(disk: Disk): Disk {
  const looks = new Map<string, Promise<BigIntStats>>();
  return {
    ...disk,
    look: (path) => {
      const look = looks.get(path) ?? disk.look(path);
      looks.set(path, look);
      return look;
    },
  };
}

/** What an entry was read as, and by what of each path it depends on it is known that nothing changed since. */
interface Seen<Entry> {
  readonly marks: readonly (readonly [path: string, mark: string])[];
  readonly entry: Entry;
}

/** What was read of the entries of a folder, by name. */
export type Memory<Entry> = ReadonlyMap<string, Seen<Entry>>;

/** Two changes may fall within what the clock of a disk tells apart: FAT counts in 2 s. */
const settled_ms = 3000;

/** What tells one state of a file or folder from another. */
async function markOf(disk: Disk, path: string): Promise<{ mark: string; changed_ms: number }> {
  const seen = await lookIfThere(disk, path).catch(() => null);
  if (seen === undefined) return { mark: 'absent', changed_ms: 0 };
  // What cannot be looked at is read each time, and says itself what is wrong with it.
  if (seen === null) return { mark: 'unknown', changed_ms: Number.POSITIVE_INFINITY };
  const { dev, ino, size, mtimeMs, ctimeMs, mtimeNs, ctimeNs } = seen;
  const changed_ms = Math.max(Number(mtimeMs), Number(ctimeMs));
  return { mark: [dev, ino, size, mtimeNs, ctimeNs].join(':'), changed_ms };
}

/** How an entry of a folder is read. */
export interface Reading<Entry> {
  /** What on the disk an entry may depend on, and out of that what it does depend on once it was read. */
  readonly mayDependOn: (name: string) => readonly string[];
  readonly dependsOn: (name: string, entry: Entry) => readonly string[];
  readonly read: (name: string, disk: Disk) => Promise<Entry>;
  /** Whether it may be remembered. */
  readonly isWell: (entry: Entry) => boolean;
}

async function isUnchanged(disk: Disk, { marks }: Seen<unknown>): Promise<boolean> {
  const now = await Promise.all(marks.map(([path]) => markOf(disk, path)));
  return now.every(({ mark }, k) => mark === marks[k]![1]);
}

/** Reads an entry, and says what to remember of it: nothing where something changed a moment ago. */
async function freshly<Entry>(
  disk: Disk,
  name: string,
  { mayDependOn, dependsOn, read, isWell }: Reading<Entry>,
): Promise<{ entry: Entry; seen?: Seen<Entry> }> {
  const now_ms = Date.now();
  const once = lookingOnce(disk);
  const before = await Promise.all(
    mayDependOn(name).map(async (path) => ({ path, ...(await markOf(once, path)) })),
  );
  const entry = await read(name, once);
  const wanted = dependsOn(name, entry);
  const marks = before.filter(({ path }) => wanted.includes(path));
  if (!isWell(entry) || marks.some(({ changed_ms }) => changed_ms > now_ms - settled_ms)) return { entry };
  return { entry, seen: { entry, marks: marks.map(({ path, mark }) => [path, mark] as const) } };
}

/**
 * Reads the entries of a folder, a few at a time, and only those that changed since they were last read: a file is
 * known by time of change, size and number. What changed a moment ago is read again the next time, because its time
 * of change may not tell it from the next change.
 */
export async function readEntries<Entry>(
  disk: Disk,
  names: readonly string[],
  past: Memory<Entry>,
  reading: Reading<Entry>,
): Promise<{ entries: Entry[]; memory: Memory<Entry> }> {
  const limited = createLimit(16);
  const memory = new Map<string, Seen<Entry>>();
  const one = async (name: string): Promise<Entry> => {
    const known = past.get(name);
    const isKnown = known !== undefined && (await isUnchanged(disk, known));
    const { entry, seen } = isKnown
      ? { entry: known.entry, seen: known }
      : await freshly(disk, name, reading);
    if (seen) memory.set(name, seen);
    return entry;
  };
  const entries = await Promise.all(names.map((name) => limited(() => one(name))));
  return { entries, memory };
}
