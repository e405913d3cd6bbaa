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

/** Solves `A*x = b`; `b` is left as it was. */
export function solveDense(factor: DenseFactor, b: Float64Array): Float64Array {
  const { size, lower } = factor;
  const x = Float64Array.from(b);
  for (let i = 0; i < size; i++)
    x[i] = (x[i]! - innerProduct(lower, i * size, x, 0, i)) / lower[i * size + i]!;
  for (let i = size - 1; i >= 0; i--) {
    const row = i * size;
    const value = x[i]! / lower[row + i]!;
    x[i] = value;
    for (let k = 0; k < i; k++) x[k] = x[k]! - lower[row + k]! * value;
  }
  return x;
}

/** The inverse of `A`, by rows: `A^-1 = (L^-1)'*L^-1`, each column of `L^-1` from its diagonal downwards. */
export function inverseDense({ size, lower }: DenseFactor): Float64Array {
  const columns = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const column = j * size;
    columns[column + j] = 1 / lower[column + j]!;
    for (let i = j + 1; i < size; i++) {
      const known = innerProduct(lower, i * size + j, columns, column + j, i - j);
      columns[column + i] = -known / lower[i * size + i]!;
    }
  }
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const value = innerProduct(columns, i * size + i, columns, j * size + i, size - i);
      inverse[i * size + j] = value;
      inverse[j * size + i] = value;
    }
  return inverse;
}
