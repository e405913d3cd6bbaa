import { problem } from './contract/problem.ts';

const meanings = {
  401: 'Reached over a network without the token that was printed at the start',
  403: 'Asked by a page of another site',
  421: 'Asked under a name that is not this service’s',
  400: 'Malformed: every problem with its place and remedy',
  404: 'No such thing here',
  405: 'The address does not do that',
  409: 'What is on the disk stands in the way',
  412: 'Somebody else saved the job meanwhile; nothing was overwritten',
  413: 'Larger than 2 MB',
  414: 'The address is longer than any of the service',
  415: 'Wrong content type',
  422: 'There is no answer as it stands: what to change',
  428: 'If-Match is missing',
  500: 'The service made a mistake; the reference is in its log',
  503: 'Too busy, or the calculation took too long; see Retry-After',
  507: 'The disk did not take it',
} as const;

/** What any route can answer: the address is broken, the caller is turned away, or the service made a mistake. */
const anyRoute = [400, 401, 403, 414, 421, 500] as const;

type Status = keyof typeof meanings;

/**
 * The answers of a route: the good ones by status, and a problem for each status that it can give beside those
 * that any route can. Typed loosely on purpose: answers of the engine reach the route as text, checked already.
 */
export function responses(
  good: Record<number, unknown>,
  statuses: readonly Status[],
): Record<number, unknown> {
  const problems = [...statuses, ...anyRoute].map((status) => [
    status,
    { description: meanings[status], content: { 'application/problem+json': { schema: problem } } },
  ]);
  return { ...good, ...Object.fromEntries(problems) };
}

/** Statuses of every route that takes a body. */
export const bodyStatuses = [400, 413, 415] as const;
