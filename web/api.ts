import type { Job } from '../src/job/job.ts';
import type { Issue } from '../src/outcome.ts';
import type { Sizing } from '../src/sizing.ts';

/** What the service said: an answer, a refusal with reasons, silence, or nothing because the question was withdrawn. */
export type Reply<Value> =
  | { readonly kind: 'answer'; readonly value: Value }
  | { readonly kind: 'refused'; readonly detail: string; readonly issues: readonly Issue[] }
  | { readonly kind: 'failed'; readonly detail: string }
  | { readonly kind: 'withdrawn' };

export interface DemoJob {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
}

interface Problem {
  readonly title?: string;
  readonly detail?: string;
  readonly issues?: readonly Issue[];
}

async function refusal(response: Response): Promise<Reply<never>> {
  const problem = (await response.json().catch(() => ({}))) as Problem;
  const detail = problem.detail ?? problem.title ?? `The service answered ${response.status}.`;
  if (response.status >= 500) return { kind: 'failed', detail };
  return { kind: 'refused', detail, issues: problem.issues ?? [] };
}

async function ask<Value>(
  path: string,
  init: RequestInit,
  read: (response: Response) => Promise<Value>,
): Promise<Reply<Value>> {
  try {
    const response = await fetch(path, init);
    if (!response.ok) return await refusal(response);
    return { kind: 'answer', value: await read(response) };
  } catch {
    if (init.signal?.aborted) return { kind: 'withdrawn' };
    return { kind: 'failed', detail: 'The service does not answer. It may have been stopped.' };
  }
}

const asJson = <Value>(response: Response): Promise<Value> => response.json() as Promise<Value>;

const posted = (job: Job): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(job),
});

/** The whole answer to one job: quick at every change, careful (the field of heat, every tolerance) in seconds. */
export function askSizing(job: Job, care: Sizing['care'], signal: AbortSignal): Promise<Reply<Sizing>> {
  return ask(`/api/sizing?care=${care}`, { ...posted(job), signal }, asJson<Sizing>);
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
