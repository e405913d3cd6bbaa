import type { Job } from '../../src/job/job.ts';
import {
  type CodeRange,
  textsOfJob,
  type Unprintable,
  unprintable,
} from '../../src/job/printed-characters.ts';

/** What the papers cannot print of a job; nothing as long as the page does not know what they can. */
export const notPrinted = (job: Job, printed: readonly CodeRange[] | undefined): readonly Unprintable[] =>
  printed ? unprintable(textsOfJob(job), printed) : [];
