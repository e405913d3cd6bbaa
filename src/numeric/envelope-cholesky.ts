import { fourInnerProducts, innerProduct } from './inner-product.ts';

/**
 * A symmetric matrix by the rows of its lower triangle, each from its first entry to the diagonal. Cholesky
 * fills nothing outside this envelope, so a narrow one is cheap however large the matrix.
 */
export interface Envelope {
  readonly size: number;
  /** First column of each row. */
  readonly first: Int32Array;
  /** Row `i`, column `j` is `values[offset[i] + j]`. */
  readonly offset: Int32Array;
  readonly values: Float64Array;
}

/** An empty envelope for couplings `from[k] - to[k]`; which of the two is larger does not matter. */
export function emptyEnvelope(size: number, from: Int32Array, to: Int32Array): Envelope {
  const first = Int32Array.from({ length: size }, (_, i) => i);
  for (let k = 0; k < from.length; k++) {
    const row = Math.max(from[k]!, to[k]!);
    const column = Math.min(from[k]!, to[k]!);
    if (column < first[row]!) first[row] = column;
  }
  return envelopeOf(first);
}

/** An empty envelope that leaves nothing of the triangle out. */
export function fullEnvelope(size: number): Envelope {
  return envelopeOf(new Int32Array(size));
}

function envelopeOf(first: Int32Array): Envelope {
  const size = first.length;
  const offset = new Int32Array(size);
  let length = 0;
  for (let i = 0; i < size; i++) {
    offset[i] = length - first[i]!;
    length += i - first[i]! + 1;
  }
  return { size, first, offset, values: new Float64Array(length) };
}

/**
 * Replaces a symmetric positive definite matrix by its Cholesky factor, in place. Rows and columns go two by two,
 * so that every number fetched serves two products; here a field of temperatures spends its time.
 * @throws RangeError when a pivot is not positive
 * Check: `tests/numeric/envelope-cholesky.test.ts` against dense elimination.
 */
export function factorEnvelope(matrix: Envelope): void {
  const { size, first } = matrix;
  const sums = new Float64Array(4);
  for (let i = 0; i < size; i += 2) {
    const hasNext = i + 1 < size;
    const both = hasNext ? Math.max(first[i]!, first[i + 1]!) : size;
    let j = hasNext ? Math.min(first[i]!, first[i + 1]!) : first[i]!;
    for (; j < Math.min(both, i); j++) settle(matrix, first[i]! <= j ? i : i + 1, j);
    for (; j + 1 < i; j += 2) settleFour(matrix, i, j, sums);
    for (; j < i; j++) {
      settle(matrix, i, j);
      settle(matrix, i + 1, j);
    }
    settlePivot(matrix, i);
    if (!hasNext) return;
    if (first[i + 1]! <= i) settle(matrix, i + 1, i);
    settlePivot(matrix, i + 1);
  }
}

/** Inner product of rows `i` and `j` of the factor from column `from` to before `to`; 0 where that is nothing. */
function rowsProduct({ offset, values }: Envelope, i: number, j: number, from: number, to: number): number {
  return to > from ? innerProduct(values, offset[i]! + from, values, offset[j]! + from, to - from) : 0;
}

/** Works out the factor's element `i`, `j`, those to its left and above being known. */
function settle(matrix: Envelope, i: number, j: number): void {
  const { first, offset, values } = matrix;
  const known = rowsProduct(matrix, i, j, Math.max(first[i]!, first[j]!), j);
  const at = offset[i]! + j;
  values[at] = (values[at]! - known) / values[offset[j]! + j]!;
}

function settlePivot(matrix: Envelope, i: number): void {
  const { first, offset, values } = matrix;
  const at = offset[i]! + i;
  const pivot = values[at]! - rowsProduct(matrix, i, i, first[i]!, i);
  if (!(pivot > 0)) throw new RangeError(`pivot ${i} is ${pivot}: the matrix is not positive definite`);
  values[at] = Math.sqrt(pivot);
}

/** Works out elements `i` and `i + 1`, `j` and `j + 1`: what all four rows share at once, the rest one by one. */
function settleFour(matrix: Envelope, i: number, j: number, sums: Float64Array): void {
  const { first, offset, values } = matrix;
  const [a, b, c, d] = [offset[i]!, offset[i + 1]!, offset[j]!, offset[j + 1]!];
  const shared = Math.min(j, Math.max(first[i]!, first[i + 1]!, first[j]!, first[j + 1]!));
  fourInnerProducts(values, { a: a + shared, b: b + shared, c: c + shared, d: d + shared }, j - shared, sums);
  const before = (row: number, column: number): number =>
    rowsProduct(matrix, row, column, Math.max(first[row]!, first[column]!), shared);
  const [pivot, nextPivot] = [values[c + j]!, values[d + j + 1]!];
  const between = first[j + 1]! <= j ? values[d + j]! : 0;
  const ac = (values[a + j]! - sums[0]! - before(i, j)) / pivot;
  const bc = (values[b + j]! - sums[1]! - before(i + 1, j)) / pivot;
  values[a + j] = ac;
  values[b + j] = bc;
  values[a + j + 1] = (values[a + j + 1]! - sums[2]! - before(i, j + 1) - ac * between) / nextPivot;
  values[b + j + 1] = (values[b + j + 1]! - sums[3]! - before(i + 1, j + 1) - bc * between) / nextPivot;
}

/** Solves `A*x = b` with the factor of `A`; `x` holds b on entry and the solution on return. */
export function solveEnvelope({ size, first, offset, values }: Envelope, x: Float64Array): void {
  for (let i = 0; i < size; i++) {
    const [row, start] = [offset[i]!, first[i]!];
    x[i] = (x[i]! - innerProduct(values, row + start, x, start, i - start)) / values[row + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = offset[i]!;
    const value = x[i]! / values[row + i]!;
    x[i] = value;
    for (let k = first[i]!; k < i; k++) x[k]! -= values[row + k]! * value;
  }
}

/**
 * The inverse of `A` from its full factor, by rows: `A^-1 = (L^-1)'*L^-1`.
 * @param factor of a `fullEnvelope`
 */
export function inverseOf({ size, offset, values }: Envelope): Float64Array {
  // Column j of L^-1, from its diagonal downwards, is row j here.
  const columns = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const column = j * size;
    columns[column + j] = 1 / values[offset[j]! + j]!;
    for (let i = j + 1; i < size; i++) {
      const known = innerProduct(values, offset[i]! + j, columns, column + j, i - j);
      columns[column + i] = -known / values[offset[i]! + i]!;
    }
  }
  return rowProducts(columns, size);
}

/** Products of all pairs of rows, row `i` being 0 before column `i`; two by two. */
function rowProducts(rows: Float64Array, size: number): Float64Array {
  const products = new Float64Array(size * size);
  const put = (i: number, j: number, value: number): void => {
    products[i * size + j] = value;
    products[j * size + i] = value;
  };
  const sums = new Float64Array(4);
  for (let i = 0; i < size; i += 2)
    for (let j = 0; j <= i; j += 2) {
      const [a, c] = [i * size + i, j * size + i];
      if (i + 1 < size) {
        fourInnerProducts(rows, { a, b: a + size, c, d: c + size }, size - i, sums);
        put(i + 1, j, sums[1]!);
        put(i + 1, j + 1, sums[3]!);
      } else {
        sums[0] = innerProduct(rows, a, rows, c, size - i);
        sums[2] = j < i ? innerProduct(rows, a, rows, c + size, size - i) : 0;
      }
      put(i, j, sums[0]!);
      if (j < i) put(i, j + 1, sums[2]!);
    }
  return products;
}
