import { keepsTo } from '../numeric/tolerance.ts';

/** A way a case can lie: its side along the shelf, its thickness over it, and how the output terminals then stand. */
export interface Way {
  readonly along_mm: number;
  readonly over_mm: number;
  readonly deep_mm: number;
  /** Terminals at the end of the shelf that was asked, a quarter turn from it, or out of the wall. */
  readonly terminals: 'asked' | 'quarter turn' | 'out';
}

/** A case to be put on a shelf, with the ways it may lie, the one liked best first; none where it is too deep. */
export interface ShelfCase {
  readonly id: string;
  readonly clearance_mm: number;
  readonly ways: readonly Way[];
  /** Whether it stands on the shelf of the case before it. */
  readonly follows?: boolean;
}

/** Room for shelves, one over the other. */
export interface ShelfRoom {
  readonly along_mm: number;
  readonly over_mm: number;
}

/** A case on its shelf: the corner nearest to the start of the lowest shelf. */
export interface ShelvedCase {
  readonly id: string;
  readonly way: Way;
  readonly along_mm: number;
  readonly over_mm: number;
}

/** Shelves up to one that ends with a certain case; `first` is the case that shelf begins with. */
interface Stack {
  readonly top_mm: number;
  readonly thickness_mm: number;
  readonly clearance_mm: number;
  readonly first: number;
  readonly below: Stack | null;
}

/** Stacks that end before each case, none of them better than another of the same end in every respect. */
type Stacks = (readonly Stack[])[];

const ground: Stack = { top_mm: 0, thickness_mm: 0, clearance_mm: 0, first: 0, below: null };

/** The least a case takes along a shelf of so much thickness; endless where it goes into none of that. */
const narrowest_mm = ({ ways }: ShelfCase, thickness_mm: number): number =>
  Math.min(...ways.map((way) => (way.over_mm <= thickness_mm ? way.along_mm : Number.POSITIVE_INFINITY)));

const gap_mm = (a: ShelfCase, b: ShelfCase): number => Math.max(a.clearance_mm, b.clearance_mm);

interface Shelf {
  readonly first: number;
  readonly thickness_mm: number;
  readonly clearance_mm: number;
}

/** Shelves that end with the last of the cases and go in along the room, each as thin as can be, the shortest first. */
function shelvesEnding(cases: readonly ShelfCase[], room: ShelfRoom): Shelf[] {
  const last = cases.at(-1)!;
  const found: Shelf[] = [];
  const thicknesses = [...new Set(cases.flatMap(({ ways }) => ways.map((way) => way.over_mm)))].sort(
    (a, b) => a - b,
  );
  let lengths = thicknesses.map(() => last.clearance_mm);
  let clearance_mm = 0;
  for (let first = cases.length - 1; first >= 0; first--) {
    const each = cases[first]!;
    const gap = first === cases.length - 1 ? 0 : gap_mm(each, cases[first + 1]!);
    lengths = lengths.map((length, i) => length + gap + narrowest_mm(each, thicknesses[i]!));
    clearance_mm = Math.max(clearance_mm, each.clearance_mm);
    const thin = lengths.findIndex((length) => keepsTo(length + each.clearance_mm, room.along_mm));
    if (thin < 0) break;
    if (each.follows) continue;
    found.push({ first, thickness_mm: thicknesses[thin]!, clearance_mm });
  }
  return found;
}

/** The stacks that end with the last of the cases, given those that end before each of them; none where it has no room. */
function stacksEnding(stacks: Stacks, cases: readonly ShelfCase[], room: ShelfRoom): Stack[] {
  const kept: Stack[] = [];
  for (const shelf of shelvesEnding(cases, room)) {
    for (const below of stacks[shelf.first]!) {
      const top_mm = below.top_mm + Math.max(below.clearance_mm, shelf.clearance_mm) + shelf.thickness_mm;
      // Shelves come shortest first, so that those kept ask for no more clearance than this one.
      const isNoBetter = kept.some((than) => keepsTo(than.top_mm, top_mm));
      if (isNoBetter || !keepsTo(top_mm + shelf.clearance_mm, room.over_mm)) continue;
      kept.push({ ...shelf, top_mm, below });
    }
  }
  return kept;
}

/** The cases of one shelf, each lying as it is liked best as long as all of them still go in. */
function waysOn(cases: readonly ShelfCase[], thickness_mm: number, room: ShelfRoom): Way[] {
  const ways = cases.map((each) => {
    const least_mm = narrowest_mm(each, thickness_mm);
    return each.ways.find((way) => way.over_mm <= thickness_mm && way.along_mm === least_mm)!;
  });
  const ends_mm = cases[0]!.clearance_mm + cases.at(-1)!.clearance_mm;
  const gaps_mm = cases.slice(1).reduce((sum, each, i) => sum + gap_mm(cases[i]!, each), ends_mm);
  let length_mm = ways.reduce((sum, way) => sum + way.along_mm, gaps_mm);
  for (const [i, each] of cases.entries()) {
    const more_mm = (way: Way) => way.along_mm - ways[i]!.along_mm;
    const liked = each.ways.find(
      (way) => way.over_mm <= thickness_mm && keepsTo(length_mm + more_mm(way), room.along_mm),
    );
    if (!liked) continue;
    length_mm += more_mm(liked);
    ways[i] = liked;
  }
  return ways;
}

/** The cases of a stack where they stand, in their order. */
function standing(top: Stack, cases: readonly ShelfCase[], room: ShelfRoom): ShelvedCase[] {
  const shelved: ShelvedCase[] = [];
  let end = cases.length;
  for (let stack = top; stack.below; end = stack.first, stack = stack.below) {
    const here = cases.slice(stack.first, end);
    const ways = waysOn(here, stack.thickness_mm, room);
    let along_mm = 0;
    const row = here.map((each, i): ShelvedCase => {
      const before = here[i - 1];
      along_mm += before ? ways[i - 1]!.along_mm + gap_mm(before, each) : each.clearance_mm;
      return { id: each.id, way: ways[i]!, along_mm, over_mm: stack.top_mm - stack.thickness_mm };
    });
    shelved.unshift(...row);
  }
  return shelved;
}

/** Cases on shelves, and which of them have no room. */
export interface Shelved {
  readonly cases: readonly ShelvedCase[];
  readonly without: readonly string[];
}

/**
 * Puts cases on shelves in the order given, with the least height of all shelves together: over every split of the
 * order into shelves and every way each case may lie, by dynamic programming over the case a shelf ends with.
 * Along a shelf `c_first + sum of sides + sum of max(c, c_next) + c_last <= room`; a shelf is as thick as its thickest
 * case, keeps the largest clearance of its cases to the ends of the room, and the larger of two to the next shelf.
 * A case that has no room after those before it is left out, and the next is tried.
 *
 * @param cases with the ways they may lie; sides above 0 and clearances from 0, mm
 * Cases in order on straight shelves only: a cleverer packing might hold more, so "no room" is on the careful side.
 * Source: geometry; dynamic programming over the ends of rows as for lines of text (Knuth and Plass 1981, from memory).
 * Check: `tests/installation/shelves.test.ts`, against every split and every way of small sets.
 */
export function shelve(cases: readonly ShelfCase[], room: ShelfRoom): Shelved {
  const housed: ShelfCase[] = [];
  const without: string[] = [];
  const stacks: Stacks = [[ground]];
  for (const each of cases) {
    const ending = stacksEnding(stacks, [...housed, each], room);
    if (ending.length === 0) without.push(each.id);
    else {
      housed.push(each);
      stacks.push(ending);
    }
  }
  const lowest = stacks.at(-1)!.reduce((a, b) => (b.top_mm < a.top_mm ? b : a));
  return { cases: standing(lowest, housed, room), without };
}
