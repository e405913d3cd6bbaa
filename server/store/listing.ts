import type { Disk } from './disk.ts';
import { lookIfThere } from './durable-file.ts';
import { createLimit } from './limit.ts';

/** What an entry was read as, and by what it is known that nothing changed since. */
interface Seen<Entry> {
  readonly mark: string;
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

/** How an entry of a folder is read, and what on the disk it depends on. */
export interface Reading<Entry> {
  readonly dependsOn: (name: string) => readonly string[];
  readonly read: (name: string) => Promise<Entry>;
  /** Whether it may be remembered. */
  readonly isWell: (entry: Entry) => boolean;
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
  { dependsOn, read, isWell }: Reading<Entry>,
): Promise<{ entries: Entry[]; memory: Memory<Entry> }> {
  const limited = createLimit(16);
  const memory = new Map<string, Seen<Entry>>();
  const one = async (name: string): Promise<Entry> => {
    const now_ms = Date.now();
    const marks = await Promise.all(dependsOn(name).map((path) => markOf(disk, path)));
    const mark = marks.map((each) => each.mark).join(' ');
    const known = past.get(name);
    const entry = known?.mark === mark ? known.entry : await read(name);
    const isSettled = marks.every(({ changed_ms }) => changed_ms < now_ms - settled_ms);
    if (isSettled && isWell(entry)) memory.set(name, { mark, entry });
    return entry;
  };
  const entries = await Promise.all(names.map((name) => limited(() => one(name))));
  return { entries, memory };
}
