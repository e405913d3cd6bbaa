import { join } from 'node:path';
import { readJobText } from '../../src/index.ts';
import { found, refused } from '../../src/outcome.ts';
import type { BinnedJob, KeptJob } from '../contract/kept-jobs.ts';
import { moveDurably } from './durable-file.ts';
import { storeIssue } from './issues.ts';
import { binFolder, expectFolder, isId, jobFile, makeFolder } from './job-folder.ts';
import { type Memory, readEntries } from './listing.ts';
import { sharedRun } from './shared-run.ts';
import { readStored, type Stored } from './stored-file.ts';
import { isAbsent } from './trouble.ts';
import {
  folderOf,
  type Kept,
  keep,
  onVersion,
  readBack,
  underNewId,
  unopened,
  type Version,
  type Workshop,
} from './workshop.ts';

const pattern = /^(\d{4})(\d{2})(\d{2})t(\d{2})(\d{2})(\d{2})(\d{3})-(.+)$/;

/** The name a deleted job gets in the bin: when it was deleted, then its id. */
export function binnedName(id: string, deleted: Date): string {
  return `${deleted
    .toISOString()
    .toLowerCase()
    .replaceAll(/[-:.z]/g, '')}-${id}`;
}

function deletedAt(binnedId: string): string {
  const [, year, month, day, hour, minute, second, ms] = pattern.exec(binnedId) ?? [];
  return `${year}-${month}-${day}T${hour}:${minute}:${second}.${ms}Z`;
}

const formerId = (binnedId: string): string => pattern.exec(binnedId)![8]!;

const binnedFolder = ({ root }: Workshop, binnedId: string): string => join(root, binFolder, binnedId);

const fileInBin = (workshop: Workshop, binnedId: string): Promise<Stored> =>
  readStored(workshop.disk, { folder: binnedFolder(workshop, binnedId), name: jobFile });

async function binnedJob(workshop: Workshop, id: string): Promise<BinnedJob> {
  const stored = await fileInBin(workshop, id);
  const read = stored.kind === 'file' ? readJobText(stored.file.text) : undefined;
  return { id, name: read?.ok ? read.value.title.job : formerId(id), deleted: deletedAt(id) };
}

/** Names of what was deleted, latest first; what else lies in the bin is left alone. */
async function binnedIds({ disk, root }: Workshop): Promise<string[]> {
  try {
    await expectFolder(disk, join(root, binFolder));
    const entries = await disk.entries(join(root, binFolder));
    const jobs = entries.filter(
      (entry) => entry.isDirectory() && pattern.test(entry.name) && isId(entry.name),
    );
    return jobs
      .map(({ name }) => name)
      .sort()
      .reverse();
  } catch (error) {
    if (isAbsent(error)) return [];
    throw error;
  }
}

/** Makes the list of what lies in the bin, latest first. Only what changed since the last time is read again. */
export function binList(workshop: Workshop): () => Promise<BinnedJob[]> {
  const fileOfBinned = (id: string): string[] => [join(binnedFolder(workshop, id), jobFile)];
  let past: Memory<BinnedJob> = new Map();
  return sharedRun(async () => {
    const { entries, memory } = await readEntries(workshop.disk, await binnedIds(workshop), past, {
      mayDependOn: fileOfBinned,
      dependsOn: fileOfBinned,
      read: (id, disk) => binnedJob({ ...workshop, disk }, id),
      isWell: () => true,
    });
    past = memory;
    return entries;
  });
}

/** Moves a job with all its revisions to the bin, whole. Refuses as `onVersion` does. */
export function removeJob(workshop: Workshop, at: { id: string; version: Version }): Kept<BinnedJob> {
  return onVersion(workshop, at, async () => {
    const binned = binnedName(at.id, new Date());
    await makeFolder(workshop.disk, join(workshop.root, binFolder));
    await moveDurably(workshop.disk, folderOf(workshop, at.id), binnedFolder(workshop, binned));
    return found(await binnedJob(workshop, binned));
  });
}

async function broughtBack(workshop: Workshop, binnedId: string): Promise<KeptJob> {
  await expectFolder(workshop.disk, join(workshop.root, binFolder));
  return readBack(workshop, await underNewId(workshop, binnedFolder(workshop, binnedId), formerId(binnedId)));
}

/** Brings a deleted job back, under its former id when that is still free. Refuses what is not in the bin. */
export function restoreJob(workshop: Workshop, binnedId: string): Kept<KeptJob> {
  return workshop.inTurn(join(binFolder, binnedId), async () => {
    const stored = pattern.test(binnedId) ? await fileInBin(workshop, binnedId) : undefined;
    if (stored?.kind === 'file') return keep(broughtBack(workshop, binnedId));
    if (stored?.kind === 'trouble') return refused(unopened(stored.sentence));
    return refused(
      storeIssue('not-in-the-bin', `There is no "${binnedId}" in the bin: take one from its list.`),
    );
  });
}
