import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { discardRest } from './discard-rest.ts';
import { ProblemError, type ProblemKind, problemBody, statusOf } from './problem.ts';
import { StoreTrouble } from './store/trouble.ts';

/** The most a request may carry, in bytes: a job of 400 slots written out is well below a tenth of it. */
export const mostBytes = 2 * 1024 * 1024;

type Translation = readonly [kind: ProblemKind, sentence: string];

const diskFull: Translation = [
  'disk-trouble',
  'Nothing was saved, because the disk is full: make room, then save again. What was saved before is still there.',
];

/** What the web framework, the worker pool and the system call things, and what a person should read. */
const translations: Readonly<Record<string, Translation>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: [
    'too-large',
    'A job may have at most 2 MB: split the wall into several jobs, or check that the right file was chosen.',
  ],
  FST_ERR_CTP_INVALID_MEDIA_TYPE: [
    'wrong-content-type',
    'Send a job as application/json; the text of a job file for /api/job-file as text/plain.',
  ],
  FST_ERR_CTP_EMPTY_JSON_BODY: ['malformed-request', 'The request is empty: send the job as its body.'],
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: [
    'malformed-request',
    'The request is shorter or longer than it announced, so it may have been cut: send it again.',
  ],
  FST_ERR_BAD_URL: ['malformed-request', 'The address holds a broken % sequence: check its spelling.'],
  FST_ERR_MAX_PARAM_LENGTH: ['not-found', 'A part of the address is too long: check its spelling.'],
  ENOSPC: diskFull,
  EDQUOT: diskFull,
  EACCES: [
    'disk-trouble',
    'The folder of jobs may not be read or written by the service: have its permissions put right, then try again.',
  ],
  EIO: [
    'disk-trouble',
    'The disk failed, and nothing was changed: try again, and if it fails again, have the disk looked at. What was saved before is still there.',
  ],
  EROFS: [
    'disk-trouble',
    'The folder of jobs is on a disk that may only be read: choose another with SLOTWATT_JOBS.',
  ],
};

const nothingThere: Translation = [
  'not-found',
  'There is nothing at this address: the page is at /, and /api/openapi.json lists every address of the service.',
];

const unreadable: Translation = [
  'malformed-request',
  'The request cannot be read: check its address and headers.',
];

const unknownFault: Translation = [
  'service-fault',
  'Something went wrong in the service, not in your job, and nothing was changed. Try again; if it happens again, report the reference, which is in the log of the service.',
];

/** What the web framework turns down by its status alone, such as an address outside the page's folder. */
function byStatus(error: unknown): Translation | undefined {
  const status = error instanceof Error && 'statusCode' in error ? Number(error.statusCode) : 0;
  if (status < 400 || status >= 500) return undefined;
  return status === 403 || status === 404 ? nothingThere : unreadable;
}

/** The problem that an error is told as. */
export function problemFor(error: unknown): ProblemError {
  if (error instanceof ProblemError) return error;
  if (error instanceof StoreTrouble) return new ProblemError('disk-trouble', error.message);
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const [kind, sentence] = translations[code] ?? byStatus(error) ?? unknownFault;
  return new ProblemError(kind, sentence);
}

/** Whether the caller went away in the middle: nobody's mistake, and nobody left to answer. */
const wentAway = (request: FastifyRequest): boolean => request.raw.destroyed && !request.raw.complete;

/** Sends a problem as `application/problem+json`. */
export function sendProblem(
  problem: ProblemError,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  return reply
    .code(statusOf(problem.kind))
    .headers(problem.headers)
    .type('application/problem+json')
    .send(problemBody(problem, request.id));
}

/**
 * The one place where errors become answers. What the service itself broke is logged with its stack under the
 * reference that the answer carries; the answer never carries a stack.
 */
export async function answerFault(error: FastifyError, request: FastifyRequest, reply: FastifyReply) {
  const problem = problemFor(error);
  const isOurs = problem.kind === 'service-fault' || problem.kind === 'disk-trouble';
  if (isOurs && !wentAway(request)) request.log.error({ err: error }, 'request failed');
  if (problem.kind === 'too-large') await discardRest(request.raw);
  return sendProblem(problem, request, reply);
}
