import { compareLists, priorityQueue } from '../numeric/priority-queue.ts';
import type { Judged } from '../sizing/size-job.ts';
import type { Candidate } from './candidate.ts';
import type { Fall } from './fallen.ts';
import type { Figures } from './figures.ts';
import { type Cabled, type Cold, type Leaf, type Node, orderOf, type Passing } from './search-parts.ts';
import type { Laid, Space, Standing } from './space.ts';

/** What is looked for: the least of this list, first difference first; never less of a whole design than of its parts. */
export type Aim = (figures: Figures) => readonly number[];

/** What sizing has shown so far, kept from one search to the next. */
export interface Known {
  readonly cold: Map<string, Cold>;
  readonly careful: Map<string, Passing | Fall>;
  /** The design that fell by the fewest checks. */
  nearest: Judged | null;
}

/** Before anything is sized. */
export const nothingKnown = (): Known => ({ cold: new Map(), careful: new Map(), nearest: null });

/** Designs by the check they fell by. */
export type Fallen = ReadonlyMap<string, { readonly fall: Fall; readonly count: number }>;

interface Waiting {
  readonly key: readonly number[];
  readonly order: readonly number[];
  readonly node: Node;
}

/** A search under way: what waits, what fell, what is known, what has been spent, and the best so far. */
export interface SearchState {
  readonly space: Space;
  readonly aim: Aim;
  readonly known: Known;
  readonly queue: ReturnType<typeof priorityQueue<Waiting>>;
  readonly fell: Map<string, { fall: Fall; count: number }>;
  /** Sections too hot at the fewest watts. */
  readonly hot: Map<Standing, Fall>;
  /** Leaves that another kind of protection was already tried on. */
  readonly triedOn: Set<string>;
  spent: number;
  best: Passing | null;
}

/** A search that begins. */
export const searchState = (
  of: Pick<SearchState, 'space' | 'aim' | 'known'> & { readonly start: Passing | null },
): SearchState => ({
  ...{ space: of.space, aim: of.aim, known: of.known, best: of.start, spent: 0 },
  ...{ fell: new Map(), hot: new Map(), triedOn: new Set() },
  queue: priorityQueue<Waiting>((a, b) => compareLists(a.key, b.key) || compareLists(a.order, b.order)),
});

/** Puts a part of a design where it waits its turn; what cannot be less than the best is left aside. */
export function put(
  { aim, best, queue }: SearchState,
  node: Node,
  figures: Figures,
  order: readonly number[],
): void {
  const key = aim(figures);
  if (best === null || compareLists(key, aim(best.figures)) <= 0) queue.push({ key, order, node });
}

/** Puts everything but the section where it waits its turn. */
export const putLeaf = (state: SearchState, leaf: Leaf): void =>
  put(state, { kind: 'leaf', leaf }, leaf.least, orderOf(leaf));

/** Counts designs that fell. */
export function note({ fell }: SearchState, fall: Fall, count: number): void {
  const entry = fell.get(fall.check);
  if (entry) entry.count += count;
  else if (count > 0) fell.set(fall.check, { fall, count });
}

const failCount = ({ findings }: Judged): number =>
  findings.filter(({ status }) => status === 'fails').length;

/** Keeps the design that fell by the fewest checks. */
export function keepNearest({ known }: SearchState, judged: Judged | null): void {
  if (judged && (known.nearest === null || failCount(judged) < failCount(known.nearest)))
    known.nearest = judged;
}

/** The law of a section costs about so many sized runs. */
const sectionEffort = 150;

/** By what a section falls at the fewest watts, worked out once. */
export function heatFall(state: SearchState, section: Standing): Fall | undefined {
  if (state.hot.has(section)) return state.hot.get(section);
  state.spent += sectionEffort;
  const fall = section.heatFall();
  if (fall) state.hot.set(section, fall);
  return fall;
}

/** Sections not known to be too hot. */
export const standing = ({ hot }: SearchState, laid: Laid): Standing[] =>
  laid.standing.filter((section) => !hot.has(section));

/** The design of a leaf in a section; in that which stands for all of its strip where none is named. */
export function candidateOf({ choices }: Space, { group, c, u }: Cabled, at = group.laid.base): Candidate {
  const { d, f, l, cabling } = group;
  return {
    at,
    drivers: choices.drivers[d]!,
    feeds: choices.feeds[f]!,
    layout: choices.layouts[l]!,
    cabling: cabling[c]!,
    fuses: choices.fuses[u]!,
  };
}
