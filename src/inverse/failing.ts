import type { Finding } from '../answer/findings.ts';
import type { Job } from '../job/job.ts';
import { sizeJob } from '../sizing/size-job.ts';
import { counted } from '../words.ts';

/** What fails in a job as it is, by the ids of its findings; nothing where it has no answer. */
export function failingIn(job: Job): ReadonlySet<string> {
  const sized = sizeJob(job);
  const findings = sized.ok ? sized.value.findings : [];
  return new Set(findings.filter(({ status }) => status === 'fails').map(({ id }) => id));
}

/**
 * Why a changed job does not pass: what fails of the questions it is about, and whatever else fails that did not before, such
 * as a cable that a larger driver could overload. Null where nothing does.
 */
export function whyNot(
  findings: readonly Finding[],
  questions: readonly Finding['question'][],
  before: ReadonlySet<string>,
): string | null {
  const failed = findings.filter(
    ({ id, question, status }) => status === 'fails' && (questions.includes(question) || !before.has(id)),
  );
  if (failed.length === 0) return null;
  return failed.length === 1
    ? failed[0]!.sentence
    : `${failed[0]!.sentence} And ${counted(failed.length - 1, 'more')}.`;
}
