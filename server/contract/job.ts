import { job } from '../../src/job/job.ts';

/** The job document as request body and response; one instance, so that validation recognises it. */
export const jobDocument = job.meta({
  id: 'Job',
  title: 'Job',
  description:
    'The one document that describes the piece and every choice. Names carry units (mm, °C, V, W); ratios run 0 to 1. A document of format 1 is taken as well, as what it means in format 2.',
});

export type { Job } from '../../src/job/job.ts';
