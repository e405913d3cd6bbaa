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
