import { z } from 'zod';
import { demoJobs } from '../../src/index.ts';
import { demoJobList } from '../contract/demo-jobs.ts';
import { jobDocument } from '../contract/job.ts';
import { ProblemError } from '../problem.ts';
import { responses } from '../responses.ts';
import type { App } from '../service.ts';

/** GET /api/demo-jobs and each of them by its id. */
export function demoJobRoutes(app: App): void {
  app.get(
    '/api/demo-jobs',
    {
      schema: {
        tags: ['jobs'],
        summary: 'Demo jobs to start from',
        response: responses({ 200: demoJobList }, []),
      },
    },
    async () => demoJobs.map(({ id, title, summary }) => ({ id, title, summary })),
  );
  app.get(
    '/api/demo-jobs/:id',
    {
      schema: {
        tags: ['jobs'],
        summary: 'One demo job',
        params: z.object({ id: z.string().describe('from the list of demo jobs') }),
        response: responses({ 200: jobDocument }, [404]),
      },
    },
    async (request) => {
      const demo = demoJobs.find(({ id }) => id === request.params.id);
      if (demo) return demo.job;
      const ids = demoJobs.map(({ id }) => id).join(', ');
      throw new ProblemError(
        'not-found',
        `There is no demo job "${request.params.id}": choose one of ${ids}.`,
      );
    },
  );
}
