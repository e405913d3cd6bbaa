import { jobDocument } from '../contract/job.ts';
import { accuracyQuery, type Question, questions } from '../contract/questions.ts';
import { engineRoute } from '../engine-route.ts';
import type { App, Service } from '../service.ts';

/** POST /api/sizing for the whole job, and one address for each question. */
export function questionRoutes(app: App, service: Service): void {
  for (const question of Object.keys(questions) as Question[])
    engineRoute(app, service, {
      path: `/api/${question}`,
      tag: 'sizing',
      ...questions[question],
      body: jobDocument,
      query: accuracyQuery('quick'),
      task: (job, { accuracy }) => ({ kind: 'sizing', question, accuracy, job }),
    });
}
