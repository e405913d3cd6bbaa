import { airAt, rayleigh } from './air.ts';
import { uprightLayerConvection_W_per_m2K } from './air-layer.ts';
import { gapNusselt, gapRemarks } from './correlations.ts';
import type { SectionDescription } from './section-description.ts';

/** What the air in the cavity does between two mean face temperatures. */
export interface CavityConvection {
  readonly nusselt: number;
  readonly rayleigh: number;
  /** Conductivity that stands for conduction and convection across the gap, `Nu*k`. */
  readonly across_W_per_mK: number;
  /** The same along the gap. */
  readonly along_W_per_mK: number;
  readonly remarks: readonly string[];
}

/**
 * Air of the cavity as a conductor, `k*Nu` with the properties at the mean of both faces and Nu by the chosen
 * correlation over the depth; `h = Nu*k/L`.
 *
 * @param section its depth, height and choice of correlation
 * @param faces mean temperatures of the two faces, in either order
 * Holds for upright cavities; correlations differ by 10 to 15 %. Check: the correlations' own.
 */
export function cavityConvection(
  section: Pick<SectionDescription, 'cavityDepth_m' | 'slotHeight_m' | 'cavityAir'>,
  faces: { readonly backing_K: number; readonly front_K: number },
): CavityConvection {
  const { cavityDepth_m: depth_m, cavityAir } = section;
  const air = airAt((faces.backing_K + faces.front_K) / 2);
  const difference_K = faces.backing_K - faces.front_K;
  const gap = {
    rayleigh: rayleigh({ length_m: depth_m, difference_K, air }),
    prandtl: air.prandtl,
    aspect: section.slotHeight_m / depth_m,
  };
  const still = air.conductivity_W_per_mK;
  const across =
    cavityAir.factor * acrossConductivity(cavityAir.correlation, gap, still, depth_m, difference_K);
  const named = cavityAir.correlation !== 'still' && cavityAir.correlation !== 'iso6946';
  return {
    nusselt: across / still,
    rayleigh: gap.rayleigh,
    across_W_per_mK: across,
    along_W_per_mK: cavityAir.along === 'alike' ? across : still,
    remarks: named ? gapRemarks(cavityAir.correlation, gap) : [],
  };
}

function acrossConductivity(
  correlation: SectionDescription['cavityAir']['correlation'],
  gap: { readonly rayleigh: number; readonly prandtl: number; readonly aspect: number },
  still: number,
  depth_m: number,
  difference_K: number,
): number {
  if (correlation === 'still') return still;
  if (correlation === 'iso6946')
    return uprightLayerConvection_W_per_m2K({ thickness_m: depth_m, difference_K }) * depth_m;
  return still * gapNusselt(correlation, gap);
}
