import type { Disk, OpenFile } from '../../server/store/disk.ts';

/**
 * How an operation fails: not done, done but reported as failed (as a network does that loses the answer), a write
 * that takes half and then nothing more, or every operation from then on, as when the process is stopped there.
 */
export const manners = ['not done', 'done', 'cut short', 'from then on', 'stopped'] as const;

/** Which operation fails, counted from 0, how, and what the system calls it. */
export interface Failure {
  readonly at: number;
  readonly manner: (typeof manners)[number];
  readonly code: 'ENOSPC' | 'EIO' | 'EACCES';
}

/** A disk that counts its operations and fails where it is told to. */
export interface FailingDisk extends Disk {
  /** How many operations were asked of it. */
  count(): number;
  /** How many files were opened to be read, and the most that were open at once. */
  readonly opened: { reads: number; most: number };
}

/** Wraps a disk. Nothing is flushed: no test cuts the power, and flushing takes long. */
export function failingDisk(disk: Disk, failure?: Failure): FailingDisk {
  let [count, open] = [0, 0];
  const opened = { reads: 0, most: 0 };
  const isLasting = failure?.manner === 'from then on' || failure?.manner === 'stopped';
  const error = (): Error => Object.assign(new Error('made to fail'), { code: failure!.code });

  /** Whether the operation that is asked for now fails. */
  function fails(): boolean {
    const mine = count++;
    return failure !== undefined && (isLasting ? mine >= failure.at : mine === failure.at);
  }

  async function done<Value>(task: () => Promise<Value>): Promise<Value> {
    const failed = fails();
    if (failed && failure!.manner !== 'done') throw error();
    const value = await task();
    if (!failed) return value;
    // A file that was opened although the system complains is closed again.
    if (typeof value === 'object' && value && 'close' in value) await (value as unknown as OpenFile).close();
    throw error();
  }

  let isFull = false;
  async function written(file: OpenFile, bytes: Uint8Array, at: number): Promise<number> {
    if (isFull) return 0;
    if (failure?.manner !== 'cut short') return done(() => file.write(bytes, at));
    isFull = fails();
    return file.write(isFull ? bytes.subarray(0, bytes.length / 2) : bytes, at);
  }

  const wrapped = (file: OpenFile): OpenFile => ({
    read: (into, at) => done(() => file.read(into, at)),
    write: (bytes, at) => written(file, bytes, at),
    flush: () => done(async () => undefined),
    async close() {
      open--;
      // A file is closed even when the system complains about it.
      await file.close();
      await done(async () => undefined);
    },
  });

  return {
    count: () => count,
    opened,
    async open(path, purpose, mode) {
      const file = await done(() => disk.open(path, purpose, mode));
      if (purpose === 'read') opened.reads++;
      opened.most = Math.max(opened.most, ++open);
      return wrapped(file);
    },
    look: (path) => done(() => disk.look(path)),
    entries: (folder) => done(() => disk.entries(folder)),
    resolve: (path) => done(() => disk.resolve(path)),
    makeFolder: (path) => done(() => disk.makeFolder(path)),
    removeFolder: (path) => done(() => disk.removeFolder(path)),
    removeFile: (path) => done(() => disk.removeFile(path)),
    rename: (from, to) => done(() => disk.rename(from, to)),
    link: (from, to) => done(() => disk.link(from, to)),
  };
}
