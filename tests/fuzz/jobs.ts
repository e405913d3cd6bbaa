import { type Job, readJobText, sizeJob } from '../../src/index.ts';
import { type Kind, thrown } from './kind.ts';
import { wrongOutcome } from './oracle.ts';
import { randomOf } from './random.ts';
import { randomJob } from './random-job.ts';

/** The job in a file; null where it holds something else. */
export function jobIn(text: string): Job | null {
  const read = readJobText(text);
  return read.ok ? read.value : null;
}

/** Random jobs, answered as quickly as every keystroke. */
export const jobs: Kind<Job> = {
  name: 'jobs',
  make: (seed, number) => randomJob(randomOf(seed, number)),
  read: jobIn,
  broken: (job) => {
    try {
      return wrongOutcome(sizeJob(job));
    } catch (error) {
      return thrown(error);
    }
  },
};
