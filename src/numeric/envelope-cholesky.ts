import { innerProduct } from './inner-product.ts';

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
  const offset = new Int32Array(size);
  let length = 0;
  for (let i = 0; i < size; i++) {
    offset[i] = length - first[i]!;
    length += i - first[i]! + 1;
  }
  return { size, first, offset, values: new Float64Array(length) };
}

/**
 * Replaces a symmetric positive definite matrix by its Cholesky factor, in place.
 * @throws RangeError when a pivot is not positive
 */
export function factorEnvelope(matrix: Envelope): void {
  const { size, first, offset, values } = matrix;
  for (let i = 0; i < size; i++) {
    const rowI = offset[i]!;
    const firstI = first[i]!;
    for (let j = firstI; j < i; j++) {
      const rowJ = offset[j]!;
      const start = Math.max(firstI, first[j]!);
      const known = start < j ? innerProduct(values, rowI + start, values, rowJ + start, j - start) : 0;
      values[rowI + j] = (values[rowI + j]! - known) / values[rowJ + j]!;
    }
    const pivot = values[rowI + i]! - innerProduct(values, rowI + firstI, values, rowI + firstI, i - firstI);
    if (!(pivot > 0)) throw new RangeError(`pivot ${i} is ${pivot}: the matrix is not positive definite`);
    values[rowI + i] = Math.sqrt(pivot);
  }
}

/** Solves `A*x = b` with the factor of `A`; `x` holds b on entry and the solution on return. */
export function solveEnvelope(factor: Envelope, x: Float64Array): void {
  const { size, first, offset, values } = factor;
  for (let i = 0; i < size; i++) {
    const row = offset[i]!;
    let s0 = x[i]!;
    let s1 = 0;
    let k = first[i]!;
    for (; k + 1 < i; k += 2) {
      s0 -= values[row + k]! * x[k]!;
      s1 -= values[row + k + 1]! * x[k + 1]!;
    }
    if (k < i) s0 -= values[row + k]! * x[k]!;
    x[i] = (s0 + s1) / values[row + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = offset[i]!;
    const value = x[i]! / values[row + i]!;
    x[i] = value;
    for (let k = first[i]!; k < i; k++) x[k] = x[k]! - values[row + k]! * value;
  }
}
