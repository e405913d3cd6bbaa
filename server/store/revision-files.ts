import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { z } from 'zod';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type Revision, revision as revisionSchema } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { writeOnce } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { expectFolder, isId, makeFolder, revisionsFolder } from './job-folder.ts';
import { readStored } from './stored-file.ts';
import { isError } from './trouble.ts';

const format = { name: 'slotwatt-revision', version: 1 } as const;

const sealed = z.strictObject({
  format: z.strictObject({ name: z.literal(format.name), version: z.literal(format.version) }),
  seal: z.string(),
  content: revisionSchema,
});

const sealOf = (content: unknown): string =>
  createHash('sha256').update(JSON.stringify(content)).digest('hex');

/**
 * Writes a revision under a seal of its content, read-only, and never over another. False when a revision of
 * that id is there already.
 */
export async function freezeRevision(disk: Disk, folder: string, content: Revision): Promise<boolean> {
  const revisions = join(folder, revisionsFolder);
  const text = JSON.stringify({ format, seal: sealOf(content), content });
  await expectFolder(disk, folder);
  await makeFolder(disk, revisions);
  try {
    await writeOnce(disk, revisions, { name: `${content.id}.json`, text });
    return true;
  } catch (error) {
    if (isError(error, 'EEXIST')) return false;
    throw error;
  }
}

const ending = '.json';

/** Ids of the revisions of the job in a folder; none where they cannot be read. */
export async function revisionIds(disk: Disk, folder: string): Promise<string[]> {
  const entries = await disk.entries(join(folder, revisionsFolder)).catch(() => []);
  const names = entries.map(({ name }) => name).filter((name) => name.endsWith(ending));
  return names
    .map((name) => name.slice(0, -ending.length))
    .filter(isId)
    .sort();
}

function readSealed(id: string, text: string): Outcome<Revision, StoreIssue> {
  const damaged = storeIssue(
    'revision-damaged',
    `Revision ${id} was changed or damaged after it was issued, so it is not shown: take it from your backup.`,
  );
  try {
    const document: { readonly content?: unknown } = JSON.parse(text);
    const read = sealed.safeParse(document);
    // The seal is over the content as it was written, not as today's schema reads it.
    if (!read.success || sealOf(document.content) !== read.data.seal) return refused(damaged);
    return found(read.data.content);
  } catch {
    return refused(damaged);
  }
}

/** The largest revision that is read, in bytes: the whole answer of the largest job stands in it. */
const largestRevision = 256 * 1024 * 1024;

/** Reads one revision as it was issued. Refuses an unknown one, and one that no longer matches its seal. */
export async function readRevision(
  disk: Disk,
  folder: string,
  id: string,
): Promise<Outcome<Revision, StoreIssue>> {
  const place = { folder: join(folder, revisionsFolder), name: `${id}${ending}` };
  const stored = await readStored(disk, place, largestRevision);
  if (stored.kind === 'file') return readSealed(id, stored.file.text);
  if (stored.kind === 'trouble') return refused(storeIssue('revision-damaged', stored.sentence));
  return refused(
    storeIssue('no-such-revision', `No revision "${id}" of this job was issued: choose one from the list.`),
  );
}
