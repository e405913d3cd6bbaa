import type { Issue, Outcome } from '../src/outcome.ts';
import type { Problem } from './contract/problem.ts';
import type { StoreIssue } from './store/issues.ts';

/** The kinds of problem, each with its HTTP status and its title. */
const kinds = {
  'malformed-request': { status: 400, title: 'The request cannot be read' },
  'malformed-job': { status: 400, title: 'This is not a job as Slotwatt reads it' },
  'token-missing': { status: 401, title: 'The token of the service is missing' },
  'foreign-page': { status: 403, title: 'The request comes from another site' },
  'not-found': { status: 404, title: 'There is no such thing here' },
  'wrong-method': { status: 405, title: 'This address does not do that' },
  conflict: { status: 409, title: 'What is on the disk stands in the way' },
  'changed-meanwhile': { status: 412, title: 'Somebody else saved this job' },
  'too-large': { status: 413, title: 'The request is too large' },
  'address-too-long': { status: 414, title: 'The address is too long' },
  'wrong-content-type': { status: 415, title: 'The request is in the wrong format' },
  'foreign-name': { status: 421, title: 'The service does not go by this name' },
  refused: { status: 422, title: 'There is no answer as it stands' },
  'version-missing': { status: 428, title: 'The version of the job is missing' },
  'service-fault': { status: 500, title: 'The service made a mistake' },
  'too-busy': { status: 503, title: 'The service is too busy' },
  'took-too-long': { status: 503, title: 'The calculation took too long' },
  'disk-trouble': { status: 507, title: 'The disk did not take it' },
} as const;

export type ProblemKind = keyof typeof kinds;

/** A problem on its way to the caller; routes throw it, the error handler of the service sends it. */
export class ProblemError extends Error {
  readonly kind: ProblemKind;
  readonly issues: readonly Issue[];
  readonly lastGoodCopy: string | undefined;
  readonly headers: Readonly<Record<string, string>>;

  constructor(
    kind: ProblemKind,
    detail: string,
    more: { issues?: readonly Issue[]; lastGoodCopy?: string; headers?: Record<string, string> } = {},
  ) {
    super(detail);
    this.kind = kind;
    this.issues = more.issues ?? [];
    this.lastGoodCopy = more.lastGoodCopy;
    this.headers = more.headers ?? {};
  }
}

/** The status a problem is sent with. */
export function statusOf(kind: ProblemKind): number {
  return kinds[kind].status;
}

/** Only finite numbers leave the service: JSON has no others. */
const finite = (quantities: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(Object.entries(quantities).filter(([, value]) => Number.isFinite(value)));

/** The body of a problem after RFC 9457. The reference is the number of the request in the log. */
export function problemBody(error: ProblemError, reference: string): Problem {
  const { status, title } = kinds[error.kind];
  return {
    type: `urn:slotwatt:problem:${error.kind}`,
    title,
    status,
    detail: error.message,
    issues: error.issues.map(({ code, place, quantities, sentence }) => ({
      code,
      place,
      quantities: finite(quantities),
      sentence,
    })),
    reference,
    ...(error.lastGoodCopy === undefined ? {} : { lastGoodCopy: error.lastGoodCopy }),
  };
}

/** A file of noise can have a hundred thousand problems; nobody reads more than this. */
const mostIssues = 200;

/** A problem made from issues: its detail is the first few sentences, and how many more there are. */
export function problemOf(kind: ProblemKind, issues: readonly Issue[]): ProblemError {
  const first = issues.slice(0, 3).map((issue) => issue.sentence);
  const rest = issues.length - first.length;
  const more = rest > 0 ? [`There ${rest === 1 ? 'is one more problem' : `are ${rest} more problems`}.`] : [];
  return new ProblemError(kind, [...first, ...more].join(' '), { issues: issues.slice(0, mostIssues) });
}

/** The value of an outcome; throws the problem of that kind when there is none. */
export function valueOr<Value>(kind: ProblemKind, outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw problemOf(kind, outcome.issues);
  return outcome.value;
}

const storeKinds: Readonly<Record<StoreIssue['code'], ProblemKind>> = {
  'no-such-job': 'not-found',
  'unreadable-job': 'conflict',
  'later-format': 'conflict',
  'no-last-good-copy': 'not-found',
  'changed-meanwhile': 'changed-meanwhile',
  'version-missing': 'version-missing',
  'no-such-revision': 'not-found',
  'revision-unnamed': 'conflict',
  'revision-already-issued': 'conflict',
  'revision-damaged': 'conflict',
  'readings-unreadable': 'conflict',
  'readings-full': 'conflict',
  'not-in-the-bin': 'not-found',
  'no-such-product': 'not-found',
  'other-kind': 'conflict',
  'products-unreadable': 'conflict',
  'products-full': 'conflict',
};

/** The value that the store found; throws the problem that its first issue stands for when there is none. */
export function keptOr<Value>(outcome: Outcome<Value, StoreIssue>): Value {
  if (!outcome.ok) throw problemOf(storeKinds[outcome.issues[0]!.code], outcome.issues);
  return outcome.value;
}
