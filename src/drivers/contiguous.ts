import { keepsTo } from '../numeric/tolerance.ts';
import {
  type Group,
  type LoadsToAllocate,
  outputLimit_W,
  type Scarce,
  type Stand,
  standsOf,
} from './loads.ts';
import { costOf, isPriced } from './share-kinds.ts';

/** How far a driver's outputs come along the row of loads. */
interface Reach {
  /** Index of the first load it does not carry. */
  readonly to: number;
  readonly watts: number;
  /** Index of the first load of each output. */
  readonly starts: readonly number[];
}

/**
 * What a driver may carry from a load of the row on, load by load: an output takes its neighbours until it is full or the
 * zone changes, then the next output begins. No other way to cut the same loads takes fewer outputs.
 */
function* reaches(from: number, at: Stand, given: LoadsToAllocate): Generator<Reach> {
  const { loads, outputOwn_W = 0 } = given;
  const { usable_W, outputCount, outputsDimTogether } = given.models[at.model]!;
  const limit_W = outputLimit_W(given, at);
  const starts: number[] = [];
  let [watts, output_W] = [0, 0];
  for (let i = from; i < loads.length && limit_W > 0; i++) {
    const load = loads[i]!;
    const changesZone = i > from && loads[i - 1]!.zone !== load.zone;
    if (i === from || changesZone || !keepsTo(output_W + load.watts, limit_W)) {
      if (starts.length === outputCount || (changesZone && outputsDimTogether)) return;
      starts.push(i);
      watts += outputOwn_W;
      output_W = outputOwn_W;
    }
    watts += load.watts;
    output_W += load.watts;
    if (!keepsTo(watts, usable_W[at.place]!) || !keepsTo(output_W, limit_W)) return;
    yield { to: i + 1, watts, starts };
  }
}

/** A way to share out the first loads of the row. */
interface Way {
  /** What drivers are chosen by (`Cost`), cable, and the squares of their watts, which are least where they are even. */
  readonly cost: readonly [first: number, second: number, cable_m: number, squares_W2: number];
  /** Of each scarce thing. */
  readonly used: readonly number[];
  readonly last: {
    readonly before: Way;
    readonly at: Stand;
    readonly from: number;
    readonly to: number;
  } | null;
}

/** Below 0 where `a` costs less: by its first figure that differs by more than rounding. */
function compare({ cost: a }: Way, { cost: b }: Way): number {
  const first = a.findIndex((figure, i) => Math.abs(figure - b[i]!) > 1e-9 * Math.max(1, Math.abs(figure)));
  return first < 0 ? 0 : a[first]! - b[first]!;
}

/** Ways kept up to one load: more than any wall but a contrived one needs, and few enough to be quick. */
const mostKept = 60;

/** Keeps a way unless another costs no more and leaves no less; true where one had to be let go that might have been best. */
function keep(way: Way, kept: Way[]): boolean {
  const beats = (a: Way, b: Way): boolean =>
    compare(a, b) <= 0 && a.used.every((amount, i) => keepsTo(amount, b.used[i]!));
  if (kept.some((other) => beats(other, way))) return false;
  const rest = kept.filter((other) => !beats(way, other));
  kept.splice(0, kept.length, ...rest, way);
  if (kept.length <= mostKept) return false;
  kept.sort(compare).pop();
  return true;
}

/** The groups of a way, from the first load on. */
function groupsOf(way: Way, given: LoadsToAllocate): Group[] {
  if (way.last === null) return [];
  const { before, at, from, to } = way.last;
  const [furthest] = [...reaches(from, at, given)].slice(-1);
  const starts = furthest!.starts.filter((start) => start < to);
  const outputs = starts.map((start, i) => given.loads.slice(start, starts[i + 1] ?? to));
  return [...groupsOf(before, given), { ...at, outputs }];
}

export interface Contiguous {
  readonly groups: readonly Group[];
  /** Whether every way was tried, so that no other costs less. */
  readonly isWhole: boolean;
}

function leastWay(given: LoadsToAllocate, scarce: readonly Scarce[]): Contiguous | null {
  const { loads, models } = given;
  const ways: Way[][] = [...loads, null].map(() => []);
  ways[0] = [{ cost: [0, 0, 0, 0], used: scarce.map(() => 0), last: null }];
  let isWhole = true;
  const priced = isPriced(given);
  for (const [from] of loads.entries())
    for (const at of standsOf(given)) {
      const each = costOf(models[at.model]!, priced);
      let cable_m = 0;
      for (const { to, watts } of reaches(from, at, given)) {
        cable_m += loads[to - 1]!.placeDistances_m[at.place]!;
        for (const before of ways[from]!) {
          const used = before.used.map((amount, i) => amount + scarce[i]!.takes(at));
          if (!used.every((amount, i) => keepsTo(amount, scarce[i]!.limit))) continue;
          const [first, second, m, W2] = before.cost;
          const cost = [first + each[0], second + each[1], m + cable_m, W2 + watts ** 2] as const;
          if (keep({ cost, used, last: { before, at, from, to } }, ways[to]!)) isWhole = false;
        }
      }
    }
  const [best] = ways.at(-1)!.toSorted(compare);
  return best ? { groups: groupsOf(best, given), isWhole } : null;
}

/**
 * Cuts a row of loads into neighbours, each group on one driver of some model at some place: least price, then fewest
 * drivers (without prices fewest drivers, then least rated watts), then shortest cable, then watts as even as may be. Exact, by dynamic programming from the first load on;
 * of scarce things only those are counted along that would not do otherwise.
 *
 * @param given loads in the order of the row
 * @param scarce what there is only so much of
 * @returns null where it cannot be done with so much
 * Check: every way to cut and place tried in `tests/drivers/contiguous.test.ts`.
 */
export function contiguous(given: LoadsToAllocate, scarce: readonly Scarce[]): Contiguous | null {
  let counted: readonly Scarce[] = [];
  for (;;) {
    const found = leastWay(given, counted);
    if (found === null) return null;
    const short = scarce.filter((each) => !counted.includes(each) && !each.isEnough(found.groups));
    if (short.length === 0) return found;
    counted = [...counted, ...short];
  }
}
