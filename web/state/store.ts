import type { IssuedReading, ReadingsKept } from '../../server/contract/issued-readings.ts';
import type {
  BinnedJob,
  ListedJob,
  ListedRevision,
  RevisionChanges,
} from '../../server/contract/kept-jobs.ts';
import type { KeptProduct } from '../../server/contract/products.ts';
import type { Finding } from '../../src/answer/findings.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import type { CodeRange } from '../../src/job/printed-characters.ts';
import type { Issue } from '../../src/outcome.ts';

/** Where a finding or a refusal belongs. */
export type Where = Finding['place'];

/** What is marked: a place, or one of the temperatures read in the section. */
export type Marked = Where & { readonly reading?: string };

import type { DemoJob } from '../api.ts';

/** The kept job a draft was opened from or kept as, and the version of it that the draft rests on. */
export interface KeptBase {
  readonly id: string;
  readonly etag: string;
  readonly saved: string;
  /** Who saved it; left out or empty where nobody said. */
  readonly savedBy?: string;
  /** The document of that version. */
  readonly job: Job;
  /** Set where this is the last good copy of a file that cannot be read. */
  readonly isCopy?: true;
}

/** A value out of a saved file, with who took it and when. */
export interface TakenReading extends Pick<IssuedReading, 'row' | 'quantity' | 'by' | 'at'> {
  readonly value: NonNullable<IssuedReading['value']>;
}

/** What was measured as a saved file has it: readings with who and when, and texts that were typed on a draft. */
export interface Brought {
  readonly readings: readonly TakenReading[];
  readonly typed: Readonly<Record<string, string>>;
}

/** What somebody is working on. Whatever was typed is in here, whether it makes sense or not. */
export interface Draft {
  /** The last state of the document in which every field held a sensible value. */
  readonly job: Job;
  /** Text being typed, or typed and not understood, by field name; it wins over the document in its field. */
  readonly entries: Readonly<Record<string, string>>;
  /** The other ways of giving the slots, kept while one of them is in use. */
  readonly parked: Readonly<Record<string, unknown>>;
  /** Drafts that go back to the same opening of a job have the same number. */
  readonly begun?: number;
  /** Left out for a job that was never kept in the workshop. */
  readonly kept?: KeptBase;
  /** What was typed into the boxes of the test sheet, by row and quantity; no part of the job. */
  readonly readings?: Readonly<Record<string, string>>;
  /** Who took which of the readings, where they came out of a saved file. */
  readonly taken?: readonly TakenReading[];
  /** What was typed from the data sheet of a strip that is to be worked out, by entry; no part of the job. */
  readonly sheet?: Readonly<Record<string, string>>;
}

/** An answer and the job it answers: what is drawn always belongs together. */
export interface Answer {
  readonly job: Job;
  readonly sizing: Sizing;
}

/** Why there is no answer: what is missing, what cannot be built, what the service met, or that nobody is there. */
export type Trouble =
  | { readonly is: 'incomplete'; readonly issues: readonly Issue[] }
  | { readonly is: 'refused'; readonly detail: string; readonly issues: readonly Issue[] }
  | { readonly is: 'failed'; readonly detail: string; readonly goesOn: boolean }
  | { readonly is: 'offline'; readonly detail: string };

/** How the job as it stands now is answered. */
export type Standing =
  /** `former` is what kept the job from an answer before the last change. */
  { readonly is: 'waiting'; readonly former?: Trouble } | { readonly is: 'current' } | Trouble;

/** How the careful calculation stands that follows a quick answer. */
export type Careful =
  | { readonly is: 'coming' }
  | { readonly is: 'done' }
  | Exclude<Trouble, { readonly is: 'incomplete' }>;

/** Something the reader can do about a message. */
export interface Remedy {
  readonly text: string;
  readonly act: () => void;
}

/** The workshop's folder of jobs as it was last asked for. */
export interface Workshop {
  readonly isOpen: boolean;
  readonly jobs: readonly ListedJob[];
  readonly bin: readonly BinnedJob[];
  /** Revisions of the kept job on the page, oldest first. */
  readonly revisions: readonly ListedRevision[];
  /** What is being done now; nothing else is begun meanwhile. */
  readonly busy: string | undefined;
  /** Why the lists could not be had, or undefined where they are as of now. */
  readonly trouble: string | undefined;
}

/** Somebody else kept the job after it was opened here. */
export interface Conflict {
  readonly id: string;
  /** Their version, as it is in the workshop now. */
  readonly theirs: KeptBase;
}

/** An issued revision that is looked at instead of the draft. */
export interface Frozen {
  readonly id: string;
  readonly entry: ListedRevision;
  readonly answer: Answer;
  /** Undefined where they could not be had. */
  readonly changes: RevisionChanges | undefined;
  /** As they were when it was opened; undefined where they could not be had. */
  readonly readings: readonly IssuedReading[] | undefined;
  /** Whether the service calculates as the engine did that it was issued with. */
  readonly isOfThisEngine: boolean;
  /** What was typed into the test sheet of the draft of the same job. */
  readonly onDraft: Readonly<Record<string, string>>;
  /** Who took which of those, where they came out of a saved file. */
  readonly taken: readonly TakenReading[];
  /** What a saved file brings to this revision. */
  readonly brought: Brought;
}

/** Readings taken on an issued revision, as the page has them; what was typed stands in the draft beside. */
export interface Measured {
  readonly at: { readonly id: string; readonly revision: string };
  /** What the workshop has, by row and quantity. */
  readonly boxes: Readonly<Record<string, IssuedReading>>;
  /** Boxes that somebody else wrote while they were typed into here. */
  readonly conflicts: ReadingsKept['conflicts'];
  readonly is: 'kept' | 'waiting' | 'keeping';
  /** Why something was not kept. */
  readonly trouble: string | undefined;
  /** What was typed on the draft and is in no box here. */
  readonly onDraft: Readonly<Record<string, string>>;
  /** Who took which readings, where they came out of a saved file. */
  readonly taken: readonly TakenReading[];
}

/** The workshop’s own products as they were last asked for. */
interface OwnProductsState {
  readonly products: readonly KeptProduct[];
  /** Why they could not be had; undefined where they are as of now, or were not asked for. */
  readonly trouble: string | undefined;
  /** Whether they were had once. */
  readonly isKnown: boolean;
}

export type WallView = 'glow' | 'compare' | 'line';

export interface State {
  /** Undefined until the page knows which job to show. */
  readonly draft: Draft | undefined;
  readonly past: readonly Draft[];
  readonly future: readonly Draft[];
  /** Field of the newest change: typing on in the same field is one step of undo. */
  readonly lastField: string | undefined;
  readonly answer: Answer | undefined;
  readonly standing: Standing;
  readonly careful: Careful;
  readonly demoJobs: readonly DemoJob[];
  /** What the fonts of the papers have; undefined until the service has said so. */
  readonly printed: readonly CodeRange[] | undefined;
  /** Id of the run the profile shows. */
  readonly chosenRun: string | undefined;
  /** The jobs of the designs last proposed, the first of them A. */
  readonly proposed: readonly Job[];
  /** Numbers of the slots picked on the wall to be changed together. */
  readonly pickedSlots: readonly number[];
  /** Where the last finding or refusal that was clicked belongs. */
  readonly marked: Marked | undefined;
  readonly view: WallView;
  /** A draft another tab has stored since. */
  readonly otherTab: Draft | undefined;
  /** Reasons why a file or a request was not taken; the job stays as it was. */
  readonly notice: Notice | undefined;
  readonly workshop: Workshop;
  readonly ownProducts: OwnProductsState;
  readonly conflict: Conflict | undefined;
  readonly frozen: Frozen | undefined;
  /** Set where an issued revision is looked at and its readings could be had. */
  readonly measured: Measured | undefined;
}

export interface Notice {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly remedies?: readonly Remedy[];
}

export interface Store {
  readonly get: () => State;
  readonly set: (change: Partial<State>) => void;
  readonly listen: (listener: () => void) => () => void;
}

export const emptyState: State = {
  draft: undefined,
  past: [],
  future: [],
  lastField: undefined,
  answer: undefined,
  standing: { is: 'waiting' },
  careful: { is: 'coming' },
  demoJobs: [],
  printed: undefined,
  chosenRun: undefined,
  proposed: [],
  pickedSlots: [],
  marked: undefined,
  view: 'glow',
  otherTab: undefined,
  notice: undefined,
  workshop: { isOpen: false, jobs: [], bin: [], revisions: [], busy: undefined, trouble: undefined },
  ownProducts: { products: [], trouble: undefined, isKnown: false },
  conflict: undefined,
  frozen: undefined,
  measured: undefined,
};

/** Holds the state of the page and tells everybody who listens that it changed. */
export function createStore(initial: State = emptyState): Store {
  let state = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => state,
    set(change) {
      state = { ...state, ...change };
      for (const listener of listeners) listener();
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
