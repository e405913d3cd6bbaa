import { factorDense, forwardDense } from '../numeric/dense-cholesky.ts';
import { innerProduct } from '../numeric/inner-product.ts';

/** Grey-diffuse faces of an enclosure, per metre of length. */
export interface GreyEnclosure {
  readonly length_m: Float64Array;
  /** Above 0 and at most 1. */
  readonly emissivity: Float64Array;
  /** Exchange lengths `A*F` by rows, symmetric. */
  readonly exchange_m: Float64Array;
}

/**
 * Transfer lengths between grey-diffuse faces with all reflections: `q_i = sum_j K_ij*(sigma*Ti^4 - sigma*Tj^4)`.
 * With `L` the Laplacian of the exchange lengths and `r_i = (1 - e_i)/(e_i*A_i)` the radiosities obey
 * `(1 + r*L)*J = E`, so `S = L - L*sqrt(r)*(1 + sqrt(r)*L*sqrt(r))^-1*sqrt(r)*L` and `K_ij = -S_ij`. A black face has
 * `r = 0` and needs no special case; S is symmetric, so no heat is made or lost.
 *
 * @returns K by rows, with a zero diagonal; every entry is at least 0 within rounding
 * Source: network of radiosities, Incropera et al., ch. 13 (from memory); this form derived here.
 * Check: parallel plates and concentric boxes in `tests/heat/grey-exchange.test.ts`.
 */
export function transferLengths_m(enclosure: GreyEnclosure): Float64Array {
  const { length_m, emissivity, exchange_m } = enclosure;
  const n = length_m.length;
  const laplacian = laplacianOf(exchange_m, n);
  const root = Float64Array.from(length_m, (a, i) => Math.sqrt((1 - emissivity[i]!) / (emissivity[i]! * a)));
  const middle = new Float64Array(n * n);
  // Row i becomes (chol^-1 * sqrt(r)*L)', column i of what the square is taken of.
  const x = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      x[i * n + j] = root[j]! * laplacian[i * n + j]!;
      middle[i * n + j] = x[i * n + j]! * root[i]! + (i === j ? 1 : 0);
    }
  const factor = factorDense(middle, n);
  for (let i = 0; i < n; i++) forwardDense(factor, x, i * n);
  const transfer = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < i; j++) {
      const value = innerProduct(x, i * n, x, j * n, n) - laplacian[i * n + j]!;
      transfer[i * n + j] = value;
      transfer[j * n + i] = value;
    }
  return transfer;
}

function laplacianOf(exchange_m: Float64Array, n: number): Float64Array {
  const laplacian = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++)
      if (j !== i) {
        laplacian[i * n + j] = -exchange_m[i * n + j]!;
        sum += exchange_m[i * n + j]!;
      }
    laplacian[i * n + i] = sum;
  }
  return laplacian;
}
