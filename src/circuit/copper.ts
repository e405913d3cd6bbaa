/** Resistivity of standard annealed copper at 20 degC, 1/58 ohm mm2/m (IEC 60028:1925; NBS Handbook 100; secondary). */
export const copperResistivity_ohm_mm2_per_m = 1 / 58;

/** Rise of copper resistance per kelvin, referred to 20 degC (IEC 60028, constant mass; secondary). */
export const copperRise_per_K = 0.00393;

/** 1 and 2 are solid and stranded fixed-wiring conductors, 5 is flexible. */
export type ConductorClass = 'class-2' | 'class-5';

/**
 * Highest resistance of one plain annealed copper conductor at 20 degC, ohm per kilometre.
 * Source: IEC 60228:2004 tables 1, 2 (classes 1 and 2 alike in these sizes) and 3 (class 5), secondary copies.
 * Check: `reference/circuit.checks.ts` against BS 7671 volt-drop tables.
 */
const iec60228_ohm_per_km: Readonly<Record<number, Readonly<Record<ConductorClass, number>>>> = {
  0.5: { 'class-2': 36.0, 'class-5': 39.0 },
  0.75: { 'class-2': 24.5, 'class-5': 26.0 },
  1: { 'class-2': 18.1, 'class-5': 19.5 },
  1.5: { 'class-2': 12.1, 'class-5': 13.3 },
  2.5: { 'class-2': 7.41, 'class-5': 7.98 },
  4: { 'class-2': 4.61, 'class-5': 4.95 },
  6: { 'class-2': 3.08, 'class-5': 3.3 },
  10: { 'class-2': 1.83, 'class-5': 1.91 },
};

/** Standard cross-sections of IEC 60228 from 0.5 to 10 mm2, ascending. */
export const standardAreas_mm2: readonly number[] = Object.keys(iec60228_ohm_per_km)
  .map(Number)
  .sort((a, b) => a - b);

/**
 * Highest resistance of one conductor at 20 degC after IEC 60228, ohm/m.
 * @param area_mm2 a standard size from 0.5 to 10 mm2; anything else throws `RangeError`
 */
export function cableResistance_ohm_per_m(area_mm2: number, conductorClass: ConductorClass): number {
  const row = iec60228_ohm_per_km[area_mm2];
  if (row === undefined) throw new RangeError(`no IEC 60228 conductor of ${area_mm2} mm2 in the table`);
  return row[conductorClass] / 1000;
}

/**
 * The least a cable's resistance can be over the IEC 60228 maximum: `rho/A` of the full nominal area over the
 * table's value. 0.94 to 0.96 in classes 1 and 2, 0.86 to 0.91 in class 5: the low end of a tolerance band.
 * Calculating a flexible cable with `rho/A` would understate its volt drop by as much.
 * @param area_mm2 as `cableResistance_ohm_per_m`
 */
export function leastCableRatio(area_mm2: number, conductorClass: ConductorClass): number {
  return copperResistivity_ohm_mm2_per_m / area_mm2 / cableResistance_ohm_per_m(area_mm2, conductorClass);
}

/**
 * Resistance of copper at a temperature, from its resistance at 20 degC: `R20 * (1 + 0.00393 (T - 20))`.
 * @param at20_ohm any resistance or resistance per metre
 * @param copper_degC -40 to 200 degC, where the straight line holds within 0.2 %
 * Source: IEC 60028, IEC 60287-1-1 (secondary). Check: NEC chapter 9 table 8 at 75 degC in `reference/`.
 */
export function resistanceAt(at20_ohm: number, copper_degC: number): number {
  return at20_ohm * (1 + copperRise_per_K * (copper_degC - 20));
}

/** Thickness of one ounce of copper per square foot, m (IPC-4562; secondary). */
const ounce_m = 35e-6;

/**
 * Resistance of one rail of a strip at 20 degC from its foil, ohm/m: `rho / (w t)`.
 * Solder and necking add a few percent and etching takes 5 to 15 % of the width; a measured value is better.
 * @param width_m copper width of the rail
 * @param weight_oz copper weight in ounces per square foot: 1 is 35 um
 * Source: geometry; IPC 1.72 uohm cm for foil (secondary). Check: `trace-*` in `reference/circuit.checks.ts`.
 */
export function traceResistance_ohm_per_m(width_m: number, weight_oz: number): number {
  return (copperResistivity_ohm_mm2_per_m * 1e-6) / (width_m * weight_oz * ounce_m);
}
