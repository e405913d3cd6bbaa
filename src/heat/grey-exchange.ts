import { factorDense } from '../numeric/dense-cholesky.ts';

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
  const x = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      x[i * n + j] = root[i]! * laplacian[i * n + j]!;
      middle[i * n + j] = x[i * n + j]! * root[j]! + (i === j ? 1 : 0);
    }
  forwardRows(factorDense(middle, n).lower, x, n);
  subtractProduct(laplacian, x, n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) laplacian[i * n + j] = i === j ? 0 : -laplacian[i * n + j]!;
  return laplacian;
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

/** `X := L^-1 * X`, by rows. */
function forwardRows(lower: Float64Array, x: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) {
      const factor = lower[i * n + k]!;
      for (let j = 0; j < n; j++) x[i * n + j] = x[i * n + j]! - factor * x[k * n + j]!;
    }
    const pivot = lower[i * n + i]!;
    for (let j = 0; j < n; j++) x[i * n + j] = x[i * n + j]! / pivot;
  }
}

/** `A := A - X'*X`, the lower triangle computed and mirrored so that A stays exactly symmetric. */
function subtractProduct(a: Float64Array, x: Float64Array, n: number): void {
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++) {
      const factor = x[k * n + i]!;
      for (let j = 0; j <= i; j++) a[i * n + j] = a[i * n + j]! - factor * x[k * n + j]!;
    }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) a[j * n + i] = a[i * n + j]!;
}
