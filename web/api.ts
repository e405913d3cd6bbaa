import type {
  AskedCircuit,
  AskedDrivers,
  AskedHeat,
  AskedLayouts,
  AskedLight,
  AskedStrip,
} from '../src/answer/asked.ts';
import type { Sizing } from '../src/answer/sizing.ts';
import type { Job } from '../src/job/job.ts';
import type { StripSheet } from '../src/job/strip-sheet.ts';
import type { Issue } from '../src/outcome.ts';
import { personHeaders } from './state/person.ts';

/** What the service said: an answer, a refusal with reasons, silence, or nothing because the question was withdrawn. */
export type Reply<Value> =
  | { readonly kind: 'answer'; readonly value: Value }
  | Refusal
  | Failure
  | { readonly kind: 'withdrawn' };

/** No answer, and not because of what was asked. */
export interface Failure {
  readonly kind: 'failed';
  /** Nobody is there; it has too much to do just now; or it made a mistake, which asking again would only repeat. */
  readonly cause: 'silence' | 'busy' | 'mistake';
  /** What happened and what to do, with the reference under which the log of the service has a mistake. */
  readonly detail: string;
}

export interface Refusal {
  readonly kind: 'refused';
  readonly status: number;
  readonly detail: string;
  readonly issues: readonly Issue[];
  /** Whether the service has a good copy of a kept job it cannot read. */
  readonly hasGoodCopy: boolean;
}

export interface DemoJob {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
}

interface Problem {
  readonly title?: string;
  readonly detail?: string;
  readonly issues?: readonly Issue[];
  readonly lastGoodCopy?: string;
  readonly reference?: string;
}

function failure(status: number, detail: string, reference: string | undefined): Failure {
  if (status !== 500) return { kind: 'failed', cause: 'busy', detail };
  const named = reference === undefined ? detail : `${detail} Reference: ${reference}`;
  return { kind: 'failed', cause: 'mistake', detail: named };
}

async function refusal(response: Response): Promise<Reply<never>> {
  const problem = (await response.json().catch(() => ({}))) as Problem;
  const detail = problem.detail ?? problem.title ?? `The service answered ${response.status}.`;
  if (response.status >= 500) return failure(response.status, detail, problem.reference);
  const hasGoodCopy = problem.lastGoodCopy !== undefined;
  return { kind: 'refused', status: response.status, detail, issues: problem.issues ?? [], hasGoodCopy };
}

/** Says who asks, where something is kept, issued or measured. */
function signed(path: string, init: RequestInit): RequestInit {
  if (!path.startsWith('/api/jobs') || init.method === undefined) return init;
  return { ...init, headers: { ...init.headers, ...personHeaders() } };
}

/** Asks the service; `read` makes the value of a good answer. */
export async function ask<Value>(
  path: string,
  init: RequestInit,
  read: (response: Response) => Promise<Value>,
): Promise<Reply<Value>> {
  try {
    const response = await fetch(path, signed(path, init));
    if (!response.ok) return await refusal(response);
    return { kind: 'answer', value: await read(response) };
  } catch {
    if (init.signal?.aborted) return { kind: 'withdrawn' };
    const detail = 'The service does not answer. It may have been stopped.';
    return { kind: 'failed', cause: 'silence', detail };
  }
}

export const asJson = <Value>(response: Response): Promise<Value> => response.json() as Promise<Value>;

export const posted = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

/** The whole answer to one job: quick at every change, careful (the field of heat, every tolerance) in seconds. */
export function askSizing(
  job: Job,
  accuracy: Sizing['accuracy'],
  signal: AbortSignal,
): Promise<Reply<Sizing>> {
  return ask(`/api/sizing?accuracy=${accuracy}`, { ...posted(job), signal }, asJson<Sizing>);
}

/** How long a run, how thin a cable, how few feed points would do, and which volts to set. */
export function askCircuit(job: Job, signal: AbortSignal): Promise<Reply<AskedCircuit>> {
  return ask('/api/ask/circuit', { ...posted(job), signal }, asJson<AskedCircuit>);
}

/** Which models or mixes of drivers would do. */
export function askDrivers(job: Job, signal: AbortSignal): Promise<Reply<AskedDrivers>> {
  return ask('/api/ask/drivers', { ...posted(job), signal }, asJson<AskedDrivers>);
}

/** Which layouts of cables would do. */
export function askLayouts(job: Job, signal: AbortSignal): Promise<Reply<AskedLayouts>> {
  return ask('/api/ask/layouts', { ...posted(job), signal }, asJson<AskedLayouts>);
}

/** Which depths and powers pass, and what an aluminium flat or an open slot changes. */
export function askHeat(job: Job, signal: AbortSignal): Promise<Reply<AskedHeat>> {
  return ask('/api/ask/heat', { ...posted(job), signal }, asJson<AskedHeat>);
}

/** Which strip gives the wanted brightness, what that saves, and what hides the lamps. */
export function askLight(job: Job, signal: AbortSignal): Promise<Reply<AskedLight>> {
  return ask('/api/ask/light', { ...posted(job), signal }, asJson<AskedLight>);
}

/** What follows from the data sheet of a strip, the resistance of its rails among it. */
export function askStripSheet(sheet: StripSheet, signal: AbortSignal): Promise<Reply<AskedStrip>> {
  return ask('/api/ask/strip-from-data-sheet', { ...posted(sheet), signal }, asJson<AskedStrip>);
}

export function askDemoJobs(): Promise<Reply<readonly DemoJob[]>> {
  return ask('/api/demo-jobs', {}, asJson<readonly DemoJob[]>);
}

export function askDemoJob(id: string): Promise<Reply<Job>> {
  return ask(`/api/demo-jobs/${encodeURIComponent(id)}`, {}, asJson<Job>);
}

/** Reads the text of a saved file as a job. */
export function askJobOfFile(text: string): Promise<Reply<Job>> {
  const init = { method: 'POST', headers: { 'content-type': 'text/plain' }, body: text };
  return ask('/api/job-file', init, asJson<Job>);
}

/** One schedule as a spreadsheet file. */
export function askScheduleCsv(id: string, job: Job): Promise<Reply<Blob>> {
  return ask(`/api/schedules/${encodeURIComponent(id)}.csv`, posted(job), (response) => response.blob());
}
