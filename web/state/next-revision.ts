import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { isSameJob } from '../../src/job/job-differences.ts';
import { revisionKey } from '../../src/job/revision-key.ts';
import type { Draft } from './store.ts';

/** The revision after this one: `A` is followed by `B`, `Z` by `AA`, `C2` by `C3`; undefined where none is known. */
export function nextRevision(revision: string): string | undefined {
  const number = /^(.*?)(\d+)$/.exec(revision);
  if (number) return `${number[1]}${Number(number[2]) + 1}`;
  const letter = /^(.*)([A-Ya-y])$/.exec(revision);
  if (letter) return `${letter[1]}${String.fromCharCode(letter[2]!.charCodeAt(0) + 1)}`;
  if (/^[Zz]$/.test(revision)) return revision === 'Z' ? 'AA' : 'aa';
  return revision === '' ? 'A' : undefined;
}

/** The revision issued under this name, however it is written; undefined for a name that is still free. */
export function issuedAs(revision: string, revisions: readonly ListedRevision[]): ListedRevision | undefined {
  const key = revisionKey(revision);
  return key === '' ? undefined : revisions.find((entry) => revisionKey(entry.revision) === key);
}

/** The longest name of a revision that the title block takes. */
const longest = 6;

/** The first revision after this one that was not issued; undefined where none is known. */
export function nextFree(revision: string, revisions: readonly ListedRevision[]): string | undefined {
  let next = nextRevision(revision);
  while (next !== undefined && issuedAs(next, revisions)) next = nextRevision(next);
  return next !== undefined && next.length <= longest ? next : undefined;
}

/**
 * A changed draft under the next revision where the one it had was issued: what was issued is frozen, and nothing
 * else may go by its name. A draft whose revision was just typed, or that goes back to another opening, is left alone.
 */
export function underNextRevision(
  before: Draft | undefined,
  draft: Draft,
  revisions: readonly ListedRevision[],
): Draft {
  const { revision } = draft.job.title;
  const isSameOpening = before?.begun === draft.begun && before?.kept?.id === draft.kept?.id;
  if (!before || !draft.kept || !isSameOpening || before.job.title.revision !== revision) return draft;
  if (!issuedAs(revision, revisions) || isSameJob(before.job, draft.job)) return draft;
  const next = nextFree(revision, revisions);
  if (next === undefined) return draft;
  const { 'title.revision': typed, ...entries } = draft.entries;
  return { ...draft, entries, job: { ...draft.job, title: { ...draft.job.title, revision: next } } };
}
