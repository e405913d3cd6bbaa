import * as z from 'zod';

/** The demo jobs, without their documents. */
export const demoJobList = z
  .array(z.strictObject({ id: z.string(), title: z.string(), summary: z.string() }))
  .meta({ id: 'DemoJobs', title: 'Demo jobs' });
