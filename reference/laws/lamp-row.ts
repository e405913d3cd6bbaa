import { harmonicAmplitude, shareBelow } from '../../src/light/lamp-row.ts';
import { lnGamma } from '../../src/numeric/gamma.ts';

/** A row of equal lamps and a line beside it, both long: what the light on that line depends on. */
export interface RowGeometry {
  /** Exponent m of the lamps' intensity `I0*cos^m`. */
  readonly exponent: number;
  /** Shortest distance from the row to the line, above zero. */
  readonly distance_m: number;
  /** Distance from lamp to lamp. */
  readonly lampPitch_m: number;
}

/**
 * Mean illuminance along a line beside a long row,
 * `E = F*(m+1)/(2*pi) * sqrt(pi)*G(v)/G(v+1/2) * h_lamp^m * h_plane / R^(m+2)`, with `v = (m+2)/2`.
 *
 * @param row flux per metre of row; exponent; height of the line above the lamps' plane; height of the lamps
 *   above the lit plane (equal to it when the two planes are parallel); shortest distance R from row to line.
 * @returns lux; for m = 1 straight opposite the row `F/(2z)`.
 * Holds for a row much longer than R. Source: Poisson summation, derived here; agrees with a sum over lamps.
 * Check: `row-mean-illuminance` in `reference/light.checks.ts`.
 */
export function rowMean_lx(row: {
  readonly exponent: number;
  readonly flux_lm_per_m: number;
  readonly lampHeight_m: number;
  readonly planeHeight_m: number;
  readonly distance_m: number;
}): number {
  const m = row.exponent;
  const v = (m + 2) / 2;
  const spread = ((m + 1) / (2 * Math.PI)) * Math.sqrt(Math.PI) * Math.exp(lnGamma(v) - lnGamma(v + 0.5));
  const direction = (row.lampHeight_m / row.distance_m) ** m * (row.planeHeight_m / row.distance_m);
  return (row.flux_lm_per_m * spread * direction) / row.distance_m;
}

/**
 * All harmonics of the light along a line beside a long row that are worth carrying (above 1e-9 of the mean).
 *
 * @returns relative amplitudes A_1, A_2, ...: `E(x) = mean*(1 + sum A_n cos(2*pi*n*x/pitch))`, x from a lamp.
 * @throws RangeError when distance or pitch is not positive.
 * Source and check: {@link harmonicAmplitude}.
 */
export function rowHarmonics(row: RowGeometry): number[] {
  if (!(row.distance_m > 0 && row.lampPitch_m > 0))
    throw new RangeError('distance and lamp pitch must be positive');
  const amplitudes: number[] = [];
  for (let n = 1; n <= 5000; n++) {
    const amplitude = harmonicAmplitude(row.exponent, (2 * Math.PI * n * row.distance_m) / row.lampPitch_m);
    if (amplitude < 1e-9) break;
    amplitudes.push(amplitude);
  }
  return amplitudes;
}

/**
 * How far the light has risen near the end of a row: `Q(atan(x/R))` with power m + 1; half at the end itself.
 *
 * @param exponent m of the lamps.
 * @param fromEnd_m distance in from the end of the row (half a pitch beyond the last lamp); negative is outside.
 * @param distance_m shortest distance from row to line.
 * @returns share of the light of a long row, 0 to 1. Lamps taken as a continuous line; no reflected light.
 * Source: derived here. Check: `row-end-plane` in `reference/light.checks.ts`.
 */
export function endFade(exponent: number, fromEnd_m: number, distance_m: number): number {
  return shareBelow(Math.atan2(fromEnd_m, distance_m), exponent + 1);
}

/**
 * Spacing at which two lamps light the place midway most evenly, `pitch/distance = sqrt(4/(m+4))` (the second
 * derivative vanishes), for intensity `cos^m`. Papers that give irradiance `cos^m/r^2` instead mean m - 1 here.
 *
 * @param exponent m of the lamps' intensity.
 * @returns pitch over distance. For two lamps only: the root shrinks as lamps are added, so never for a strip.
 * Source: Moreno, Avendano-Alejo, Tzonchev, Appl. Opt. 45, 2265 (2006) (first page and from memory; derived here).
 * Check: `pair-flat-intensity`, `pair-flat-irradiance` in `reference/light.checks.ts`.
 */
export function flattestPairSpacing(exponent: number): number {
  return Math.sqrt(4 / (exponent + 4));
}
