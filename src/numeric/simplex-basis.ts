/** A column of a linear program: what one of it costs, and what it adds to each row. */
export interface Column<Of> {
  readonly cost: number;
  readonly entries: readonly number[];
  readonly of: Of;
}

/** A basic solution of `A x = b, x >= 0`: one column for each row, the inverse of their matrix, and how much of each. */
export interface Basis<Of> {
  readonly columns: Column<Of>[];
  /** Row after row. */
  readonly inverse: Float64Array;
  readonly amounts: Float64Array;
}

/** Entries this small are rounding, not something to divide by. */
const leastPivot = 1e-9;

/** The basis of columns that are the columns of the identity, so that their amounts are the right side. */
export function unitBasis<Of>(columns: readonly Column<Of>[], right: readonly number[]): Basis<Of> {
  const size = columns.length;
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
  return { columns: [...columns], inverse, amounts: Float64Array.from(right) };
}

/** What one more of each row's right side would cost: `c_B * inverse`. */
export function rowPrices({ columns, inverse }: Basis<unknown>): Float64Array {
  const size = columns.length;
  const prices = new Float64Array(size);
  columns.forEach(({ cost }, i) => {
    if (cost !== 0) for (let j = 0; j < size; j++) prices[j]! += cost * inverse[i * size + j]!;
  });
  return prices;
}

function inBasis({ columns, inverse }: Basis<unknown>, entries: readonly number[]): Float64Array {
  const size = columns.length;
  const found = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) if (entries[j] !== 0) sum += inverse[i * size + j]! * entries[j]!;
    found[i] = sum;
  }
  return found;
}

/** The row that runs out first when the column comes in; of equals the one that divides best. */
function leavingRow(amounts: Float64Array, direction: Float64Array): number {
  let leaving = -1;
  let least = Number.POSITIVE_INFINITY;
  direction.forEach((entry, i) => {
    if (entry <= leastPivot) return;
    const ratio = Math.max(0, amounts[i]!) / entry;
    if (ratio > least || (ratio === least && entry <= direction[leaving]!)) return;
    leaving = i;
    least = ratio;
  });
  return leaving;
}

function eliminate(inverse: Float64Array, direction: Float64Array, pivot: number): void {
  const size = direction.length;
  const start = pivot * size;
  for (let j = 0; j < size; j++) inverse[start + j]! /= direction[pivot]!;
  direction.forEach((factor, i) => {
    if (i === pivot || factor === 0) return;
    for (let j = 0; j < size; j++) inverse[i * size + j]! -= factor * inverse[start + j]!;
  });
}

/**
 * Brings a column into the basis in place of the one that runs out first: a step of the revised simplex method.
 *
 * @returns whether there was one; the basis is changed in place
 * Source: Dantzig; Chvatal, Linear Programming, 1983, chapter 7 (from memory).
 * Check: `tests/numeric/bin-prices.test.ts`, by what is worked out with it.
 */
export function enterBasis<Of>(basis: Basis<Of>, column: Column<Of>): boolean {
  const direction = inBasis(basis, column.entries);
  const leaving = leavingRow(basis.amounts, direction);
  if (leaving < 0) return false;
  const step = Math.max(0, basis.amounts[leaving]!) / direction[leaving]!;
  direction.forEach((entry, i) => {
    basis.amounts[i] = i === leaving ? step : basis.amounts[i]! - step * entry;
  });
  eliminate(basis.inverse, direction, leaving);
  basis.columns[leaving] = column;
  return true;
}
