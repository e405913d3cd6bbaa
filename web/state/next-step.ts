import { isOnCondition } from '../../src/answer/finding-status.ts';
import type { Finding } from '../../src/answer/findings.ts';
import { problemsOf } from './edit.ts';
import { issuedAs } from './next-revision.ts';
import type { State } from './store.ts';
import { differsFromKept } from './workshop.ts';

/** The one thing to do next. */
export type NextStep =
  | { readonly is: 'settle'; readonly finding: Finding; readonly count: number }
  | { readonly is: 'keep' }
  | { readonly is: 'issue'; readonly revision: string }
  | { readonly is: 'print' };

/**
 * What a job needs next: the first check that fails is settled, then the job is kept, then its revision is issued, and
 * what was issued is printed. Undefined while there is no answer to go by, and where an issued revision is looked at.
 */
export function nextStep({ draft, answer, standing, frozen, workshop }: State): NextStep | undefined {
  if (!draft || !answer || frozen || standing.is !== 'current' || problemsOf(draft).size > 0)
    return undefined;
  const failing = answer.sizing.findings.filter((each) => each.status === 'fails' && !isOnCondition(each));
  if (failing[0]) return { is: 'settle', finding: failing[0], count: failing.length };
  if (!draft.kept) return { is: 'keep' };
  const { revision } = draft.job.title;
  const issued = issuedAs(revision, workshop.revisions);
  return issued?.isAsKept && !differsFromKept(draft) ? { is: 'print' } : { is: 'issue', revision };
}
