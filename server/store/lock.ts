import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { z } from 'zod';
import type { Disk } from './disk.ts';
import { discard, partName, writeOnce } from './durable-file.ts';
import { readStored } from './stored-file.ts';
import { isAbsent, isError, StoreTrouble } from './trouble.ts';

/** The file that says which service uses the workshop's folder. */
export const lockFile = '.slotwatt-lock';

const format = { name: 'slotwatt-lock', version: 1 } as const;

const holder = z.object({
  format: z.object({ name: z.literal(format.name), version: z.literal(format.version) }),
  id: z.string().describe('of this holding, never used again'),
  pid: z.int().positive(),
  host: z.string(),
  process: z.string().describe('which start of that process number, as far as the system tells'),
  since: z.string(),
});

type Holder = z.infer<typeof holder>;

/** The workshop's folder, held by this service alone. */
export interface Lock {
  /** Throws `folder-lost` when the folder is held no longer, so that nothing is written beside another service. */
  expectHeld(): Promise<void>;
  /** Lets go of the folder. */
  release(): Promise<void>;
}

/**
 * Which start of a process number this is: since when the computer is up, and when in that time the process began
 * (Linux, proc(5): field 22 of the stat file). Empty where the system does not tell, and for no process.
 */
function startOf(pid: number): string {
  try {
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name of the program, in brackets, may hold anything; the fields after it are numbers.
    return `${boot} ${stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]}`;
  } catch {
    return '';
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // The process of somebody else runs too.
    return isError(error, 'EPERM');
  }
}

/** Whether the holder may still be at work. Of another computer that cannot be told from here. */
function mayBeAtWork(held: Holder): boolean {
  if (held.host !== hostname()) return true;
  return isRunning(held.pid) && (held.process === '' || startOf(held.pid) === held.process);
}

function inUse(root: string, by: string): StoreTrouble {
  return new StoreTrouble(
    'folder-in-use',
    `The folder of jobs ${root} is in use by another Slotwatt (${by}). Use that one, or stop it first, or choose another folder with SLOTWATT_JOBS. If no other Slotwatt runs there any more, delete the file ${join(root, lockFile)} and start again.`,
  );
}

const described = ({ pid, host, since }: Holder): string => `process ${pid} on ${host}, since ${since}`;

type Found = Holder | 'absent' | 'unreadable';

/** Who holds the folder. Throws what the file system throws. */
async function holderIn(disk: Disk, folder: string, name = lockFile): Promise<Found> {
  const stored = await readStored(disk, { folder, name });
  if (stored.kind === 'absent') return 'absent';
  if (stored.kind === 'trouble') return 'unreadable';
  try {
    const read = holder.safeParse(JSON.parse(stored.file.text));
    return read.success ? read.data : 'unreadable';
  } catch {
    return 'unreadable';
  }
}

/** Whether the lock was made. Not when there is one. */
async function made(disk: Disk, root: string, mine: Holder): Promise<boolean> {
  try {
    await writeOnce(disk, root, { name: lockFile, text: `${JSON.stringify(mine, null, 2)}\n` }, 0o644);
    return true;
  } catch (error) {
    // Absent: whoever holds the folder tidied away the part that was to become the lock.
    if (isError(error, 'EEXIST', 'ENOENT')) return false;
    throw error;
  }
}

/**
 * Takes away the lock of a process that has ended. Another service may be doing the same: what was taken away is
 * looked at again, and put back when it is not the one that was meant.
 */
async function takeAway(disk: Disk, root: string, ended: Holder): Promise<void> {
  const aside = partName();
  try {
    await disk.rename(join(root, lockFile), join(root, aside));
  } catch (error) {
    if (isAbsent(error)) return;
    throw error;
  }
  const taken = await holderIn(disk, root, aside);
  if (typeof taken === 'object' && taken.id !== ended.id)
    await disk.link(join(root, aside), join(root, lockFile)).catch(() => undefined);
  await discard(disk, join(root, aside));
}

const attempts = 20;

async function take(disk: Disk, root: string, mine: Holder): Promise<void> {
  for (let attempt = 1; attempt <= attempts; attempt++) {
    if (await made(disk, root, mine)) return;
    const found = await holderIn(disk, root);
    if (typeof found === 'object' && mayBeAtWork(found)) throw inUse(root, described(found));
    if (typeof found === 'object') await takeAway(disk, root, found);
    // What cannot be read may be in the middle of being made.
    else if (found === 'unreadable') await wait(25);
  }
  throw inUse(root, 'its lock file cannot be read');
}

const lost = (root: string): StoreTrouble =>
  new StoreTrouble(
    'folder-lost',
    `Nothing was changed: this service no longer holds the folder of jobs. Another Slotwatt took it over, or the file ${lockFile} in it was deleted, or its disk is gone (${root}). Stop this service, see to that, and start it again.`,
  );

/**
 * Takes the workshop's folder for this service alone, for as long as the process lives or until it is released.
 * The lock of a process that has ended is taken over. Throws `folder-in-use` when another service holds it, and
 * what the file system throws.
 */
export async function takeLock(disk: Disk, root: string): Promise<Lock> {
  const mine: Holder = {
    format,
    id: randomUUID(),
    pid: process.pid,
    host: hostname(),
    process: startOf(process.pid),
    since: new Date().toISOString(),
  };
  const isMine = (found: Found): boolean => typeof found === 'object' && found.id === mine.id;
  await take(disk, root, mine);
  return {
    async expectHeld() {
      if (!isMine(await holderIn(disk, root))) throw lost(root);
    },
    async release() {
      if (isMine(await holderIn(disk, root))) await discard(disk, join(root, lockFile));
    },
  };
}
