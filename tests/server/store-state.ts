import { readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { waitingDisk } from '../../server/store/disk.ts';
import { lockFile } from '../../server/store/lock.ts';
import { readRevisionFile } from '../../server/store/revision-files.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import { failingDisk } from './failing-disk.ts';

/** A kept job as its bytes on the disk say, and the revisions issued of it, by id. */
export interface JobState {
  readonly job: string;
  readonly copy: string;
  readonly revisions: Readonly<Record<string, unknown>>;
  /** Boxes written on each revision, by its id: row, quantity, value. */
  readonly readings: Readonly<Record<string, unknown>>;
}

/** A deleted job: its name in the bin, the id it had, and what is in it. */
interface BinnedState {
  readonly name: string;
  readonly id: string;
  readonly state: JobState;
}

/** Everything that is kept: jobs by id, and deleted ones in the order they were deleted. */
export interface StoreState {
  readonly jobs: Readonly<Record<string, JobState>>;
  readonly bin: readonly BinnedState[];
  /** The file of own products. */
  readonly products: string;
  /** Names that do not belong: unfinished files, and what the store cannot account for. */
  readonly debris: readonly string[];
}

const visible = async (folder: string): Promise<string[]> =>
  (await readdir(folder).catch(() => [])).filter((name) => !name.startsWith('.')).sort();

async function revisionState(folder: string, id: string): Promise<unknown> {
  const { read } = await readRevisionFile(waitingDisk, folder, id);
  if (!read.ok) return read.issues[0]!.sentence;
  const { issued, predecessor, ...content } = read.value;
  return content;
}

async function readingState(folder: string, name: string): Promise<unknown> {
  const text = await readFile(join(folder, 'readings', name), 'utf8');
  try {
    const { written } = JSON.parse(text);
    return written.map(({ row, quantity, value }: Record<string, unknown>) => [row, quantity, value]);
  } catch (error) {
    return String(error);
  }
}

async function jobState(folder: string): Promise<JobState> {
  const text = (name: string): Promise<string> =>
    readFile(join(folder, name), 'utf8').catch((error) => String(error.code));
  const revisions = (await visible(join(folder, 'revisions'))).map(
    async (name) =>
      [name.slice(0, -'.json'.length), await revisionState(folder, name.slice(0, -'.json'.length))] as const,
  );
  const readings = (await visible(join(folder, 'readings'))).map(
    async (name) => [name.slice(0, -'.json'.length), await readingState(folder, name)] as const,
  );
  return {
    job: await text('job.json'),
    copy: await text('last-good-copy.json'),
    revisions: Object.fromEntries(await Promise.all(revisions)),
    readings: Object.fromEntries(await Promise.all(readings)),
  };
}

async function statesIn(folder: string): Promise<(readonly [name: string, state: JobState])[]> {
  const names = await visible(folder);
  return Promise.all(names.map(async (name) => [name, await jobState(join(folder, name))] as const));
}

/** What lies in a workshop's folder, read past the store, byte by byte. */
export async function storeState(root: string): Promise<StoreState> {
  const all = await readdir(root, { recursive: true });
  return {
    jobs: Object.fromEntries(await statesIn(root)),
    bin: (await statesIn(join(root, '.bin'))).map(([name, state]) => ({
      name,
      id: name.slice('20260101t000000000-'.length),
      state,
    })),
    products: await readFile(join(root, '.products', 'products.json'), 'utf8').catch((error) =>
      String(error.code),
    ),
    debris: all.filter((name) => name.includes('.slotwatt-') && name !== lockFile).sort(),
  };
}

/** Opens a workshop's folder whose service was stopped: the lock names a process of this test, which still runs. */
export async function openAfterStop(root: string): Promise<Workshop> {
  await rm(join(root, lockFile), { force: true });
  const workshop = await openWorkshop(root, failingDisk(waitingDisk));
  await workshop.tidied();
  return workshop;
}
