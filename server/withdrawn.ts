import type { FastifyReply } from 'fastify';

/** A signal that the caller has hung up before the answer was sent, as a page does when the job changed meanwhile. */
export function withdrawnSignal(reply: FastifyReply): AbortSignal {
  const controller = new AbortController();
  reply.raw.once('close', () => {
    if (!reply.raw.writableFinished) controller.abort();
  });
  return controller.signal;
}
