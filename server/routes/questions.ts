import { jobDocument } from '../contract/job.ts';
import { accuracyQuery, type Question, questions } from '../contract/questions.ts';
import { askEngine } from '../engine.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { withdrawnSignal } from '../withdrawn.ts';

function questionRoute(app: App, service: Service, question: Question): void {
  const { summary, answer } = questions[question];
  app.post(
    `/api/${question}`,
    {
      schema: {
        tags: ['sizing'],
        summary,
        querystring: accuracyQuery('quick'),
        body: jobDocument,
        response: responses({ 200: answer }, [...bodyStatuses, 422, 503]),
      },
    },
    async (request, reply) => {
      const task = { question, accuracy: request.query.accuracy, job: request.body };
      const text = await askEngine(service, task, withdrawnSignal(reply));
      return reply.type('application/json; charset=utf-8').send(text);
    },
  );
}

/** POST /api/sizing for the whole job, and one address for each question; nothing is kept. */
export function questionRoutes(app: App, service: Service): void {
  for (const question of Object.keys(questions) as Question[]) questionRoute(app, service, question);
}
