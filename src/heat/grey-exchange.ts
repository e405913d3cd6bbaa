import { factorFronts, inverseOf, oneFront } from '../numeric/multifrontal.ts';

/** Grey-diffuse faces of an enclosure, per metre of length. */
export interface GreyEnclosure {
  readonly length_m: Float64Array;
  /** Above 0 and at most 1. */
  readonly emissivity: Float64Array;
  /** Direct exchange areas per metre `A*F` by rows, symmetric. */
  readonly exchange_m: Float64Array;
}

/** A blacker face is taken as this black, which changes its exchange by a part in 1e8. */
const blackest = 1 - 1e-8;

/**
 * Transfer lengths between grey-diffuse faces with all reflections: `q_i = sum_j K_ij*(sigma*Ti^4 - sigma*Tj^4)`.
 * With `L` the Laplacian of the direct exchange areas and `r_i = (1 - e_i)/(e_i*A_i)` the radiosities obey
 * `(1 + r*L)*J = E`. With `B = 1 + sqrt(r)*L*sqrt(r)` that is `K_ij = (B^-1)_ij/sqrt(r_i*r_j)`, symmetric, so no heat
 * is made or lost.
 *
 * @returns K by rows, with a zero diagonal; every entry is at least 0 within rounding
 * Source: network of radiosities, Incropera et al., ch. 13 (from memory); this form derived here.
 * Check: parallel plates and concentric boxes in `tests/heat/grey-exchange.test.ts`.
 */
export function transferLengths_m(enclosure: GreyEnclosure): Float64Array {
  const { length_m, exchange_m } = enclosure;
  const n = length_m.length;
  const root = Float64Array.from(length_m, (a, i) => {
    const e = Math.min(enclosure.emissivity[i]!, blackest);
    return Math.sqrt((1 - e) / (e * a));
  });
  const matrix = oneFront(n);
  for (let i = 0; i < n; i++) {
    const row = i * n;
    let others_m = 0;
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      others_m += exchange_m[i * n + j]!;
      if (j < i) matrix.values[row + j] = -root[i]! * root[j]! * exchange_m[i * n + j]!;
    }
    matrix.values[row + i] = 1 + root[i]! * root[i]! * others_m;
  }
  factorFronts(matrix);
  const transfer = inverseOf(matrix);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      transfer[i * n + j] = i === j ? 0 : transfer[i * n + j]! / (root[i]! * root[j]!);
  return transfer;
}
