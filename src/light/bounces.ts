import { facetLength } from '../numeric/view-factors.ts';
import type { SectionFacet } from './section-facets.ts';

/** Facets, what they exchange, and the light that falls straight on them. */
export interface BounceProblem {
  readonly facets: readonly SectionFacet[];
  /** Row by row, as in the exchange table, or weighted for one harmonic. */
  readonly shared_m: Float64Array;
  readonly direct: Float64Array;
}

/** Light a facet sends on: its own reflected, and what comes through the sheet from its other side. */
function sentOn(facet: SectionFacet, own: number, otherSide: number): number {
  return facet.reflectance * own + facet.transmittance * otherSide;
}

/** Sweeps allowed before the solver gives up; a cavity with 99 % white walls needs about five hundred. */
const mostSweeps = 20_000;

/**
 * Light that falls on every facet once it has bounced for ever:
 * `G_i = direct_i + sum_j shared_ij/length_i * (rho_j*G_j + tau_j*G_other_side_of_j)`, by Gauss-Seidel sweeps.
 * Every facet sends on no more than it gets and some light leaves, so the sweeps always converge.
 *
 * @returns G in the unit of `direct`; a sweep moves it by less than 1e-13 of its largest value.
 * @throws RangeError when the sweeps run out, which only a cavity that keeps all its light can cause.
 * Source: textbook radiosity balance (Siegel and Howell, Thermal Radiation Heat Transfer; from memory).
 * Check: `cavity-out-*` in `reference/light.checks.ts`; the balance of every answer.
 */
export function bouncedLight({ facets, shared_m, direct }: BounceProblem): Float64Array {
  const count = facets.length;
  const light = Float64Array.from(direct);
  const sent = new Float64Array(count);
  const refresh = (i: number): void => {
    const facet = facets[i]!;
    sent[i] = sentOn(facet, light[i]!, facet.partner < 0 ? 0 : light[facet.partner]!);
  };
  const length_m = Float64Array.from(facets, facetLength);
  for (let i = 0; i < count; i++) refresh(i);
  for (let sweep = 0; sweep < mostSweeps; sweep++) {
    let moved = 0;
    let largest = 0;
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let j = 0, at = i * count; j < count; j++, at++) sum += shared_m[at]! * sent[j]!;
      const next = direct[i]! + sum / length_m[i]!;
      moved = Math.max(moved, Math.abs(next - light[i]!));
      largest = Math.max(largest, next);
      light[i] = next;
      refresh(i);
      if (facets[i]!.partner >= 0) refresh(facets[i]!.partner);
    }
    if (moved <= 1e-13 * largest) return light;
  }
  throw new RangeError('light that bounces for ever: every face reflects everything and nothing leaves');
}
