import type { Pieces } from './bins.ts';
import { type BestFills, bestFills } from './knapsack.ts';
import { type Basis, type Column, enterBasis, rowPrices, unitBasis } from './simplex-basis.ts';

/** Bins of one size to choose from. */
export interface PricedBins {
  readonly size: number;
  /** Whole, 0 or more; above 0 where as many as wanted may be taken. */
  readonly cost: number;
  /** How many there are; null: as many as wanted. */
  readonly count: number | null;
}

export interface PriceQuestion {
  readonly pieces: Pieces;
  readonly bins: readonly PricedBins[];
  /** What leaving out one piece of each size costs, whole and above 0. */
  readonly leftOut: readonly number[];
  /** A bound this high is all that is wanted. */
  readonly enough: number;
  /** Steps of the inner loops after which what was found has to do. */
  readonly work: number;
}

/** A way of filling a bin, and how often the relaxed problem uses it. */
interface Fill {
  readonly of: number;
  readonly counts: readonly number[];
  readonly times: number;
}

export interface BinPrices {
  /** No way of putting the pieces into bins costs less: a whole number. */
  readonly bound: number;
  /** The proof: a whole worth for a piece of each size ... */
  readonly worths: readonly number[];
  /** ... of which so many come to a cost of 1. */
  readonly unit: number;
  /** What the relaxed problem, which may use parts of a bin, would fill. */
  readonly fills: readonly Fill[];
}

type Of = { readonly of: number; readonly counts: readonly number[] } | null;

const slack = 1e-9;

/** What pieces are worth beyond what the bins cost, in units of worth. */
function surplus(question: PriceQuestion, worths: ArrayLike<number>, unit: number, { values }: BestFills) {
  const { pieces, bins } = question;
  const all = pieces.counts.reduce((sum, count, i) => sum + count * worths[i]!, 0);
  return bins.reduce(
    (sum, { size, cost, count }) => sum - (count ?? 0) * Math.max(0, values[size]! - unit * cost),
    all,
  );
}

const fillsAt = ({ pieces, bins }: PriceQuestion, worths: ArrayLike<number>): BestFills =>
  bestFills(
    pieces.sizes.map((size, i) => ({ size, count: pieces.counts[i]!, value: worths[i]! })),
    Math.max(...bins.map(({ size }) => size)),
  );

/** The least unit at which no bin of which there are as many as wanted is worth more than it costs. */
const unitFor = ({ bins }: PriceQuestion, { values }: BestFills, round: (unit: number) => number): number =>
  Math.max(...bins.map(({ size, cost, count }) => (count === null ? round(values[size]! / cost) : 0)));

/** Worths in whole numbers, so that the bound they prove is exact: sums stay below 2^50. */
function proofBy(question: PriceQuestion, prices: ArrayLike<number>): Omit<BinPrices, 'fills'> {
  const { counts } = question.pieces;
  const most = counts.reduce((sum, count, i) => sum + count * question.leftOut[i]!, 1);
  const scale = Math.floor(Math.min(2 ** 20, 2 ** 50 / most));
  const worths = counts.map((_, i) => Math.floor(prices[i]! * scale));
  const fills = fillsAt(question, worths);
  const unit = Math.max(scale, unitFor(question, fills, Math.ceil));
  const over = Math.max(0, surplus(question, worths, unit, fills));
  const rest = over % unit;
  return { bound: (over - rest) / unit + (rest > 0 ? 1 : 0), worths, unit };
}

/** The same in floating point: what the bound would be about. */
function aboutBound(question: PriceQuestion, prices: ArrayLike<number>, fills: BestFills): number {
  const unit = Math.max(
    1,
    unitFor(question, fills, (u) => u),
  );
  return surplus(question, prices, unit, fills) / unit;
}

const unitEntries = (size: number, at: number, entry: number): number[] => {
  const entries = new Array<number>(size).fill(0);
  entries[at] = entry;
  return entries;
};

/** Columns that are always there: a piece left out or one too many of each size, a bin left empty. */
type Plain = Omit<ReturnType<typeof plainColumns>, 'right'>;

function plainColumns({ pieces, bins, leftOut }: PriceQuestion) {
  const limited = bins.filter(({ count }) => count !== null);
  const size = pieces.sizes.length + limited.length;
  const column = (at: number, entry: number, cost: number): Column<Of> => ({
    cost,
    entries: unitEntries(size, at, entry),
    of: null,
  });
  const first = [
    ...pieces.sizes.map((_, i) => column(i, 1, leftOut[i]!)),
    ...limited.map((_, i) => column(pieces.sizes.length + i, 1, 0)),
  ];
  const right = [...pieces.counts, ...limited.map(({ count }) => count!)];
  return { first, right, over: pieces.sizes.map((_, i) => column(i, -1, 0)) };
}

/** A plain column whose row is priced out of what it may be worth: one left out too dear, one too many worth something. */
function plainColumn(
  question: PriceQuestion,
  prices: Float64Array,
  { first, over }: Plain,
): Column<Of> | undefined {
  const sizeCount = question.pieces.sizes.length;
  for (let i = 0; i < prices.length; i++) {
    if (prices[i]! > (question.leftOut[i] ?? 0) + slack) return first[i];
    if (i < sizeCount && prices[i]! < -slack) return over[i];
  }
  return undefined;
}

/** The way of filling a bin that is worth most beyond its cost, or undefined where none is worth more. */
function bestFill(question: PriceQuestion, prices: Float64Array, fills: BestFills): Column<Of> | undefined {
  const { pieces, bins } = question;
  let row = pieces.sizes.length;
  const rows = bins.map(({ count }) => (count === null ? -1 : row++));
  const gains = bins.map(
    ({ size, cost }, of) => fills.values[size]! - cost + (rows[of]! < 0 ? 0 : prices[rows[of]!]!),
  );
  const of = gains.indexOf(Math.max(...gains));
  if (gains[of]! <= slack * (1 + bins[of]!.cost)) return undefined;
  const counts = fills.countsIn(bins[of]!.size);
  const limits = rows.flatMap((at, i) => (at < 0 ? [] : [i === of ? 1 : 0]));
  return { cost: bins[of]!.cost, entries: [...counts, ...limits], of: { of, counts } };
}

interface Found {
  readonly basis: Basis<Of>;
  /** Of each size, those that gave the highest bound. */
  readonly prices: ArrayLike<number>;
}

function generateColumns(question: PriceQuestion): Found {
  const { right, ...columns } = plainColumns(question);
  const basis = unitBasis(columns.first, right);
  const sizeCount = question.pieces.sizes.length;
  let best = { bound: 0, prices: new Float64Array(sizeCount) };
  for (let work = question.work; work > 0; ) {
    const prices = rowPrices(basis);
    const plain = plainColumn(question, prices, columns);
    work -= basis.columns.length ** 2;
    if (plain) {
      if (!enterBasis(basis, plain)) break;
      continue;
    }
    const worths = prices.map((price, i) => Math.min(Math.max(0, price), question.leftOut[i] ?? 0));
    const fills = fillsAt(question, worths);
    work -= fills.values.length * sizeCount;
    const bound = aboutBound(question, worths, fills);
    if (bound > best.bound) best = { bound, prices: worths };
    const column = best.bound > question.enough - 1 + 1e-6 ? undefined : bestFill(question, prices, fills);
    if (!column || !enterBasis(basis, column)) break;
  }
  return { basis, prices: best.prices };
}

/**
 * A bound below the cost of putting pieces into bins, with its proof, by column generation over the knapsack problem.
 * The relaxed problem is `least sum of cost_b * x_p + leftOut_i * u_i` over ways p of filling a bin, with as many
 * pieces of each size as there are and no more bins than there are; x may be fractions. Its row prices, in whole
 * numbers `worth_i`, prove
 * `bound = ceil((sum of count_i * worth_i - sum over limited bins of count_b * (F_b - unit * cost_b)+) / unit)`,
 * F_b the most that pieces in one such bin can be worth, whoever found the prices and however rounded they were.
 *
 * @param question sizes whole and above 0; every kind of piece goes into some bin or may be left out
 * With bins that cost nothing and pieces that cost 1 to leave out, a bound above 0 proves that they cannot hold them all.
 * Source: Gilmore and Gomory, A linear programming approach to the cutting-stock problem, Operations Research 9 (1961);
 * Farley, A note on bounding a class of linear programming problems, 1990 (both from memory).
 * Check: `tests/numeric/bin-prices.test.ts`, `reference/set-out.checks.ts`.
 */
export function binPrices(question: PriceQuestion): BinPrices {
  const { basis, prices } = generateColumns(question);
  const fills = basis.columns.flatMap(({ of }, i) =>
    of && basis.amounts[i]! > slack ? [{ ...of, times: basis.amounts[i]! }] : [],
  );
  return { ...proofBy(question, prices), fills };
}
