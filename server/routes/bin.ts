import { z } from 'zod';
import { bin, keptId, keptJob } from '../contract/kept-jobs.ts';
import { keptOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { binList, restoreJob } from '../store/bin.ts';

/** /api/bin: deleted jobs, and the way back. */
export function binRoutes(app: App, { workshop }: Service): void {
  const list = binList(workshop);
  app.get(
    '/api/bin',
    {
      schema: {
        tags: ['kept jobs'],
        summary: 'Deleted jobs, latest first',
        response: responses({ 200: bin }, [507]),
      },
    },
    async () => list(),
  );
  app.post(
    '/api/bin/:id/restore',
    {
      schema: {
        tags: ['kept jobs'],
        summary: 'Bring a deleted job back',
        params: z.object({ id: keptId }),
        response: responses({ 200: keptJob }, [...bodyStatuses, 404, 409, 507]),
      },
    },
    async (request, reply) => {
      const entry = keptOr(await restoreJob(workshop, request.params.id));
      return reply.header('etag', entry.etag).send(entry);
    },
  );
}
