import { nothingYet, openDrivers, openFamily } from './open-families.ts';
import { openGroup } from './open-groups.ts';
import { openLeaf, openWhole } from './open-leaves.ts';
import type { Node, Passing } from './search-parts.ts';
import { type Aim, type Fallen, type Known, put, type SearchState, searchState } from './search-state.ts';
import type { Space } from './space.ts';

export interface Found {
  readonly best: Passing | null;
  /** Whether nothing that was left aside can be less. */
  readonly proved: boolean;
  /** What nothing that was left aside can be less than, by the aim. */
  readonly bound: readonly number[] | null;
  readonly fell: Fallen;
}

interface Searching {
  readonly known: Known;
  /** In sized runs: a count, not a time, so that every machine gives the same answer. */
  readonly effort: number;
  /** A design that passes, where one is known. */
  readonly start: Passing | null;
}

function open(state: SearchState, node: Exclude<Node, { kind: 'passing' }>): void {
  if (node.kind === 'family') openFamily(state, node.p);
  else if (node.kind === 'drivers') openDrivers(state, node.part);
  else if (node.kind === 'group') openGroup(state, node.group, node.least);
  else if (node.kind === 'leaf') openLeaf(state, node.leaf);
  else openWhole(state, node.whole);
}

/**
 * Looks for the design that an aim makes least, best first: a part of a design stands in the queue by the least that any
 * whole design with it can come to, a whole one by what it is, so that the first sized design to come out is the least of
 * all. Falls are found as early as they can be: by light and depth of a section, by its heat at the fewest watts, by what
 * is electrical with the strip as cold as the room, by the drop with thicker cables. Yields after each piece of work; stops
 * where the effort is spent, and then says not proved.
 *
 * Check: `tests/proposing/search.test.ts`, against every design of small worlds sized one by one.
 */
export function* search(
  space: Space,
  aim: Aim,
  { known, effort, start }: Searching,
): Generator<{ readonly fell: Fallen; readonly best: Passing | null }, Found> {
  const state = searchState({ space, aim, known, start });
  const { queue, fell } = state;
  for (const p of space.families.keys())
    put(state, { kind: 'family', p }, { ...nothingYet, ...space.rough(p) }, [p]);
  for (let next = queue.pop(); next; next = queue.pop()) {
    const { node, key } = next;
    if (node.kind === 'passing') return { best: node.passing, proved: true, bound: key, fell };
    if (state.spent > effort) return { best: state.best, proved: false, bound: key, fell };
    open(state, node);
    yield { fell, best: state.best };
  }
  return { best: state.best, proved: true, bound: null, fell };
}
