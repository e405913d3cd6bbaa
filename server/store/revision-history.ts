import type { RevisionEntry } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { createLimit } from './limit.ts';
import { digestOfJob, readRevisionFile, revisionIds } from './revision-files.ts';
import { type Registered, readRegister } from './revision-register.ts';

/** A file among the revisions without job and answer, which are large. */
interface Seen {
  /** Its name without the ending, which is the id it claims. */
  readonly id: string;
  readonly digest: string | undefined;
  readonly head: Head | undefined;
  /** Why it cannot be read. */
  readonly sentence: string;
}

type Head = RevisionEntry & {
  readonly jobId: string | null;
  readonly predecessor: string | null;
  readonly jobDigest: string | undefined;
};

/** A revision as the history of the job knows it; a trouble says what is wrong with it and what to do. */
export interface Past extends RevisionEntry {
  readonly digest: string | undefined;
  /** Of the job document in it; undefined where that was not read. */
  readonly jobDigest: string | undefined;
  readonly trouble: string | null;
}

/** Every revision of a job in the order of issue, and what is to be registered of it. */
export interface History {
  readonly past: readonly Past[];
  readonly registered: readonly Registered[];
}

const unread = { engine: '', note: '', by: '', jobDigest: undefined };

/** A registered revision as it was issued, without looking at its file. */
function asRegistered({ id, digest, sequence, revision, issued }: Registered, jobId: string): Seen {
  const head = { ...unread, id, revision, issued, sequence, jobId, predecessor: null };
  return { id, digest, head, sentence: '' };
}

async function seenAt(disk: Disk, folder: string, id: string): Promise<Seen> {
  const { digest, read } = await readRevisionFile(disk, folder, id);
  if (!read.ok) return { id, digest, head: undefined, sentence: read.issues[0]!.sentence };
  const { job, sizing, ...head } = read.value;
  return { id, digest, head: { ...head, jobDigest: digestOfJob(job) }, sentence: '' };
}

const fromBackup = (id: string): string => `take the file "revisions/${id}.json" from your backup`;

const day = (issued: string): string => issued.slice(0, 10);

/** What is known about a job's revisions before one of them is judged. */
interface Known {
  readonly jobId: string;
  readonly register: readonly Registered[] | undefined;
  readonly seen: readonly Seen[];
}

/** Whether it follows the last that is registered: the service may have stopped between file and register, again and again. */
function isFollower({ register, seen }: Known, { digest }: Seen): boolean {
  let last: { sequence: number | null; digest: string | undefined } | undefined = register?.at(-1);
  while (last && last.digest !== digest) {
    const { sequence, digest: before }: typeof last = last;
    const next = seen.find(
      ({ head }) => head?.sequence === (sequence ?? 0) + 1 && head.predecessor === before,
    );
    last = next && { sequence: next.head!.sequence, digest: next.digest };
  }
  return last !== undefined;
}

function strangerTrouble(known: Known, one: Seen): string | null {
  const { jobId, register } = known;
  const { id, head } = one;
  if (!head || head.sequence === null || isFollower(known, one)) return null;
  if (head.jobId !== jobId)
    return `The file "revisions/${id}.json" is revision ${head.revision} of the job "${head.jobId}", not of this one: move it back to where it belongs.`;
  if (register === undefined) return null;
  return `Revision ${head.revision} in the file "revisions/${id}.json" is not among those that were issued of this job: it was put there by hand. Move it away, and keep it if you do not know what it is.`;
}

/** A later revision that follows one of this number, but not this one as it is. */
function isDisowned({ seen }: Known, { digest, head }: Seen): boolean {
  return seen.some(
    (later) =>
      head?.sequence !== null &&
      later.head?.sequence === (head?.sequence ?? 0) + 1 &&
      later.head.predecessor !== digest,
  );
}

const changedSince = (name: string, issued: string, id: string): string =>
  `Revision ${name} is not the one that was issued on ${day(issued)}: the file was changed and sealed again, or another was put in its place. Do not build from it: ${fromBackup(id)}.`;

function troubleOf(known: Known, one: Seen): string | null {
  const { id, digest, head, sentence } = one;
  if (!head) return sentence;
  const entry = known.register?.find((each) => each.id === id);
  if (entry) return entry.digest === digest ? null : changedSince(entry.revision, entry.issued, id);
  if (head.id !== id)
    return `The file "revisions/${id}.json" holds revision ${head.revision} under another name: call it "${head.id}.json" again, or move it away if that one is there too.`;
  const trouble = strangerTrouble(known, one);
  if (trouble !== null) return trouble;
  return isDisowned(known, one) ? changedSince(head.revision, head.issued, id) : null;
}

function pastOf(known: Known, one: Seen): Past {
  const entry = known.register?.find(({ id }) => id === one.id);
  const { jobId, predecessor, ...head } = one.head ?? {
    ...unread,
    jobId: null,
    predecessor: null,
    revision: entry?.revision ?? one.id,
    issued: entry?.issued ?? '',
    sequence: entry?.sequence ?? null,
  };
  const named = entry ? { revision: entry.revision, sequence: entry.sequence } : {};
  return { ...head, ...named, id: one.id, digest: one.digest, trouble: troubleOf(known, one) };
}

/** Registered revisions whose file is gone, and not merely under another name. */
function gone({ register = [], seen }: Known): Past[] {
  const missing = register.filter(
    ({ id, digest }) => !seen.some((one) => one.id === id || one.digest === digest),
  );
  return missing.map(({ sequence, id, revision, issued, digest }) => ({
    ...unread,
    ...{ sequence, id, revision, issued, digest },
    trouble: `Revision ${revision} was issued on ${day(issued)} and its file is gone: ${fromBackup(id)}.`,
  }));
}

/** Revisions that nothing but the next one tells of. */
function forgotten({ register = [], seen }: Known): Past[] {
  const digests = new Set([...register, ...seen].map(({ digest }) => digest));
  const numbers = new Set([...register, ...seen.map(({ head }) => head)].map((each) => each?.sequence));
  const orphans = seen.flatMap(({ head, id }) => (head?.id === id && head.predecessor ? [head] : []));
  return orphans
    .filter(({ predecessor, sequence }) => !digests.has(predecessor!) && !numbers.has(sequence! - 1))
    .map(({ predecessor, sequence, revision }) => ({
      ...unread,
      id: `number-${sequence! - 1}`,
      revision: `before ${revision}`,
      issued: '',
      sequence: sequence! - 1,
      digest: predecessor!,
      trouble: `The revision that was issued just before ${revision} is gone or was changed since: take the folder "revisions" from your backup and compare.`,
    }));
}

/** Those that were never numbered came before; among them the day decides. A clock set back changes nothing later. */
function inOrder(a: Past, b: Past): number {
  return (a.sequence ?? 0) - (b.sequence ?? 0) || a.issued.localeCompare(b.issued);
}

/** What the register says, with what was issued before the service stopped short of it. */
function toRegister(register: readonly Registered[], past: readonly Past[]): Registered[] {
  const known = new Set(register.map(({ id }) => id));
  const later = past.flatMap(({ sequence, id, revision, issued, digest, trouble }) =>
    sequence === null || digest === undefined || trouble !== null || known.has(id)
      ? []
      : [{ sequence, id, revision, issued, digest }],
  );
  return [...register, ...later];
}

/**
 * Reads every revision of a job and holds it against the register, its own name, its job and the one it follows: what
 * was renamed, copied from elsewhere, deleted, edited, or changed and sealed again has its trouble. Holds against
 * slips, not against somebody who rewrites the register too.
 * @param reads `unregistered` takes the registered ones as they were issued, which is all that the next one needs
 */
export async function historyOf(
  disk: Disk,
  folder: string,
  jobId: string,
  reads: 'all' | 'unregistered' = 'all',
): Promise<History> {
  const limited = createLimit(4);
  const ids = await revisionIds(disk, folder);
  const register = await readRegister(disk, folder);
  const seenOf = (id: string): Promise<Seen> | Seen => {
    const entry = reads === 'all' ? undefined : register?.find((each) => each.id === id);
    return entry ? asRegistered(entry, jobId) : limited(() => seenAt(disk, folder, id));
  };
  const seen = await Promise.all(ids.map(seenOf));
  const known = { jobId, register, seen };
  const past = [...seen.map((one) => pastOf(known, one)), ...gone(known), ...forgotten(known)].sort(inOrder);
  return { past, registered: toRegister(register ?? [], past) };
}
