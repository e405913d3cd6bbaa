import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { JobListing } from './job-listing.ts';
import type { KeptAnswers } from './kept-answers.ts';
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

/** The threads that calculate. */
export interface Threads {
  /** For answers that follow every keystroke. */
  readonly quick: Pool;
  /** For what takes seconds: careful answers, papers. */
  readonly slow: Pool;
  /** One thread for what takes up to minutes, one after the other: proposals. */
  readonly heavy: Pool;
}

/** What the routes work with. */
export interface Service extends Threads {
  readonly answers: KeptAnswers;
  readonly listing: JobListing;
  readonly workshop: Workshop;
}
