import type { Dirent } from 'node:fs';
import { readJobText } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { found, refused } from '../../src/outcome.ts';
import type { KeptJob, ListedJob } from '../contract/kept-jobs.ts';
import { isThere } from './durable-file.ts';
import { storeIssue } from './issues.ts';
import { dependedOn, isId, jobFile, readKept } from './job-folder.ts';
import { type Memory, readEntries } from './listing.ts';
import { abandon, makeAside } from './making.ts';
import { readSavedBy } from './saved-by.ts';
import { slugOf } from './slug.ts';
import type { JobFile } from './stored-file.ts';
import { isAbsent, StoreTrouble } from './trouble.ts';
import {
  copyOf,
  entryOf,
  fileOf,
  fileOr,
  filesOf,
  folderOf,
  type JobsFolder,
  type Kept,
  keep,
  noSuchJob,
  onVersion,
  readBack,
  underNewId,
  type Version,
  type Workshop,
  written,
} from './workshop.ts';

/** A kept job, opened: its document, when it was saved, and the version to send back when saving over it. */
export interface OpenedJob {
  readonly job: Job;
  readonly etag: string;
  readonly saved: string;
  readonly savedBy: string;
}

const renamed = (job: Job, name: string): Job => ({ ...job, title: { ...job.title, job: name } });

/** What stands in the workshop's folder and is no job that can be worked with. */
const noJob = (name: string, trouble: string): ListedJob => ({
  id: null,
  name,
  client: '',
  documentNumber: '',
  revision: '',
  saved: '',
  savedBy: '',
  etag: '',
  revisions: [],
  trouble,
});

async function withoutJobFile(jobs: JobsFolder, name: string): Promise<ListedJob> {
  const copy = await copyOf(jobs, name);
  if (copy.kind === 'file')
    return noJob(
      name,
      `The file ${jobFile} of the job "${name}" is gone: start the service again, and it comes back from its last good copy.`,
    );
  return noJob(name, `The folder "${name}" holds no job and is left as it is.`);
}

function misnamed(name: string): ListedJob {
  return noJob(
    name,
    `The folder "${name}" is left as it is, because a job’s folder has a name of small letters, digits and single hyphens: if it is a job, stop the service and name it "${slugOf(name, 'job')}" or otherwise.`,
  );
}

async function listedFolder(jobs: JobsFolder, name: string): Promise<ListedJob> {
  if (!isId(name)) return misnamed(name);
  const stored = await fileOf(jobs, name);
  if (stored.kind === 'file') return entryOf(jobs, name, stored.file);
  if (stored.kind === 'absent') return withoutJobFile(jobs, name);
  return noJob(name, stored.sentence);
}

function listed(jobs: JobsFolder, entry: Dirent): Promise<ListedJob> | ListedJob {
  const { name } = entry;
  if (entry.isDirectory()) return listedFolder(jobs, name);
  if (entry.isSymbolicLink())
    return noJob(name, `"${name}" is a link, which is never followed: put the folder itself in its place.`);
  return noJob(
    name,
    `"${name}" is no job but a file of its own, and is left as it is: a saved job is brought in by opening it as a file.`,
  );
}

/** What a person would see in the workshop's folder. Throws `folder-lost` when the folder is gone. */
async function visible({ disk, root }: JobsFolder): Promise<Map<string, Dirent>> {
  try {
    const entries = (await disk.entries(root)).filter(({ name }) => !name.startsWith('.'));
    return new Map(entries.map((entry) => [entry.name, entry] as const).sort(([a], [b]) => (a < b ? -1 : 1)));
  } catch (error) {
    if (!isAbsent(error)) throw error;
    throw new StoreTrouble(
      'folder-lost',
      `The folder of jobs is not there any more, perhaps because its disk was taken off (${root}): put it back and start the service again.`,
    );
  }
}

/**
 * Makes the list of every job in the folder, by id; whatever else is there is one entry with its trouble. Only
 * what changed since the last time is read again.
 *
 * @param past what was read before; replaced by what was read now with each list
 */
export function jobList(
  jobs: JobsFolder,
  past: { memory: Memory<ListedJob> } = { memory: new Map() },
): () => Promise<ListedJob[]> {
  return async () => {
    const seen = await visible(jobs);
    const { entries, memory } = await readEntries(jobs.disk, [...seen.keys()], past.memory, {
      mayDependOn: (name) => dependedOn(jobs.root, name, true),
      read: async (name, disk) => listed({ ...jobs, disk }, seen.get(name)!),
      dependsOn: (name, { revisions }) => dependedOn(jobs.root, name, revisions.length > 0),
      isWell: ({ trouble }) => trouble === null,
    });
    past.memory = memory;
    return entries;
  };
}

/** Keeps a new job under an id made from its name. It is on the disk, whole, when the promise resolves. */
export async function createJob(workshop: Workshop, job: Job, by = ''): Promise<KeptJob> {
  await workshop.expectHeld();
  const aside = await makeAside(workshop.disk, workshop.root, filesOf(job, by));
  try {
    return await readBack(workshop, await underNewId(workshop, aside, job.title.job));
  } finally {
    if (await isThere(workshop.disk, aside).catch(() => false)) await abandon(workshop.disk, aside);
  }
}

/** Opens a job. Refuses an unknown one and one whose file cannot be read. */
export async function openJob(workshop: Workshop, id: string): Kept<OpenedJob> {
  const opened = await fileOr(workshop, id);
  return opened.ok ? openFile(workshop, id, opened.value) : opened;
}

/** Reads a job from its file. Refuses one that cannot be read. */
export async function openFile(workshop: Workshop, id: string, file: JobFile): Kept<OpenedJob> {
  const read = readKept(id, file, await copyOf(workshop, id));
  if (!read.ok) return read;
  const savedBy = await readSavedBy(workshop.disk, folderOf(workshop, id), file.etag);
  return found({ job: read.value, etag: file.etag, saved: file.saved, savedBy });
}

/** The version of a job's file, readable or not; undefined when there is none. */
export async function versionOf(workshop: Workshop, id: string): Promise<string | undefined> {
  const stored = await fileOf(workshop, id);
  return stored.kind === 'file' ? stored.file.etag : undefined;
}

/**
 * Opens the last good copy of a job, with the version of the file it may replace; with its own when that file
 * cannot even be opened, so that nothing can be saved over it.
 */
export async function openLastGoodCopy(workshop: Workshop, id: string): Kept<OpenedJob> {
  const stored = await fileOf(workshop, id);
  if (stored.kind === 'absent') return refused(noSuchJob(id));
  const copy = await copyOf(workshop, id);
  const read = copy.kind === 'file' ? readJobText(copy.file.text) : undefined;
  if (copy.kind === 'file' && read?.ok) {
    const { etag } = stored.kind === 'file' ? stored.file : copy.file;
    return found({ job: read.value, etag, saved: copy.file.saved, savedBy: '' });
  }
  return refused(
    storeIssue('no-last-good-copy', `There is no good copy of the job "${id}" here: look in your backup.`),
  );
}

const fromLater = (id: string, sentence: string) =>
  storeIssue(
    'later-format',
    `${sentence} Saving over the job "${id}" would lose what it holds: save yours as a new job.`,
  );

/** Saves over the version that was opened. It is on the disk when the promise resolves. Refuses as `onVersion` does. */
export function saveJob(
  workshop: Workshop,
  at: { id: string; version: Version },
  job: Job,
  by = '',
): Kept<KeptJob> {
  return onVersion(workshop, at, async (file) => {
    const there = readJobText(file.text);
    const later = there.ok ? undefined : there.issues.find(({ code }) => code === 'later-format');
    return later ? refused(fromLater(at.id, later.sentence)) : keep(written(workshop, at.id, job, by));
  });
}

/** Gives a job another name in its title block; its id stays, so that every address of it stays good. */
export function renameJob(
  workshop: Workshop,
  at: { id: string; version: Version },
  name: string,
  by = '',
): Kept<KeptJob> {
  return onVersion(workshop, at, async (file) => {
    const read = await openFile(workshop, at.id, file);
    return read.ok ? keep(written(workshop, at.id, renamed(read.value.job, name), by)) : read;
  });
}

/** Copies a job under another name, without the revisions issued of it. */
export async function duplicateJob(workshop: Workshop, id: string, name: string, by = ''): Kept<KeptJob> {
  const read = await openJob(workshop, id);
  return read.ok ? keep(createJob(workshop, renamed(read.value.job, name), by)) : read;
}
