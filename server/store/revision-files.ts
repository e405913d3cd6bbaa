import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type Revision, revision as revisionSchema } from '../contract/kept-jobs.ts';
import { writeOnce } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { isAbsent, isError, makeFolder, namesIn, revisionsFolder } from './job-folder.ts';

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
export async function freezeRevision(folder: string, content: Revision): Promise<boolean> {
  const revisions = join(folder, revisionsFolder);
  const text = JSON.stringify({ format, seal: sealOf(content), content });
  await makeFolder(revisions);
  try {
    await writeOnce(join(revisions, `${content.id}.json`), text);
    return true;
  } catch (error) {
    if (isError(error, 'EEXIST')) return false;
    throw error;
  }
}

/** Ids of the revisions of the job in a folder. */
export async function revisionIds(folder: string): Promise<string[]> {
  const names = await namesIn(join(folder, revisionsFolder));
  return names.filter((name) => name.endsWith('.json')).map((name) => name.slice(0, -'.json'.length));
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

/** Reads one revision as it was issued. Refuses an unknown one, and one that no longer matches its seal. */
export async function readRevision(folder: string, id: string): Promise<Outcome<Revision, StoreIssue>> {
  try {
    return readSealed(id, await readFile(join(folder, revisionsFolder, `${id}.json`), 'utf8'));
  } catch (error) {
    if (!isAbsent(error)) throw error;
    return refused(
      storeIssue('no-such-revision', `No revision "${id}" of this job was issued: choose one from the list.`),
    );
  }
}
