import {
  blackBodyCoefficient_W_per_m2K,
  parallelExchange,
  uprightLayerConvection_W_per_m2K,
} from '../../src/heat/air-layer.ts';

/** Direction in which heat crosses a layer. */
export type HeatFlow = 'horizontal' | 'up' | 'down';

/**
 * Convection and conduction across an unventilated air layer, the greater of still air `0.025/d` and: horizontal as
 * `uprightLayerConvection_W_per_m2K`, up 1.95 or `1.14*dT^(1/3)`, down `0.12*d^-0.44` or `0.09*dT^0.187*d^-0.44`
 * (the first to 5 K, the second above).
 *
 * @param layer thickness_m above 0 and at most 0.3; difference_K of any sign
 * Source: ISO 6946:2007 Annex B, 2017 Annex D (to 5 K secondary, above from memory). Check: `heat-iso6946-*`.
 */
function layerConvection_W_per_m2K(layer: {
  readonly thickness_m: number;
  readonly difference_K: number;
  readonly flow: HeatFlow;
}): number {
  if (layer.flow === 'horizontal') return uprightLayerConvection_W_per_m2K(layer);
  const dT = Math.abs(layer.difference_K);
  const still = 0.025 / layer.thickness_m;
  const small = dT <= 5;
  if (layer.flow === 'up') return Math.max(still, small ? 1.95 : 1.14 * Math.cbrt(dT));
  return Math.max(still, (small ? 0.12 : 0.09 * dT ** 0.187) * layer.thickness_m ** -0.44);
}

/**
 * Resistance of an unventilated air layer, `R = 1/(ha + E*4*sigma*Tm^3)`.
 *
 * @param layer thickness_m to 0.3, at most a tenth of both other dimensions; mean_K about 250 to 350
 * Source: ISO 6946:2007 Annex B, 2017 Annex D (secondary). Check: `heat-iso6946-*`, all of Table 2.
 */
export function airLayerResistance_m2K_per_W(layer: {
  readonly thickness_m: number;
  readonly difference_K: number;
  readonly mean_K: number;
  readonly emissivity1: number;
  readonly emissivity2: number;
  readonly flow: HeatFlow;
}): number {
  const radiation =
    parallelExchange(layer.emissivity1, layer.emissivity2) * blackBodyCoefficient_W_per_m2K(layer.mean_K);
  return 1 / (layerConvection_W_per_m2K(layer) + radiation);
}

/**
 * Equivalent conductivity of a small rectangular cavity, `lambda = d/R`, `R = 1/(ha + hr)`:
 * `ha = 0.025/d` where b < 5 mm, else `max(0.025/d, 0.73*dT^(1/3))`;
 * `hr = 4*sigma*Tm^3*E*F` with `F = (1 + sqrt(1 + (d/b)^2) - d/b)/2`.
 *
 * @param cavity depth_m along the heat flow, breadth_m across it; both above 0
 * Source: ISO 10077-2:2012, 6.3 (secondary). Check: `heat-iso10077-*`.
 */
export function cavityConductivity_W_per_mK(cavity: {
  readonly depth_m: number;
  readonly breadth_m: number;
  readonly difference_K: number;
  readonly mean_K: number;
  readonly emissivity1: number;
  readonly emissivity2: number;
}): number {
  const { depth_m: d, breadth_m: b } = cavity;
  if (!(d > 0 && b > 0)) throw new RangeError(`cavity of ${d} m by ${b} m`);
  const still = 0.025 / d;
  const convection = b < 0.005 ? still : Math.max(still, 0.73 * Math.cbrt(Math.abs(cavity.difference_K)));
  const view = (1 + Math.hypot(1, d / b) - d / b) / 2;
  const exchange = parallelExchange(cavity.emissivity1, cavity.emissivity2);
  return d * (convection + blackBodyCoefficient_W_per_m2K(cavity.mean_K) * exchange * view);
}
