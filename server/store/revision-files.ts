import { createHash } from 'node:crypto';
import type { Dirent } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { readJob } from '../../src/index.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type Revision, revision as revisionSchema } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { isThere, writeOnce } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { expectFolder, isId, makeFolder, revisionsFolder } from './job-folder.ts';
import { readStored } from './stored-file.ts';
import { isAbsent, isError } from './trouble.ts';

const format = { name: 'slotwatt-revision', version: 2 } as const;

const formatOf = (version: 1 | 2) =>
  z.strictObject({ name: z.literal(format.name), version: z.literal(version) });

/** Before revisions were numbered: nothing in them says of which job they are and what they follow. */
const unnumbered = { sequence: null, jobId: null, predecessor: null, by: '' } as const;

const sealed = z.union([
  z.strictObject({ format: formatOf(2), seal: z.string(), content: revisionSchema }),
  z
    .strictObject({
      format: formatOf(1),
      seal: z.string(),
      content: revisionSchema.omit({ sequence: true, jobId: true, predecessor: true, by: true }),
    })
    .transform((document) => ({ ...document, content: { ...document.content, ...unnumbered } })),
]);

const laterFormat = z.looseObject({
  format: z.looseObject({ name: z.literal(format.name), version: z.int().min(3) }),
});

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');
const sealOf = (content: unknown): string => digestOf(JSON.stringify(content));

/** What tells one job document from another, whichever format it was written in. */
export function digestOfJob(job: unknown): string {
  const read = readJob(job);
  return sealOf(read.ok ? read.value : job);
}

/**
 * Writes a revision under a seal of its content, read-only, and never over another. Returns the digest of the
 * file, or undefined when a revision of that id is there already.
 */
export async function freezeRevision(
  disk: Disk,
  folder: string,
  content: Revision,
): Promise<string | undefined> {
  const revisions = join(folder, revisionsFolder);
  const text = JSON.stringify({ format, seal: sealOf(content), content });
  await expectFolder(disk, folder);
  await makeFolder(disk, revisions);
  try {
    await writeOnce(disk, revisions, { name: `${content.id}.json`, text });
    return digestOf(text);
  } catch (error) {
    if (isError(error, 'EEXIST')) return undefined;
    throw error;
  }
}

const ending = '.json';

async function entriesIfThere(disk: Disk, folder: string): Promise<Dirent[]> {
  try {
    return await disk.entries(folder);
  } catch (error) {
    if (isAbsent(error)) return [];
    throw error;
  }
}

/**
 * Ids of the revisions of the job in a folder, in the order of the alphabet. Throws what the file system throws when
 * they are there and cannot be listed.
 */
export async function revisionIds(disk: Disk, folder: string): Promise<string[]> {
  const revisions = join(folder, revisionsFolder);
  const entries = (await isThere(disk, revisions)) ? await entriesIfThere(disk, revisions) : [];
  const names = entries.map(({ name }) => name).filter((name) => name.endsWith(ending));
  return names
    .map((name) => name.slice(0, -ending.length))
    .filter(isId)
    .sort();
}

function readSealed(id: string, text: string): Outcome<Revision, StoreIssue> {
  const no = (sentence: string) => refused(storeIssue('revision-damaged', sentence));
  const damaged = `Revision ${id} was changed or damaged after it was issued, so it is not shown: take it from your backup.`;
  try {
    const document: { readonly content?: unknown } = JSON.parse(text);
    if (laterFormat.safeParse(document).success)
      return no(`Revision ${id} was issued by a later version of Slotwatt: open it with that version.`);
    const read = sealed.safeParse(document);
    // The seal is over the content as it was written, not as today's schema reads it.
    if (!read.success || sealOf(document.content) !== read.data.seal) return no(damaged);
    return found(read.data.content);
  } catch {
    return no(damaged);
  }
}

/** The largest revision that is read, in bytes: the whole answer of the largest job stands in it. */
const largestRevision = 256 * 1024 * 1024;

/** What a file among the revisions holds, and the digest of it; undefined where it could not be read at all. */
export interface RevisionFile {
  readonly digest: string | undefined;
  readonly read: Outcome<Revision, StoreIssue>;
}

/**
 * Reads the file of one revision as it stands. Refuses an unknown one, and one that no longer matches its seal;
 * whether it belongs there is for `historyOf` to say.
 */
export async function readRevisionFile(disk: Disk, folder: string, id: string): Promise<RevisionFile> {
  const place = { folder: join(folder, revisionsFolder), name: `${id}${ending}` };
  const stored = await readStored(disk, place, largestRevision);
  if (stored.kind === 'file')
    return { digest: digestOf(stored.file.text), read: readSealed(id, stored.file.text) };
  const issue =
    stored.kind === 'trouble'
      ? storeIssue('revision-damaged', stored.sentence)
      : storeIssue(
          'no-such-revision',
          `No revision "${id}" of this job was issued: choose one from the list.`,
        );
  return { digest: undefined, read: refused(issue) };
}
