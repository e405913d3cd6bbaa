import { readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { realDisk } from '../../server/store/disk.ts';
import { lockFile } from '../../server/store/lock.ts';
import { readRevision } from '../../server/store/revision-files.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import { failingDisk } from './failing-disk.ts';

/** A kept job as its bytes on the disk say, and the revisions issued of it, by id. */
export interface JobState {
  readonly job: string;
  readonly copy: string;
  readonly revisions: Readonly<Record<string, unknown>>;
}

/** Everything that is kept: jobs by id, deleted ones by the id they had. */
export interface StoreState {
  readonly jobs: Readonly<Record<string, JobState>>;
  readonly bin: Readonly<Record<string, JobState>>;
  /** Names that do not belong: unfinished files, and what the store cannot account for. */
  readonly debris: readonly string[];
}

const visible = async (folder: string): Promise<string[]> =>
  (await readdir(folder).catch(() => [])).filter((name) => !name.startsWith('.')).sort();

async function revisionState(folder: string, name: string): Promise<unknown> {
  const read = await readRevision(realDisk, folder, name.slice(0, -'.json'.length));
  if (!read.ok) return read.issues[0]!.sentence;
  const { issued, ...content } = read.value;
  return content;
}

async function jobState(folder: string): Promise<JobState> {
  const text = (name: string): Promise<string> =>
    readFile(join(folder, name), 'utf8').catch((error) => String(error.code));
  const revisions = (await visible(join(folder, 'revisions'))).map(
    async (name) => [name, await revisionState(folder, name)] as const,
  );
  return {
    job: await text('job.json'),
    copy: await text('last-good-copy.json'),
    revisions: Object.fromEntries(await Promise.all(revisions)),
  };
}

async function statesIn(folder: string, idOf: (name: string) => string): Promise<Record<string, JobState>> {
  const names = await visible(folder);
  return Object.fromEntries(
    await Promise.all(names.map(async (name) => [idOf(name), await jobState(join(folder, name))] as const)),
  );
}

/** What lies in a workshop's folder, read past the store, byte by byte. */
export async function storeState(root: string): Promise<StoreState> {
  const all = await readdir(root, { recursive: true });
  return {
    jobs: await statesIn(root, (name) => name),
    bin: await statesIn(join(root, '.bin'), (name) => name.slice('20260101t000000000-'.length)),
    debris: all.filter((name) => name.includes('.slotwatt-') && name !== lockFile).sort(),
  };
}

/** Opens a workshop's folder whose service was stopped: the lock names a process of this test, which still runs. */
export async function openAfterStop(root: string): Promise<Workshop> {
  await rm(join(root, lockFile), { force: true });
  const workshop = await openWorkshop(root, failingDisk(realDisk));
  await workshop.tidied();
  return workshop;
}
