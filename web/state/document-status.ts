import { moment } from '../format.ts';
import { issuedAs, nextFree } from './next-revision.ts';
import type { State } from './store.ts';
import { differsFromKept } from './workshop.ts';

/** What stands beside the revision wherever the page names one: only what was issued and frozen is ever issued. */
export function documentStatus({ frozen }: Pick<State, 'frozen'>): string {
  return frozen ? `issued ${frozen.entry.issued.slice(0, 10)}` : 'draft, not issued';
}

/** How the draft stands to what was issued of its job, in a sentence; empty where nothing was issued. */
export function draftStanding({ draft, workshop: { revisions } }: State): string {
  if (!draft?.kept || revisions.length === 0) return '';
  const { revision } = draft.job.title;
  const issued = issuedAs(revision, revisions);
  if (!issued) {
    const named = revision.trim() === '' ? 'A draft without a revision' : `Revision ${revision} is a draft`;
    return `${named}, not issued; issued last: ${revisions.at(-1)!.revision}.`;
  }
  const next = nextFree(revision, revisions);
  if (issued.isAsKept && !differsFromKept(draft)) {
    const then = next === undefined ? '' : ` The first change makes it revision ${next}.`;
    return `The same as revision ${issued.revision}, issued ${moment(issued.issued, new Date())}.${then}`;
  }
  const remedy = next === undefined ? 'the next one' : next;
  return `Not revision ${issued.revision} as it was issued, although it has its name: give the title block ${remedy}.`;
}
