import { stefanBoltzmann_W_per_m2K4 } from './air.ts';

/**
 * Convection and conduction across an unventilated upright air layer: the greater of still air `0.025/d` and 1.25 to
 * a difference of 5 K, `0.73*dT^(1/3)` above.
 *
 * @param layer thickness_m above 0 and at most 0.3; difference_K of any sign
 * Source: ISO 6946:2007 Annex B, 2017 Annex D, heat flowing horizontally (to 5 K secondary, above from memory).
 * Check: `heat-iso6946-*`.
 */
export function uprightLayerConvection_W_per_m2K(layer: {
  readonly thickness_m: number;
  readonly difference_K: number;
}): number {
  if (!(layer.thickness_m > 0)) throw new RangeError(`air layer of ${layer.thickness_m} m`);
  const dT = Math.abs(layer.difference_K);
  return Math.max(0.025 / layer.thickness_m, dT <= 5 ? 1.25 : 0.73 * Math.cbrt(dT));
}

/** Exchange of two parallel grey faces, `E = 1/(1/e1 + 1/e2 - 1)`; emissivities above 0 and at most 1. */
export function parallelExchange(emissivity1: number, emissivity2: number): number {
  return 1 / (1 / emissivity1 + 1 / emissivity2 - 1);
}

/** Black-body coefficient about a mean temperature, `4*sigma*T^3`. */
export function blackBodyCoefficient_W_per_m2K(mean_K: number): number {
  return 4 * stefanBoltzmann_W_per_m2K4 * mean_K ** 3;
}

/** Thickness in metres and resistance of an unventilated upright air layer between ordinary faces. */
const tabulated = [
  [0, 0],
  [0.005, 0.11],
  [0.007, 0.13],
  [0.01, 0.15],
  [0.015, 0.17],
  [0.025, 0.18],
  [0.3, 0.18],
] as const;

/** No thicker layer of air is in the standard. */
export const thickestLayer_m = 0.3;

/** What the standard's table is worked out with: 10 degC, less than 5 K across, faces of emissivity 0.9. */
const tableBasis = { mean_K: 283.15, difference_K: 5, emissivity: 0.9 } as const;

/**
 * Resistance of an unventilated upright air layer: by the table, straight between its columns, where both faces are
 * ordinary (emissivity 0.9); by the formula behind the table, `1/(ha + E*4*sigma*T^3)` at 10 degC, where one face has
 * another emissivity. Air that is warmer, or crossed by more kelvins, resists less, so that this is on the warm side here.
 *
 * @param thickness_m above 0, at most 0.3; @param emissivity of one face, above 0 and at most 1; null for an ordinary one
 * Source: ISO 6946:2007 Table 2 and Annex B (2017: Table 8 and Annex D), horizontal flow (secondary). Check: `heat-iso6946-*`.
 */
export function uprightLayerResistance_m2K_per_W(thickness_m: number, emissivity: number | null): number {
  if (!(thickness_m > 0 && thickness_m <= thickestLayer_m + 1e-9))
    throw new RangeError(`air layer of ${thickness_m} m`);
  if (emissivity !== null) {
    const { mean_K, difference_K, emissivity: ordinary } = tableBasis;
    const radiation = parallelExchange(emissivity, ordinary) * blackBodyCoefficient_W_per_m2K(mean_K);
    return 1 / (uprightLayerConvection_W_per_m2K({ thickness_m, difference_K }) + radiation);
  }
  const k = tabulated.findIndex(([upTo]) => thickness_m <= upTo + 1e-9);
  const [[low, less], [high, more]] = [tabulated[k - 1]!, tabulated[k]!];
  return more - ((more - less) * (high - thickness_m)) / (high - low);
}
