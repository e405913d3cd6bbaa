import type { z } from 'zod';
import { askEngine } from './engine.ts';
import { bodyStatuses, responses } from './responses.ts';
import type { App, Service } from './service.ts';
import { withdrawnSignal } from './withdrawn.ts';
import type { EngineTask } from './workers/engine.ts';

/** A question of the service: where it is asked, with which body and query, and what the engine is to do. */
export interface EngineRoute<Body extends z.ZodType, Query extends z.ZodType> {
  readonly path: string;
  readonly tag: 'sizing' | 'asked';
  readonly summary: string;
  readonly body: Body;
  readonly query?: Query;
  readonly answer: z.ZodType;
  readonly task: (body: z.output<Body>, query: z.output<Query>) => EngineTask;
}

/** POST of a question to the engine; nothing is kept but the last answers. */
export function engineRoute<Body extends z.ZodType, Query extends z.ZodType>(
  app: App,
  service: Service,
  { path, tag, summary, body, query, answer, task }: EngineRoute<Body, Query>,
): void {
  const schema = {
    tags: [tag],
    summary,
    body,
    ...(query ? { querystring: query } : {}),
    response: responses({ 200: answer }, [...bodyStatuses, 422, 503]),
  };
  app.post(path, { schema }, async (request, reply) => {
    // Both were read by their schemas before they came here.
    const asked = task(request.body as z.output<Body>, request.query as z.output<Query>);
    const text = await askEngine(service, asked, withdrawnSignal(reply));
    return reply.type('application/json; charset=utf-8').send(text);
  });
}
