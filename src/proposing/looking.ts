import type { ProposalProgress } from '../answer/proposals.ts';
import type { Openable } from '../job/open-choices.ts';
import { changesBetween, type Worded } from './changes.ts';
import { wordedOf } from './designs.ts';
import { measuresOf } from './figures.ts';
import { type Found, search } from './search.ts';
import type { Passing } from './search-parts.ts';
import type { Aim, Fallen, Known } from './search-state.ts';
import type { Space } from './space.ts';

/** What is looked for besides the cheapest, and what is said while it is. */
export interface Wish {
  readonly stage: string;
  readonly aim: Aim;
  /** Choices without which all designs are alike in it. */
  readonly needs?: readonly Openable[];
}

/** Where is looked, what is known there, and the job as it stands. */
export interface Asked {
  readonly space: Space;
  /** Designs that the open choices allow, of which these may be a part. */
  readonly allowedCount: number;
  readonly known: Known;
  readonly present: Worded | null;
}

function progressOf(
  { allowedCount, known, present }: Asked,
  stage: string,
  { fell, best }: { readonly fell: Fallen; readonly best: Passing | null },
): ProposalProgress {
  const fellCount = [...fell.values()].reduce((sum, { count }) => sum + count, 0);
  return {
    stage,
    allowedCount,
    decidedCount: Math.min(allowedCount, fellCount),
    sizedCount: known.cold.size,
    best: best && {
      measures: measuresOf(best.judged),
      changes: present ? changesBetween(present, wordedOf(best.judged)) : [],
    },
  };
}

/** Searches, and says how far it has come after each piece of work. Check: `tests/proposing/propose.test.ts`. */
export function* looked(
  asked: Asked,
  wish: Wish,
  given: { readonly effort: number; readonly start: Passing | null },
): Generator<ProposalProgress, Found> {
  const going = search(asked.space, wish.aim, { known: asked.known, ...given });
  for (let step = going.next(); ; step = going.next()) {
    if (step.done) return step.value;
    yield progressOf(asked, wish.stage, step.value);
  }
}
