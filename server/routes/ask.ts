import { type AskedQuestion, askedQuestions, stripQuestion } from '../contract/asked.ts';
import { jobDocument } from '../contract/job.ts';
import { engineRoute } from '../engine-route.ts';
import type { App, Service } from '../service.ts';

/** POST /api/ask/…: the questions asked the other way round, of a job or, without one, of the data sheet of a strip. */
export function askRoutes(app: App, service: Service): void {
  engineRoute(app, service, {
    path: '/api/ask/strip-from-data-sheet',
    tag: 'asked',
    summary: 'A strip worked out from its data sheet: its law and the resistance of its rails',
    body: stripQuestion.sheet,
    answer: stripQuestion.answer,
    task: (sheet) => ({ kind: 'strip', sheet }),
  });
  for (const question of Object.keys(askedQuestions) as AskedQuestion[])
    engineRoute(app, service, {
      path: `/api/ask/${question}`,
      tag: 'asked',
      ...askedQuestions[question],
      body: jobDocument,
      task: (job) => ({ kind: 'asked', question, job }),
    });
}
