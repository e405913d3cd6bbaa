import { copperResistivity_ohm_mm2_per_m } from '../../src/circuit/copper.ts';

/**
 * Diameter of an American wire gauge conductor: `d = 0.127 mm * 92^((36 - n)/39)`.
 * @param gauge 0 to 40
 * Source: ASTM B258 (secondary). Check: `awg-*` in `reference/circuit.checks.ts`.
 */
export function awgDiameter_mm(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Resistance of a solid American wire gauge conductor at 20 degC and 100 % IACS, ohm/m: `rho / (pi d^2 / 4)`. */
export function awgResistance_ohm_per_m(gauge: number): number {
  return copperResistivity_ohm_mm2_per_m / ((Math.PI * awgDiameter_mm(gauge) ** 2) / 4);
}
