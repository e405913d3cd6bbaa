import { rmdir } from 'node:fs/promises';
import { join } from 'node:path';
import { readJobText } from '../../src/index.ts';
import { found, refused } from '../../src/outcome.ts';
import type { BinnedJob, KeptJob } from '../contract/kept-jobs.ts';
import { moveDurably } from './durable-file.ts';
import { storeIssue } from './issues.ts';
import { binFolder, jobFile, namesIn, readJobFile } from './job-folder.ts';
import {
  entryOf,
  fileOf,
  folderOf,
  type Kept,
  keep,
  onVersion,
  underNewId,
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

async function binnedJob(workshop: Workshop, binnedId: string): Promise<BinnedJob[]> {
  const file = await readJobFile(join(workshop.root, binFolder, binnedId, jobFile));
  if (!file) return [];
  const read = readJobText(file.text);
  return [
    { id: binnedId, name: read.ok ? read.value.title.job : formerId(binnedId), deleted: deletedAt(binnedId) },
  ];
}

/** What lies in the bin, latest first. */
export async function listBin(workshop: Workshop): Promise<BinnedJob[]> {
  const names = (await namesIn(join(workshop.root, binFolder))).filter((name) => pattern.test(name));
  return (await Promise.all(names.map((name) => binnedJob(workshop, name)))).flat().reverse();
}

/** Moves a job with all its revisions to the bin, whole. Refuses as `onVersion` does. */
export function removeJob(workshop: Workshop, at: { id: string; version: Version }): Kept<BinnedJob> {
  return onVersion(workshop, at, async () => {
    const binned = binnedName(at.id, new Date());
    await moveDurably(folderOf(workshop, at.id), join(workshop.root, binFolder, binned));
    return found((await binnedJob(workshop, binned))[0]!);
  });
}

async function backFromBin(workshop: Workshop, binnedId: string, id: string): Promise<KeptJob> {
  // The folder just claimed is empty and makes way for the one that comes back.
  await rmdir(folderOf(workshop, id));
  await moveDurably(join(workshop.root, binFolder, binnedId), folderOf(workshop, id));
  return entryOf(workshop, id, (await fileOf(workshop, id))!);
}

/** Brings a deleted job back, under its former id when that is still free. Refuses what is not in the bin. */
export function restoreJob(workshop: Workshop, binnedId: string): Kept<KeptJob> {
  return workshop.inTurn(join(binFolder, binnedId), async () => {
    const inBin = (await listBin(workshop)).some((entry) => entry.id === binnedId);
    if (inBin)
      return keep(underNewId(workshop, formerId(binnedId), (id) => backFromBin(workshop, binnedId, id)));
    return refused(
      storeIssue('not-in-the-bin', `There is no "${binnedId}" in the bin: take one from its list.`),
    );
  });
}
