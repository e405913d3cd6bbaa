import { judged, readingsOfJob } from '../contract/readings.ts';
import { engineRoute } from '../engine-route.ts';
import type { App, Service } from '../service.ts';

/** POST /api/readings: what was measured on a job, judged. */
export function readingsRoutes(app: App, service: Service): void {
  engineRoute(app, service, {
    path: '/api/readings',
    tag: 'asked',
    summary: 'Readings of the test sheet judged, and where they point',
    body: readingsOfJob,
    answer: judged,
    task: ({ job, readings }) => ({ kind: 'readings', job, readings }),
  });
}
