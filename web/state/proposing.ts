import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Proposal as Design, Proposals } from '../../src/answer/proposals.ts';
import type { Job } from '../../src/job/job.ts';
import { type Openable, openables, openByDefault } from '../../src/job/open-choices.ts';
import type { Issue } from '../../src/outcome.ts';
import { askProposals, type ProposalNews } from '../api-proposals.ts';
import type { Proposal } from './proposals.ts';
import { isSameWork } from './recompute.ts';
import type { Store } from './store.ts';

/** Where the search stands. */
export type Searching =
  | { readonly is: 'idle' }
  | { readonly is: 'searching'; readonly news: ProposalNews | undefined }
  | { readonly is: 'stopped'; readonly news: ProposalNews | undefined }
  | { readonly is: 'done' }
  | { readonly is: 'refused'; readonly detail: string; readonly issues: readonly Issue[] }
  | { readonly is: 'failed'; readonly detail: string };

/** Designs, and the job they were looked for. */
export interface Found {
  readonly answer: Proposals;
  readonly of: Job;
}

/** The parts of a job that a design decides; title, panel, limits and whatever else is not touched stay as they are now. */
export function designProposal({ job, changes }: Pick<Design, 'job' | 'changes'>): Proposal {
  const { slots, section, strip, feeds, cables, drivers, dimming } = job;
  const said = changes.map(({ label, after }) => `${label.toLowerCase()} ${after}`).join(', ');
  return {
    what: said === '' ? 'the job as it is' : said,
    fields: ['strip.data', 'cables.data', 'drivers.data', 'feeds', 'section', 'dimming', 'slots'],
    edit: (now) => ({ ...now, slots, section, strip, feeds, cables, drivers, dimming }),
  };
}

/** A, B, C: what designs are called here. */
export const letterOf = (i: number): string => String.fromCharCode(65 + i);

/** Which choices are open, the search for designs, and what it found. */
export class Proposing implements ReactiveController {
  searching: Searching = { is: 'idle' };
  found: Found | undefined;
  /** What somebody switched otherwise than it is by itself. */
  private readonly switched = new Map<Openable, boolean>();
  private readonly host: ReactiveControllerHost & { readonly store: Store };
  private controller = new AbortController();

  constructor(host: ReactiveControllerHost & { readonly store: Store }) {
    this.host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.controller.abort();
  }

  open(job: Job): readonly Openable[] {
    const usual = new Set(openByDefault(job));
    return openables.filter((each) => this.switched.get(each) ?? usual.has(each));
  }

  setOpen(of: Openable, isOpen: boolean): void {
    this.switched.set(of, isOpen);
    this.host.requestUpdate();
  }

  /** Whether what was found is for the job as it stands. */
  isOld(job: Job): boolean {
    return this.found !== undefined && !isSameWork(this.found.of, job);
  }

  stop(): void {
    this.controller.abort();
    const { searching } = this;
    if (searching.is === 'searching') this.stand({ is: 'stopped', news: searching.news });
  }

  async start(job: Job): Promise<void> {
    this.controller.abort();
    const controller = new AbortController();
    this.controller = controller;
    this.show(undefined);
    this.stand({ is: 'searching', news: undefined });
    const onNews = (news: ProposalNews): void => {
      if (!controller.signal.aborted) this.stand({ is: 'searching', news });
    };
    const reply = await askProposals({ job, open: this.open(job) }, controller.signal, onNews);
    if (controller.signal.aborted || reply.kind === 'withdrawn') return;
    if (reply.kind === 'answer') this.show({ answer: reply.value, of: job });
    if (reply.kind === 'answer') this.stand({ is: 'done' });
    else if (reply.kind === 'failed') this.stand({ is: 'failed', detail: reply.detail });
    else this.stand({ is: 'refused', detail: reply.detail, issues: reply.issues });
  }

  private show(found: Found | undefined): void {
    this.found = found;
    this.host.store.set({ proposed: found?.answer.designs.map(({ job }) => job) ?? [] });
  }

  private stand(searching: Searching): void {
    this.searching = searching;
    this.host.requestUpdate();
  }
}
