import { type Job, sizeJob } from '../../src/index.ts';
import { type Kind, thrown } from './kind.ts';
import { wrongOutcome } from './oracle.ts';
import { randomOf } from './random.ts';
import { randomJob } from './random-job.ts';

/** Random jobs, answered as quickly as every keystroke. */
export const jobs: Kind<Job> = {
  name: 'jobs',
  make: (seed, number) => randomJob(randomOf(seed, number)),
  broken: (job) => {
    try {
      return wrongOutcome(sizeJob(job));
    } catch (error) {
      return thrown(error);
    }
  },
};
