/**
 * Free vertical plate, all Rayleigh numbers:
 * `Nu = (0.825 + 0.387*Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27))^2`.
 *
 * Holds to Ra 1e12. Used for the air beside a driver's case.
 * Source: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975); Incropera eq. 9.26 (secondary).
 * Check: `heat-churchill-chu-147`, `heat-incropera-screen-*`.
 */
export function verticalPlateNusselt(plate: { readonly rayleigh: number; readonly prandtl: number }): number {
  const prandtlTerm = (1 + (0.492 / plate.prandtl) ** (9 / 16)) ** (8 / 27);
  return (0.825 + (0.387 * plate.rayleigh ** (1 / 6)) / prandtlTerm) ** 2;
}
