import { IntList } from './int-list.ts';

/**
 * Sparse factorisation `A = L*D*L^T` of a symmetric positive definite matrix whose unknowns are already numbered
 * in the order of their elimination.
 *
 * The pattern is worked out once (`planFactor`): which places of L are filled, and, for every product that the
 * elimination subtracts, the place it is subtracted from. The numbers then run through that list without looking
 * anything up, as often as needed. The values of one matrix live in one array: the diagonal first (`count`
 * places), then the places below it, column by column.
 *
 * Source: George and Liu, Computer Solution of Large Sparse Positive Definite Systems, 1981, ch. 5 (symbolic
 * factorisation by merging the columns of the children in the elimination tree; from memory).
 * Check: `tests/numeric/symmetric-factor.test.ts` against dense elimination.
 */
export interface FactorPlan {
  readonly count: number;
  /** Where each column begins in `row`; one more than the columns. */
  readonly columnStart: Int32Array;
  /** Row of each place below the diagonal, ascending in each column. */
  readonly row: Int32Array;
  /** Places that the products of each column's elimination are subtracted from, in the order they arise. */
  readonly target: Int32Array;
}

/** How many values one matrix of this plan has. */
export function placeCount(plan: FactorPlan): number {
  return plan.count + plan.row.length;
}

/**
 * Plans the factorisation of a matrix with the given off-diagonal places.
 * @param count unknowns
 * @param a, b the two unknowns of each off-diagonal place, in either order, repeats allowed, a never b
 */
export function planFactor(count: number, a: Int32Array, b: Int32Array): FactorPlan {
  const { columnStart, row } = filledColumns(count, lowerColumns(count, a, b));
  const filled = { count, columnStart, row };
  return { ...filled, target: eliminationTargets(filled) };
}

/** Place of the matrix element of two unknowns, which the plan must hold. */
export function placeOf(plan: Omit<FactorPlan, 'target'>, a: number, b: number): number {
  if (a === b) return a;
  const column = Math.min(a, b);
  const wanted = Math.max(a, b);
  let p = plan.columnStart[column]!;
  while (plan.row[p] !== wanted) {
    if (++p >= plan.columnStart[column + 1]!) throw new RangeError(`no place for ${a}, ${b} in the plan`);
  }
  return plan.count + p;
}

/**
 * Replaces a matrix by its factors, in place.
 * @returns false where a pivot is not positive, that is, where the matrix is not positive definite
 */
export function factorise(plan: FactorPlan, values: Float64Array): boolean {
  const { count, columnStart, target } = plan;
  let t = 0;
  for (let j = 0; j < count; j++) {
    const pivot = values[j]!;
    if (!(pivot > 0)) return false;
    const end = count + columnStart[j + 1]!;
    for (let p = count + columnStart[j]!; p < end; p++) {
      const ratio = values[p]! / pivot;
      for (let q = p; q < end; q++) values[target[t++]!]! -= ratio * values[q]!;
      values[p] = ratio;
    }
  }
  return true;
}

/** Solves `A*x = b` with the factors of A; `b` is replaced by x. */
export function solveFactored(plan: FactorPlan, factors: Float64Array, b: Float64Array): void {
  const { count, columnStart, row } = plan;
  for (let j = 0; j < count; j++) {
    const x = b[j]!;
    for (let p = columnStart[j]!; p < columnStart[j + 1]!; p++) b[row[p]!]! -= factors[count + p]! * x;
  }
  for (let j = count - 1; j >= 0; j--) {
    let x = b[j]! / factors[j]!;
    for (let p = columnStart[j]!; p < columnStart[j + 1]!; p++) x -= factors[count + p]! * b[row[p]!]!;
    b[j] = x;
  }
}

interface Columns {
  readonly start: Int32Array;
  readonly row: Int32Array;
}

/** Off-diagonal places sorted into the column of the unknown that goes first; repeats stay. */
function lowerColumns(count: number, a: Int32Array, b: Int32Array): Columns {
  const start = new Int32Array(count + 1);
  for (let e = 0; e < a.length; e++) start[Math.min(a[e]!, b[e]!) + 1]!++;
  for (let j = 0; j < count; j++) start[j + 1]! += start[j]!;
  const next = start.slice();
  const row = new Int32Array(a.length);
  for (let e = 0; e < a.length; e++) row[next[Math.min(a[e]!, b[e]!)]!++] = Math.max(a[e]!, b[e]!);
  return { start, row };
}

/**
 * The places of L: a column holds its own places and those of every column whose first place it is.
 * The invariant: when column j is reached, all its children are complete, because a child is a smaller number.
 */
function filledColumns(count: number, own: Columns): { columnStart: Int32Array; row: Int32Array } {
  const columnStart = new Int32Array(count + 1);
  const firstChild = new Int32Array(count).fill(-1);
  const nextSibling = new Int32Array(count).fill(-1);
  const taken = new Int32Array(count).fill(-1);
  const row = new IntList(own.row.length);
  for (let j = 0; j < count; j++) {
    const start = row.length;
    taken[j] = j;
    takeNew(own.row, own.start[j]!, own.start[j + 1]!, { taken, by: j, start, into: row });
    for (let c = firstChild[j]!; c >= 0; c = nextSibling[c]!) {
      takeNew(row.items, columnStart[c]!, columnStart[c + 1]!, { taken, by: j, start, into: row });
    }
    columnStart[j + 1] = row.length;
    if (row.length === start) continue;
    const parent = row.items[start]!;
    nextSibling[j] = firstChild[parent]!;
    firstChild[parent] = j;
  }
  return { columnStart, row: row.toArray() };
}

/** Inserts the rows not yet taken by a column into it, in ascending order; columns are short. */
function takeNew(
  rows: Int32Array,
  from: number,
  to: number,
  column: {
    readonly taken: Int32Array;
    readonly by: number;
    readonly start: number;
    readonly into: IntList;
  },
): void {
  const { taken, by, start, into } = column;
  for (let p = from; p < to; p++) {
    const i = rows[p]!;
    if (taken[i] === by) continue;
    taken[i] = by;
    let at = into.length;
    into.push(i);
    const { items } = into;
    for (; at > start && items[at - 1]! > i; at--) items[at] = items[at - 1]!;
    items[at] = i;
  }
}

function eliminationTargets(plan: Omit<FactorPlan, 'target'>): Int32Array {
  const { count, columnStart, row } = plan;
  let total = 0;
  for (let j = 0; j < count; j++) {
    const places = columnStart[j + 1]! - columnStart[j]!;
    total += (places * (places + 1)) / 2;
  }
  const target = new Int32Array(total);
  let t = 0;
  for (let j = 0; j < count; j++) {
    const end = columnStart[j + 1]!;
    for (let p = columnStart[j]!; p < end; p++) {
      for (let q = p; q < end; q++) target[t++] = placeOf(plan, row[p]!, row[q]!);
    }
  }
  return target;
}
