import type { Sizing } from '../../src/answer/sizing.ts';
import { fieldName } from '../../src/job/field-name.ts';
import { type Job, job as jobSchema } from '../../src/job/job.ts';
import type { Issue } from '../../src/outcome.ts';
import { askSizing, type Failure, type Refusal, type Reply } from '../api.ts';
import type { Careful, Draft, Store } from './store.ts';

/** Changes of one moment, such as a paste, are one question. */
const pause_ms = 15;
const still_ms = 600;
/** An answer under way that takes longer is given up when a newer job waits behind it. */
const patience_ms = 3000;
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

type NoAnswer = Exclude<Careful, { is: 'coming' | 'done' }>;

function troubleOf(reply: Refusal | Failure): NoAnswer {
  if (reply.kind === 'refused') return { is: 'refused', detail: reply.detail, issues: reply.issues };
  if (reply.cause === 'silence') return { is: 'offline', detail: reply.detail };
  return { is: 'failed', detail: reply.detail, goesOn: reply.cause === 'busy' };
}

/** Whether it may pass by itself, so that the page asks again without being told to. */
const mayPass = (trouble: NoAnswer): boolean =>
  trouble.is === 'offline' || (trouble.is === 'failed' && trouble.goesOn);

/** Whether two jobs are the same but for the title block, on which no figure rests. */
export function isSameWork(a: Job | undefined, b: Job | undefined): boolean {
  if (a === b || a === undefined || b === undefined) return a === b;
  const keys = Object.keys(a) as (keyof Job)[];
  return keys.every((key) => key === 'title' || a[key] === b[key]);
}

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

type AskSizing = typeof askSizing;

/** A quick question under way. */
interface Flight {
  readonly draft: Draft;
  readonly controller: AbortController;
  readonly patience: ReturnType<typeof setTimeout> | undefined;
}

/**
 * Answers the job on the page. One quick question is under way and the newest job waits behind it; an answer to an
 * older state of the same job is shown meanwhile, and `standing` says that it waits. A quick answer is followed by a
 * careful one as soon as nobody has changed anything for a moment. What may pass by itself is asked again at growing
 * intervals. A change of the title block alone asks nothing.
 */
class Computing {
  private readonly store: Store;
  private readonly ask: AskSizing;
  /** The newest job that was taken up, whatever became of it. */
  private job: Job | undefined;
  private flight: Flight | undefined;
  private controller = new AbortController();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private retry_ms = firstRetry_ms;

  constructor(store: Store, ask: AskSizing) {
    this.store = store;
    this.ask = ask;
  }

  /** The job on the page may have changed. */
  follow(): void {
    const { draft, answer, standing } = this.store.get();
    if (!draft || draft.job === this.job) return;
    const isRetitled = isSameWork(draft.job, this.job);
    this.job = draft.job;
    if (isRetitled) {
      if (answer && isSameWork(answer.job, draft.job))
        this.store.set({ answer: { ...answer, job: draft.job } });
      return;
    }
    this.controller.abort();
    const former = standing.is === 'waiting' ? standing.former : standing;
    const kept = former && former.is !== 'current' ? { former } : {};
    this.store.set({ standing: { is: 'waiting', ...kept } });
    this.later(() => this.take(), pause_ms);
  }

  /** Asks again at once: for the careful answer where only that is missing. */
  again(): void {
    const { standing, careful, answer } = this.store.get();
    this.retry_ms = firstRetry_ms;
    if (standing.is !== 'current' || careful.is === 'done' || !answer) this.take();
    else void this.takeCareful(0);
  }

  private later(act: () => void, delay_ms: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(act, delay_ms);
  }

  /** Takes up the job on the page: says what it lacks, waits behind the question under way, or asks. */
  private take(): void {
    clearTimeout(this.timer);
    const { draft } = this.store.get();
    if (!draft) return;
    this.job = draft.job;
    const issues = gaps(draft.job);
    if (issues.length > 0) this.store.set({ standing: { is: 'incomplete', issues } });
    else if (this.flight) this.waitBehind(this.flight);
    else void this.send(draft);
  }

  private waitBehind(flight: Flight): void {
    if (flight.patience !== undefined || isSameWork(flight.draft.job, this.job)) return;
    const patience = setTimeout(() => flight.controller.abort(), patience_ms);
    this.flight = { ...flight, patience };
  }

  private async send(draft: Draft): Promise<void> {
    const controller = new AbortController();
    this.flight = { draft, controller, patience: undefined };
    const reply = await this.ask(draft.job, 'quick', controller.signal);
    clearTimeout(this.flight.patience);
    this.flight = undefined;
    const now = this.store.get();
    if (reply.kind !== 'withdrawn' && isSameWork(draft.job, now.draft?.job)) return this.land(reply);
    const isOlder =
      reply.kind === 'answer' && now.draft?.begun === draft.begun && now.standing.is === 'waiting';
    if (isOlder) this.store.set({ answer: { job: draft.job, sizing: reply.value } });
    this.take();
  }

  /** The answer to the job as it stands now. */
  private land(reply: Exclude<Reply<Sizing>, { kind: 'withdrawn' }>): void {
    if (reply.kind === 'answer') {
      this.retry_ms = firstRetry_ms;
      this.show(reply.value, { is: 'coming' });
      void this.takeCareful(still_ms);
      return;
    }
    const trouble = troubleOf(reply);
    this.store.set({ standing: trouble });
    if (mayPass(trouble)) this.retry(() => this.take());
  }

  private show(sizing: Sizing, careful: Careful): void {
    const job = this.store.get().draft?.job;
    if (job) this.store.set({ answer: { job, sizing }, standing: { is: 'current' }, careful });
  }

  private retry(act: () => void): void {
    this.later(act, this.retry_ms);
    this.retry_ms = Math.min(longestRetry_ms, this.retry_ms * 2);
  }

  private async takeCareful(wait_ms: number): Promise<void> {
    clearTimeout(this.timer);
    this.controller.abort();
    this.controller = new AbortController();
    const { signal } = this.controller;
    if (wait_ms > 0 && !(await stillness(signal))) return;
    const { answer } = this.store.get();
    if (!answer) return;
    this.store.set({ careful: { is: 'coming' } });
    const reply = await this.ask(answer.job, 'careful', signal);
    if (signal.aborted || reply.kind === 'withdrawn') return;
    if (reply.kind === 'answer') return this.show(reply.value, { is: 'done' });
    const trouble = troubleOf(reply);
    this.store.set({ careful: trouble });
    if (mayPass(trouble)) this.retry(() => void this.takeCareful(0));
  }
}

/** Keeps the answer on the page up to date with the job on it. Returns the function that asks again at once. */
export function keepComputed(store: Store, ask: AskSizing = askSizing): () => void {
  const computing = new Computing(store, ask);
  store.listen(() => computing.follow());
  computing.follow();
  return () => computing.again();
}
