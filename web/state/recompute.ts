import type { Sizing } from '../../src/answer/sizing.ts';
import { type Job, job as jobSchema } from '../../src/job/job.ts';
import type { Issue } from '../../src/outcome.ts';
import { askSizing, type Reply } from '../api.ts';
import { fieldName } from './paths.ts';
import type { Standing, Store } from './store.ts';

const pause_ms = 80;
const still_ms = 600;
const firstRetry_ms = 1500;
const longestRetry_ms = 12000;

/** What keeps the document from being a whole job, one sentence a place. */
export function gaps(job: Job): Issue[] {
  const read = jobSchema.safeParse(job);
  if (read.success) return [];
  return read.error.issues.map((problem) => ({
    code: 'incomplete',
    place: { field: fieldName(problem.path.map((step) => (typeof step === 'number' ? step : String(step)))) },
    quantities: {},
    sentence: problem.message,
  }));
}

const standingOf = (reply: Exclude<Reply<Sizing>, { kind: 'withdrawn' | 'answer' }>): Standing =>
  reply.kind === 'refused'
    ? { is: 'refused', detail: reply.detail, issues: reply.issues }
    : { is: 'failed', detail: reply.detail };

/** Waits until nobody has changed anything for a while; false where somebody did. */
export function stillness(signal: AbortSignal): Promise<boolean> {
  return new Promise((resolve) => {
    const wait = setTimeout(() => resolve(true), still_ms);
    signal.addEventListener('abort', () => {
      clearTimeout(wait);
      resolve(false);
    });
  });
}

/**
 * Asks for a new answer whenever the job changes. Each question has a number and withdraws the one before, and a
 * reply counts only while its number is the newest: a stale answer never overwrites a newer one. A quick answer is
 * followed by a careful one as soon as nobody changes anything for a moment. Silence is
 * retried at growing intervals. Returns the function that asks again at once.
 */
export function keepComputed(store: Store): () => void {
  let newest = 0;
  let asked: Job | undefined;
  let controller = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let retry_ms = firstRetry_ms;

  const later = (delay_ms: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void compute(), delay_ms);
  };

  const take = (job: Job, reply: Reply<Sizing>): void => {
    if (reply.kind === 'withdrawn') return;
    if (reply.kind === 'answer') {
      retry_ms = firstRetry_ms;
      store.set({ answer: { job, sizing: reply.value }, standing: { is: 'current' } });
      return;
    }
    store.set({ standing: standingOf(reply) });
    if (reply.kind !== 'failed') return;
    later(retry_ms);
    retry_ms = Math.min(longestRetry_ms, retry_ms * 2);
  };

  const compute = async (): Promise<void> => {
    clearTimeout(timer);
    controller.abort();
    controller = new AbortController();
    const number = ++newest;
    const job = store.get().draft?.job;
    if (!job) return;
    const issues = gaps(job);
    if (issues.length > 0) {
      store.set({ standing: { is: 'incomplete', issues } });
      return;
    }
    const { signal } = controller;
    const reply = await askSizing(job, 'quick', signal);
    if (number !== newest) return;
    take(job, reply);
    if (reply.kind !== 'answer' || !(await stillness(signal))) return;
    const careful = await askSizing(job, 'careful', signal);
    if (number === newest && careful.kind === 'answer') take(job, careful);
  };

  store.listen(() => {
    const job = store.get().draft?.job;
    if (job === undefined || job === asked) return;
    asked = job;
    if (store.get().standing.is !== 'failed') store.set({ standing: { is: 'waiting' } });
    later(pause_ms);
  });
  return () => void compute();
}
