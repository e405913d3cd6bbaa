import { type Basis, type Column, enterBasis, rowPrices, unitBasis } from './simplex-basis.ts';

/** Bins of one kind to choose from. */
interface CoverBins {
  /** 0 or more. */
  readonly cost: number;
  /** How many there are; null: as many as wanted, which then cost something. */
  readonly count: number | null;
}

/** The best that was found to fill a bin with, and how much no filling is worth more than. */
export interface CoverFill {
  readonly counts: readonly number[];
  readonly value: number;
  readonly most: number;
}

export interface CoverQuestion {
  /** How many pieces there are of each class. */
  readonly counts: readonly number[];
  readonly bins: readonly CoverBins[];
  /** What leaving out one piece of each class costs, above 0. */
  readonly leftOut: readonly number[];
  /** Best filling of each bin when pieces are worth so much, and the steps that took. */
  readonly fill: (worths: readonly number[]) => {
    readonly fills: readonly CoverFill[];
    readonly steps: number;
  };
  /** Steps after which what was found has to do. */
  readonly work: number;
}

export interface CoverPrices {
  /** What putting the pieces into bins costs at least. */
  readonly bound: number;
  /** Of a piece of each class ... */
  readonly worths: readonly number[];
  /** ... of which no bin of each kind holds more than this. */
  readonly holds: readonly number[];
  /** Steps it took. */
  readonly steps: number;
}

type Of = null;

const slack = 1e-9;

const unitEntries = (size: number, at: number, entry: number): number[] => {
  const entries = new Array<number>(size).fill(0);
  entries[at] = entry;
  return entries;
};

/** What pieces are worth beyond what bins cost, worths scaled so that no bin of any number is worth more than it costs. */
function boundBy(
  { counts, bins }: CoverQuestion,
  worths: readonly number[],
  holds: readonly number[],
): number {
  const unit = bins.reduce(
    (u, { cost, count }, b) => (count === null ? Math.max(u, holds[b]! / cost) : u),
    1,
  );
  const all = counts.reduce((sum, count, i) => sum + count * worths[i]!, 0);
  const over = bins.reduce(
    (sum, { cost, count }, b) => sum + (count ?? 0) * Math.max(0, holds[b]! - unit * cost),
    0,
  );
  return (all - over) / unit;
}

/** Columns that are always there: a piece left out, a bin left empty; and a piece too many. */
function plainColumns({ counts, bins, leftOut }: CoverQuestion) {
  const limited = bins.flatMap(({ count }) => (count === null ? [] : [count]));
  const size = counts.length + limited.length;
  const column = (at: number, entry: number, cost: number): Column<Of> => ({
    ...{ cost, entries: unitEntries(size, at, entry), of: null },
  });
  return {
    first: [
      ...counts.map((_, i) => column(i, 1, leftOut[i]!)),
      ...limited.map((_, i) => column(counts.length + i, 1, 0)),
    ],
    over: counts.map((_, i) => column(i, -1, 0)),
    right: [...counts, ...limited],
  };
}

/** A plain column that would lower the cost: a piece that has come to be worth more than leaving it out, or less than nothing. */
function plainColumn(
  prices: Float64Array,
  { first, over }: ReturnType<typeof plainColumns>,
): Column<Of> | undefined {
  for (let i = 0; i < prices.length; i++) {
    if (prices[i]! > first[i]!.cost + slack) return first[i];
    if (i < over.length && prices[i]! < -slack) return over[i];
  }
  return undefined;
}

/** Every filling that is worth more than its bin costs, as columns. */
function dearFills(
  { counts, bins }: CoverQuestion,
  prices: Float64Array,
  fills: readonly CoverFill[],
): Column<Of>[] {
  let row = counts.length;
  const rows = bins.map(({ count }) => (count === null ? -1 : row++));
  return bins.flatMap(({ cost }, b) => {
    const { value, counts: held } = fills[b]!;
    const gain = value - cost + (rows[b]! < 0 ? 0 : prices[rows[b]!]!);
    if (gain <= slack * (1 + cost)) return [];
    const limits = rows.flatMap((at, i) => (at < 0 ? [] : [i === b ? 1 : 0]));
    return [{ cost, entries: [...held, ...limits], of: null }];
  });
}

const enterAll = (basis: Basis<Of>, columns: readonly Column<Of>[]): boolean =>
  columns.map((column) => enterBasis(basis, column)).some((entered) => entered);

/**
 * Prices of pieces that prove a bound below the cost of putting them into bins, by column generation:
 * `bound = (sum of count_i * worth_i - sum over limited bins of count_b * (holds_b - unit * cost_b)+) / unit`, where no bin b
 * holds more worth than `holds_b`, whoever found the worths. For any numbers n_b of bins that do hold all pieces,
 * `sum of n_b * holds_b >= sum of count_i * worth_i`: a cut that other questions about the same pieces can use.
 *
 * @param question the filling of a bin is the caller's, with a bound of its own where it gave up
 * Source: Gilmore and Gomory 1961; Farley 1990 for the bound of an unfinished solution (both from memory).
 * Check: `tests/numeric/cover-prices.test.ts`.
 */
export function coverPrices(question: CoverQuestion): CoverPrices {
  const plain = plainColumns(question);
  const basis = unitBasis(plain.first, plain.right);
  const { leftOut, bins, counts } = question;
  let best: Omit<CoverPrices, 'steps'> = { bound: 0, worths: counts.map(() => 0), holds: bins.map(() => 0) };
  let { work } = question;
  while (work > 0) {
    const prices = rowPrices(basis);
    work -= basis.columns.length ** 2;
    const cheaper = plainColumn(prices, plain);
    if (cheaper) {
      if (!enterBasis(basis, cheaper)) break;
      continue;
    }
    const worths = leftOut.map((most, i) => Math.min(Math.max(0, prices[i]!), most));
    const { fills, steps } = question.fill(worths);
    work -= steps;
    const holds = fills.map(({ most }) => most);
    const bound = boundBy(question, worths, holds);
    if (bound > best.bound) best = { bound, worths, holds };
    const columns = dearFills(question, prices, fills);
    work -= columns.length * basis.columns.length ** 2;
    if (columns.length === 0 || !enterAll(basis, columns)) break;
  }
  return { ...best, steps: question.work - work };
}
