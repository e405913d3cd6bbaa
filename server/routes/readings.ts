import { judged, readingsOfJob } from '../contract/readings.ts';
import { problemOf } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { EngineAnswer } from '../workers/engine.ts';

/** POST /api/readings: what was measured on a job, judged; it takes seconds and has the slow threads. */
export function readingsRoutes(app: App, service: Service): void {
  app.post(
    '/api/readings',
    {
      schema: {
        tags: ['asked'],
        summary: 'Readings of the test sheet judged, and where they point',
        body: readingsOfJob,
        response: responses({ 200: judged }, [...bodyStatuses, 422, 503]),
      },
    },
    async (request, reply) => {
      const result = await service.slow.run<EngineAnswer>('readings', request.body, withdrawnSignal(reply));
      if (!result.ok) throw problemOf('refused', result.issues);
      return reply.type('application/json; charset=utf-8').send(result.text);
    },
  );
}
