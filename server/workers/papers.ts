import { sizeAt } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import type { Issue } from '../../src/outcome.ts';
import type { Accuracy } from '../contract/questions.ts';
import { type Paper, type PaperName, paperOf } from '../papers/papers.ts';
import type { Format } from '../papers/sheets/sheet.ts';

/** Which paper of a job is wanted. */
export interface PapersTask {
  readonly name: PaperName;
  readonly format: Format;
  readonly accuracy: Accuracy;
  readonly job: Job;
}

export type PapersAnswer =
  | { readonly ok: true; readonly paper: Paper }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Sizes a job and lays out one of its papers, in the thread. */
export default async function answer({ name, format, accuracy, job }: PapersTask): Promise<PapersAnswer> {
  const outcome = sizeAt(job, accuracy);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  return {
    ok: true,
    paper: await paperOf(name, {
      job,
      sizing: outcome.value,
      format,
      issued: null,
      revisions: [],
      before: null,
    }),
  };
}
