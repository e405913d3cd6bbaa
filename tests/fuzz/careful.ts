import { type Job, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { jobIn, jobs } from './jobs.ts';
import { type Kind, thrown } from './kind.ts';
import { worseThanQuick, wrongOutcome } from './oracle.ts';

/** Random jobs, answered with care and held against the quick answer. */
export const careful: Kind<Job> = {
  name: 'careful',
  make: jobs.make,
  read: jobIn,
  broken: (job) => {
    try {
      const answer = sizeJobCarefully(job);
      return [...wrongOutcome(answer), ...worseThanQuick(sizeJob(job), answer)];
    } catch (error) {
      return thrown(error);
    }
  },
};
