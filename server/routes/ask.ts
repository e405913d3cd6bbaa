import { type AskedQuestion, askedQuestions } from '../contract/asked.ts';
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

/** POST /api/ask/…: the questions asked the other way round; they take seconds and have the slow threads. */
export function askRoutes(app: App, service: Service): void {
  for (const question of Object.keys(askedQuestions) as AskedQuestion[]) askRoute(app, service, question);
}
