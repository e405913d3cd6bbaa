/** Goods of one size: how many there are, and what each is worth. */
export interface Goods {
  /** Whole, above 0. */
  readonly size: number;
  readonly count: number;
  /** 0 or more. */
  readonly value: number;
}

export interface BestFills {
  /** The most that goods are worth that go into a room of each whole size from 0. */
  readonly values: Float64Array;
  /** How many of each goods, in the order given, are worth that much in a room. */
  countsIn(room: number): number[];
}

/** Some of the same goods, taken or left together: 1, 2, 4 and so on of them make up every number. */
interface Lot {
  readonly of: number;
  readonly count: number;
  readonly size: number;
  readonly value: number;
}

function lotsOf({ size, count, value }: Goods, of: number, room: number): Lot[] {
  const lots: Lot[] = [];
  let left = value > 0 ? Math.min(count, Math.floor(room / size)) : 0;
  for (let each = 1; left > 0; each *= 2) {
    const taken = Math.min(each, left);
    lots.push({ of, count: taken, size: taken * size, value: taken * value });
    left -= taken;
  }
  return lots;
}

/** Offers a lot to every room; marks those that are worth more with it. */
function offer({ size, value }: Lot, values: Float64Array, taken: Uint8Array, from: number): void {
  for (let room = values.length - 1; room >= size; room--) {
    const worth = values[room - size]! + value;
    if (worth > values[room]!) {
      values[room] = worth;
      taken[from + room] = 1;
    }
  }
}

/**
 * The knapsack problem for every room at once, by dynamic programming: of goods with whole sizes, those worth most
 * that go into the room together, `values[r] = max over lots of (values[r - size] + value)`.
 *
 * @param room whole, 0 or more: the largest room asked for
 * Exact where values are whole numbers that add up to less than 2^53. Work goes by `lots * room`.
 * Source: Bellman's recursion with counts split in powers of two; Martello and Toth, Knapsack Problems, 1990, chapter 3
 * (from memory). Check: `tests/numeric/knapsack.test.ts`, against every choice there is.
 */
export function bestFills(goods: readonly Goods[], room: number): BestFills {
  const lots = goods.flatMap((each, of) => lotsOf(each, of, room));
  const values = new Float64Array(room + 1);
  const taken = new Uint8Array(lots.length * (room + 1));
  lots.forEach((lot, i) => {
    offer(lot, values, taken, i * (room + 1));
  });
  const countsIn = (asked: number): number[] => {
    const counts = goods.map(() => 0);
    let left = asked;
    for (let i = lots.length - 1; i >= 0; i--) {
      if (taken[i * (room + 1) + left] === 0) continue;
      counts[lots[i]!.of]! += lots[i]!.count;
      left -= lots[i]!.size;
    }
    return counts;
  };
  return { values, countsIn };
}
