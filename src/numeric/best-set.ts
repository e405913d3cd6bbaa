/** Goods of one size, which need not be whole, and how many there are. */
export interface Good {
  readonly size: number;
  /** 0 or more. */
  readonly value: number;
  readonly count: number;
}

export interface BestSet {
  /** How many of each good, in the order given, are in the best set found. */
  readonly counts: readonly number[];
  readonly value: number;
  /** No set that goes in is worth more; equal to `value`, but for rounding, where every way was looked at. */
  readonly most: number;
  readonly steps: number;
}

/** A set this much better, as a ratio, is not looked for. */
const near = 1e-9;

interface Ranked {
  readonly order: readonly number[];
  readonly sizes: readonly number[];
  readonly values: readonly number[];
  readonly counts: readonly number[];
  /** From each of them on: the smallest, and the most that one is worth. */
  readonly least: readonly number[];
  readonly dearest: readonly number[];
}

/** Goods that can go in and are worth something, by their worth for their size. */
function ranked(goods: readonly Good[], room: number): Ranked {
  const order = goods
    .map((_, i) => i)
    .filter((i) => goods[i]!.count > 0 && goods[i]!.value > 0 && goods[i]!.size <= room)
    .sort((a, b) => goods[b]!.value * goods[a]!.size - goods[a]!.value * goods[b]!.size || a - b);
  const [sizes, values] = [order.map((i) => goods[i]!.size), order.map((i) => goods[i]!.value)];
  const [least, dearest] = [[...sizes], [...values]];
  for (let i = order.length - 2; i >= 0; i--) {
    least[i] = Math.min(least[i]!, least[i + 1]!);
    dearest[i] = Math.max(dearest[i]!, dearest[i + 1]!);
  }
  return { order, sizes, values, counts: order.map((i) => goods[i]!.count), least, dearest };
}

/** What goods from one on can add at most: parts of goods allowed, and no more of them than the smallest go in. */
function boundFrom(from: number, room: number, { sizes, values, counts, least, dearest }: Ranked): number {
  if (from >= sizes.length) return 0;
  const byCount =
    least[from]! > 0 ? Math.floor(room / least[from]!) * dearest[from]! : Number.POSITIVE_INFINITY;
  let [free, bound] = [room, 0];
  for (let i = from; i < sizes.length; i++) {
    const often = sizes[i]! > 0 ? Math.min(counts[i]!, free / sizes[i]!) : counts[i]!;
    bound += often * values[i]!;
    free -= often * sizes[i]!;
    if (free <= 0 && least[i]! > 0) break;
  }
  return Math.min(bound, byCount);
}

/**
 * The knapsack problem with sizes that are not whole: goods worth most that go into a room together, by branch and bound,
 * those worth most for their size first.
 *
 * @param goods sizes and values 0 or more; @param room 0 or more, to which sums are held exactly
 * @param mostSteps steps after which the best found has to do, `most` then being a bound
 * Source: branch and bound with the bound of the linear relaxation (Dantzig 1957), and with that of the number that go in;
 * Martello and Toth, Knapsack Problems, 1990, chapter 2 (from memory). Check: `tests/numeric/best-set.test.ts`.
 */
export function bestSet(goods: readonly Good[], room: number, mostSteps: number): BestSet {
  const rank = ranked(goods, room);
  const { order, sizes, values, counts } = rank;
  const taken = order.map(() => 0);
  let [best, most, steps] = [0, 0, 0];
  let kept: number[] = [...taken];
  const go = (i: number, free: number, value: number): void => {
    if (value > best) [best, kept] = [value, [...taken]];
    if (i === order.length) return;
    const bound = value + boundFrom(i, free, rank);
    if (bound <= best * (1 + near)) return;
    if (++steps > mostSteps) {
      most = Math.max(most, bound);
      return;
    }
    const often = sizes[i]! > 0 ? Math.min(counts[i]!, Math.floor(free / sizes[i]!)) : counts[i]!;
    for (let n = often; n >= 0; n--) {
      taken[i] = n;
      go(i + 1, free - n * sizes[i]!, value + n * values[i]!);
    }
    taken[i] = 0;
  };
  go(0, room, 0);
  const all = goods.map(() => 0);
  order.forEach((good, i) => {
    all[good] = kept[i]!;
  });
  return { counts: all, value: best, most: Math.max(most, best * (1 + near)), steps };
}
