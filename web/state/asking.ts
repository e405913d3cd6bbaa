import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Job } from '../../src/job/job.ts';
import type { Issue } from '../../src/outcome.ts';
import type { Reply } from '../api.ts';
import { isSameWork, stillness } from './recompute.ts';
import type { Answer, Store } from './store.ts';

export type AskedStanding =
  | { readonly is: 'shut' }
  | { readonly is: 'waiting' }
  | { readonly is: 'asking' }
  | { readonly is: 'current' }
  | { readonly is: 'refused'; readonly detail: string; readonly issues: readonly Issue[] }
  | { readonly is: 'failed'; readonly detail: string };

/** An answer to a question, beside the answer to the job it was asked of. */
export interface Given<Value> {
  readonly value: Value;
  readonly of: Answer;
}

/**
 * A question that takes seconds: asked when somebody opens it, and again after each change while it is open. It
 * waits until the job itself has its answer; whatever comes back for an earlier job is dropped.
 */
export class Asking<Value> implements ReactiveController {
  given: Given<Value> | undefined;
  standing: AskedStanding = { is: 'shut' };
  private readonly host: ReactiveControllerHost & { readonly store: Store };
  private readonly ask: (job: Job, signal: AbortSignal) => Promise<Reply<Value>>;
  private isOpen = false;
  private job: Job | undefined;
  private controller = new AbortController();
  private heard: Store | undefined;
  private deaf: (() => void) | undefined;

  constructor(
    host: ReactiveControllerHost & { readonly store: Store },
    ask: (job: Job, signal: AbortSignal) => Promise<Reply<Value>>,
  ) {
    this.host = host;
    this.ask = ask;
    host.addController(this);
  }

  hostConnected(): void {
    this.hear(this.host.store);
  }

  hostDisconnected(): void {
    this.deaf?.();
    this.heard = undefined;
    this.controller.abort();
  }

  /** Another store shows another job: what was asked before has nothing to do with it. */
  hostUpdate(): void {
    if (this.host.store === this.heard) return;
    this.hear(this.host.store);
    this.given = undefined;
    this.again();
  }

  private hear(store: Store): void {
    this.deaf?.();
    this.heard = store;
    this.deaf = store.listen(() => this.follow());
  }

  /** Somebody opens or shuts the question; shut, it asks nothing. */
  setOpen(isOpen: boolean): void {
    this.isOpen = isOpen;
    if (isOpen) this.follow();
    else if (this.standing.is !== 'current') this.forget();
  }

  /** Asks the same once more. */
  again(): void {
    this.forget();
    this.follow();
  }

  private forget(): void {
    this.controller.abort();
    this.job = undefined;
    this.stand({ is: 'shut' });
  }

  private stand(standing: AskedStanding): void {
    this.standing = standing;
    this.host.requestUpdate();
  }

  private follow(): void {
    if (!this.isOpen) return;
    const { answer, draft } = this.host.store.get();
    if (!isSameWork(draft?.job, this.job)) {
      this.controller.abort();
      this.stand({ is: 'waiting' });
    }
    this.job = draft?.job;
    if (this.standing.is === 'waiting' && answer !== undefined && isSameWork(answer.job, this.job)) {
      void this.send(answer);
    }
  }

  private async send(of: Answer): Promise<void> {
    this.controller = new AbortController();
    const { signal } = this.controller;
    this.stand({ is: 'asking' });
    if (this.given && !(await stillness(signal))) return;
    const reply = await this.ask(of.job, signal);
    if (signal.aborted || reply.kind === 'withdrawn') return;
    if (reply.kind === 'answer') this.given = { value: reply.value, of };
    this.stand(standingOf(reply));
  }
}

function standingOf(reply: Exclude<Reply<unknown>, { kind: 'withdrawn' }>): AskedStanding {
  if (reply.kind === 'answer') return { is: 'current' };
  if (reply.kind === 'failed') return { is: 'failed', detail: reply.detail };
  return { is: 'refused', detail: reply.detail, issues: reply.issues };
}
