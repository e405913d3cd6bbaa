import { type AskedQuestion, askedQuestions, stripQuestion } from '../contract/asked.ts';
import { jobDocument } from '../contract/job.ts';
import { problemOf } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { EngineAnswer } from '../workers/engine.ts';

function askRoute(app: App, service: Service, question: AskedQuestion): void {
  const { summary, answer } = askedQuestions[question];
  app.post(
    `/api/ask/${question}`,
    {
      schema: {
        tags: ['asked'],
        summary,
        body: jobDocument,
        response: responses({ 200: answer }, [...bodyStatuses, 422, 503]),
      },
    },
    async (request, reply) => {
      const task = { question, job: request.body };
      const result = await service.slow.run<EngineAnswer>('asked', task, withdrawnSignal(reply));
      if (!result.ok) throw problemOf('refused', result.issues);
      return reply.type('application/json; charset=utf-8').send(result.text);
    },
  );
}

/** A strip takes milliseconds and needs no job: it has the quick threads. */
function stripRoute(app: App, service: Service): void {
  app.post(
    '/api/ask/strip-from-data-sheet',
    {
      schema: {
        tags: ['asked'],
        summary: 'A strip worked out from its data sheet: its law and the resistance of its rails',
        body: stripQuestion.sheet,
        response: responses({ 200: stripQuestion.answer }, [...bodyStatuses, 422, 503]),
      },
    },
    async (request, reply) => {
      const result = await service.quick.run<EngineAnswer>(
        'strip-sheet',
        request.body,
        withdrawnSignal(reply),
      );
      if (!result.ok) throw problemOf('refused', result.issues);
      return reply.type('application/json; charset=utf-8').send(result.text);
    },
  );
}

/** POST /api/ask/…: the questions asked the other way round; those of a job take seconds and have the slow threads. */
export function askRoutes(app: App, service: Service): void {
  stripRoute(app, service);
  for (const question of Object.keys(askedQuestions) as AskedQuestion[]) askRoute(app, service, question);
}
