import type { Disk, OpenFile } from '../../server/store/disk.ts';

/**
 * How an operation fails: not done, done but reported as failed (as a network does that loses the answer), a write
 * that takes half and then nothing more, or every operation from then on, as when the process is stopped there.
 */
export const manners = ['not done', 'done', 'cut short', 'from then on', 'stopped'] as const;

type Manner = (typeof manners)[number];

/** What an operation does to the disk: nothing, something, or it puts bytes on it. */
export type Effect = 'none' | 'change' | 'write';

/**
 * The manners of failing that differ for an operation of such an effect. Where nothing changes, whoever asked cannot tell an
 * operation done from one not done, and only a write is cut short; a stopped process leaves what lasting failure leaves.
 */
export const differing: Readonly<Record<Effect, readonly Manner[]>> = {
  none: ['not done', 'from then on'],
  change: ['not done', 'from then on', 'done'],
  write: ['not done', 'from then on', 'done', 'cut short'],
};

/** Which operation fails, counted from 0, how, and what the system calls it. */
export interface Failure {
  readonly at: number;
  readonly manner: Manner;
  readonly code: 'ENOSPC' | 'EIO' | 'EACCES';
}

/** A disk that counts its operations and fails where it is told to. */
export interface FailingDisk extends Disk {
  /** How many operations were asked of it. */
  count(): number;
  /** What each of them does when it succeeds. */
  readonly effects: readonly Effect[];
  /** How many files were opened to be read, and the most that were open at once. */
  readonly opened: { reads: number; most: number };
}

/** Wraps a disk. Nothing is flushed: no test cuts the power, and flushing takes long. */
export function failingDisk(disk: Disk, failure?: Failure): FailingDisk {
  let open = 0;
  const effects: Effect[] = [];
  const opened = { reads: 0, most: 0 };
  const isLasting = failure?.manner === 'from then on' || failure?.manner === 'stopped';
  const error = (): Error => Object.assign(new Error('made to fail'), { code: failure!.code });

  /** Whether the operation that is asked for now fails. */
  function fails(effect: Effect): boolean {
    const mine = effects.push(effect) - 1;
    return failure !== undefined && (isLasting ? mine >= failure.at : mine === failure.at);
  }

  async function done<Value>(effect: Effect, task: () => Promise<Value>): Promise<Value> {
    const failed = fails(effect);
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
    if (failure?.manner !== 'cut short') return done('write', () => file.write(bytes, at));
    isFull = fails('write');
    return file.write(isFull ? bytes.subarray(0, bytes.length / 2) : bytes, at);
  }

  const wrapped = (file: OpenFile): OpenFile => ({
    read: (into, at) => done('none', () => file.read(into, at)),
    write: (bytes, at) => written(file, bytes, at),
    flush: () => done('none', async () => undefined),
    async close() {
      open--;
      // A file is closed even when the system complains about it.
      await file.close();
      await done('none', async () => undefined);
    },
  });

  return {
    count: () => effects.length,
    effects,
    opened,
    async open(path, purpose, mode) {
      const effect = purpose === 'make' ? 'change' : 'none';
      const file = await done(effect, () => disk.open(path, purpose, mode));
      if (purpose === 'read') opened.reads++;
      opened.most = Math.max(opened.most, ++open);
      return wrapped(file);
    },
    look: (path) => done('none', () => disk.look(path)),
    entries: (folder) => done('none', () => disk.entries(folder)),
    resolve: (path) => done('none', () => disk.resolve(path)),
    makeFolder: (path) => done('change', () => disk.makeFolder(path)),
    removeFolder: (path) => done('change', () => disk.removeFolder(path)),
    removeFile: (path) => done('change', () => disk.removeFile(path)),
    rename: (from, to) => done('change', () => disk.rename(from, to)),
    link: (from, to) => done('change', () => disk.link(from, to)),
  };
}
