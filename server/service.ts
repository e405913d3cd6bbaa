import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Pool } from './pool.ts';
import type { Workshop } from './store/workshop.ts';

/** The web framework, with bodies and parameters typed by their schemas. */
export type App = FastifyInstance<
  RawServerDefault,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What the routes work with. */
export interface Service {
  readonly pool: Pool;
  readonly workshop: Workshop;
}
