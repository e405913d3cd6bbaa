import { innerProduct } from './inner-product.ts';

/** Lower triangle of a factored symmetric positive definite matrix, by rows, `size*size` numbers. */
export interface DenseFactor {
  readonly size: number;
  readonly lower: Float64Array;
}

/**
 * Cholesky factor of a symmetric positive definite matrix, `A = L*L'`; reads the lower triangle only.
 * @param matrix by rows, `size*size` numbers
 * @throws RangeError when a pivot is not positive: the matrix is not positive definite
 */
export function factorDense(matrix: Float64Array, size: number): DenseFactor {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const rowI = i * size;
    for (let j = 0; j <= i; j++) {
      const rowJ = j * size;
      const sum = matrix[rowI + j]! - innerProduct(lower, rowI, lower, rowJ, j);
      if (i !== j) lower[rowI + j] = sum / lower[rowJ + j]!;
      else if (sum > 0) lower[rowI + i] = Math.sqrt(sum);
      else throw new RangeError(`pivot ${i} is ${sum}: the matrix is not positive definite`);
    }
  }
  return { size, lower };
}

/** Solves `L*y = b` in place, the forward half of a solution; `b` begins at `start` of its array. */
export function forwardDense(factor: DenseFactor, b: Float64Array, start = 0): void {
  const { size, lower } = factor;
  for (let i = 0; i < size; i++) {
    const row = i * size;
    b[start + i] = (b[start + i]! - innerProduct(lower, row, b, start, i)) / lower[row + i]!;
  }
}

/** Solves `A*x = b`; `b` is left as it was. */
export function solveDense(factor: DenseFactor, b: Float64Array): Float64Array {
  const { size, lower } = factor;
  const x = Float64Array.from(b);
  forwardDense(factor, x);
  for (let i = size - 1; i >= 0; i--) {
    const row = i * size;
    const value = x[i]! / lower[row + i]!;
    x[i] = value;
    for (let k = 0; k < i; k++) x[k] = x[k]! - lower[row + k]! * value;
  }
  return x;
}
