import { type Effort, packBins, packSoon } from '../numeric/bin-packing.ts';
import { binPrices } from '../numeric/bin-prices.ts';
import { type Bins, type FilledBin, type Pieces, roomIn, sizeOf } from '../numeric/bins.ts';
import { heap } from '../numeric/heap.ts';

/** Reels of one length, in cut units. */
export interface ReelUnits {
  readonly size: number;
  /** Whole, 0 or more. */
  readonly cost: number;
  /** How many there are; null: as many as wanted. */
  readonly count: number | null;
}

/** Which reels are taken, and what is cut from each. */
export interface ReelChoice {
  /** How many of each kind, in the order of the kinds. */
  readonly bins: readonly Bins[];
  readonly filled: readonly FilledBin[];
  readonly isLeast: boolean;
  /** No choice that serves all pieces costs less. */
  readonly leastCost: number;
}

interface Counted {
  readonly counts: readonly number[];
  readonly cost: number;
  readonly size: number;
}

/** A choice waiting, and what any choice that goes on from it costs and holds at least. */
interface Waiting extends Counted {
  readonly leastCost: number;
  readonly leastSize: number;
}

const isBefore = (a: Waiting, b: Waiting): boolean =>
  a.leastCost !== b.leastCost
    ? a.leastCost < b.leastCost
    : a.leastSize !== b.leastSize
      ? a.leastSize < b.leastSize
      : a.counts > b.counts;

/**
 * How many of each kind to take so that they hold so many units, and choices on the way there: cheapest first, of equal cost
 * the fewest metres first, each once. What is missing costs at least what parts of the kinds that may still be added cost.
 */
function* choices(kinds: readonly ReelUnits[], units: number): Generator<Counted> {
  const perUnit = kinds.map((_, k) => Math.min(...kinds.slice(k).map(({ cost, size }) => cost / size)));
  const queue = heap<Waiting>(isBefore);
  const push = (item: Counted, from: number): void => {
    const missing = Math.max(0, units - item.size);
    const leastCost = item.cost + Math.ceil(missing * perUnit[from]! - 1e-9);
    queue.push({ ...item, leastCost, leastSize: Math.max(item.size, units) });
  };
  push({ counts: kinds.map(() => 0), cost: 0, size: 0 }, 0);
  for (let next = queue.pop(); next; next = queue.pop()) {
    const { counts, cost, size } = next;
    yield next;
    kinds.forEach((kind, k) => {
      if (counts[k] === kind.count || counts.findLastIndex((count) => count > 0) > k) return;
      const more = counts.with(k, counts[k]! + 1);
      push({ counts: more, cost: cost + kind.cost, size: size + kind.size }, k);
    });
  }
}

/** Choices looked at, and those that were tried to be packed, before it has to do without proof. */
const mostLooks = 20_000;
const mostTries = 100;

interface Asked {
  readonly pieces: Pieces;
  readonly total: number;
  readonly kinds: readonly ReelUnits[];
  readonly effort: Effort;
}

/** No choice costs less: the bound of the relaxed problem, where reels are bought. */
function leastCostOf({ pieces, kinds, effort }: Asked): number {
  if (
    !kinds.some(({ count }) => count === null) ||
    kinds.some((kind) => kind.cost === 0 && kind.count === null)
  )
    return 0;
  const leftOut = pieces.sizes.map(() => Math.max(...kinds.map(({ cost }) => cost)));
  const enough = Number.POSITIVE_INFINITY;
  return binPrices({ pieces, bins: kinds, leftOut, enough, work: effort.priceWork }).bound;
}

/** Bins of a choice of some kinds, beside fixed numbers of the others (null where they are chosen). */
function binsOf(
  kinds: readonly ReelUnits[],
  counts: readonly number[],
  fixed: readonly (number | null)[],
): Bins[] {
  let next = 0;
  return kinds.map(({ size }, k) => ({ size, count: fixed[k] ?? counts[next++]! }));
}

/**
 * The first choice of some kinds, in rising order of cost and metres, that serves all pieces together with fixed numbers of
 * the others; `isLeast` when every choice before it was refuted.
 */
function firstChoice(asked: Asked, fixed: readonly (number | null)[]): ReelChoice | undefined {
  const { pieces, total, kinds, effort } = asked;
  let [looks, tries, bound] = [0, 0, 0];
  let unknown: number | undefined;
  const held = roomIn(
    binsOf(
      kinds,
      kinds.map(() => 0),
      fixed,
    ),
  );
  for (const { counts, cost } of choices(
    kinds.filter((_, k) => fixed[k] === null),
    total - held,
  )) {
    const bins = binsOf(kinds, counts, fixed);
    if (++looks > mostLooks || tries >= mostTries) return undefined;
    if (roomIn(bins) < total || cost < bound) continue;
    if (tries++ === 0) {
      const soon = packSoon(pieces, bins, effort);
      if (typeof soon !== 'string') return { bins, filled: soon, isLeast: true, leastCost: cost };
      bound = cost > 0 ? leastCostOf(asked) : 0;
      if (soon === 'none' || cost < bound) continue;
    }
    const packing = packBins(pieces, bins, effort);
    if (typeof packing !== 'string')
      return { bins, filled: packing, isLeast: unknown === undefined, leastCost: unknown ?? cost };
    if (packing === 'unknown') unknown ??= cost;
  }
  return undefined;
}

/** As many of the cheapest kind as it takes, when there are too many choices to look at. */
function anyChoice({ pieces, total, kinds, effort }: Asked): ReelChoice {
  const wanted = kinds.filter(({ size, count }) => count === null && size >= pieces.sizes[0]!);
  const kind = wanted.reduce((a, b) => (b.cost * a.size < a.cost * b.size ? b : a));
  const free = kinds.map(({ cost, count }) => (cost === 0 ? (count ?? 0) : 0));
  for (let n = Math.ceil(total / kind.size); ; n++) {
    const bins = kinds.map((each, k) => ({ size: each.size, count: each === kind ? n : free[k]! }));
    const filled = packBins(pieces, bins, effort);
    if (typeof filled !== 'string') return { bins, filled, isLeast: false, leastCost: 0 };
  }
}

/**
 * The reels to take: least cost, then fewest metres of what costs nothing. All that costs nothing may be used while the
 * cheapest choice of the rest is looked for; then as little of it is taken as will do beside that choice.
 *
 * @param pieces in cut units, at least one; @param kinds at least one of which as many as wanted may be taken, that costs
 *   something and holds the longest piece
 * @returns the choice; `isLeast` when every choice before it, in rising order of cost and metres, was refuted. Of choices of
 *   equal cost that take other priced reels only the one with the fewest metres of those is looked at
 * Check: `tests/set-out/reels.test.ts`, against every choice there is.
 */
export function chooseReels(pieces: Pieces, kinds: readonly ReelUnits[], effort: Effort): ReelChoice {
  const asked = { pieces, total: sizeOf(pieces, pieces.counts), kinds, effort };
  const stock = kinds.map(({ cost, count }) => (cost === 0 ? count : null));
  const cheapest = firstChoice(asked, stock) ?? anyChoice(asked);
  if (stock.every((count) => count === null)) return cheapest;
  const bought = cheapest.bins.map(({ count }, k) => (stock[k] === null ? count : null));
  const least = firstChoice(asked, bought);
  const { leastCost } = cheapest;
  return least
    ? { ...least, leastCost, isLeast: least.isLeast && cheapest.isLeast }
    : { ...cheapest, isLeast: false };
}
