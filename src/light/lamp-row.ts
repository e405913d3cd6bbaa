import { besselK } from '../numeric/bessel-k.ts';
import { lnGamma } from '../numeric/gamma.ts';
import { incompleteBeta } from '../numeric/incomplete-beta.ts';

/**
 * Exponent of `I = I0*cos^m(angle)` whose intensity halves at the given angle: `m = -ln 2 / ln cos(half angle)`.
 *
 * @param halfAngle_deg angle from the axis at which intensity is half, above 0 and below 90; half of the full
 *   viewing angle a data sheet prints.
 * @returns m, without unit; 1 is a Lambertian lamp (120 degrees full angle).
 * @throws RangeError outside that range.
 * Source: Moreno, Avendano-Alejo, Tzonchev, Appl. Opt. 45, 2265 (2006) (formula from memory).
 * Check: `lamp-exponent-60`, `lamp-exponent-30` in `reference/light.checks.ts`.
 */
export function lampExponent(halfAngle_deg: number): number {
  if (!(halfAngle_deg > 0 && halfAngle_deg < 90))
    throw new RangeError('half angle must lie between 0 and 90 degrees');
  return -Math.LN2 / Math.log(Math.cos((halfAngle_deg * Math.PI) / 180));
}

/**
 * Share of `cos^power` that lies below an angle: `Q = integral(-90 deg .. angle) / integral(-90 .. 90 deg)`.
 * With power m this is the share of a long row's flux sent below that angle in the section; with m + 1 it is
 * how far a line beside the end of a row has reached its full light.
 *
 * @param angle_rad angle from the axis; beyond a right angle it counts as a right angle.
 * @param power exponent, not negative.
 * @returns 0 to 1.
 * Source: closed form by the incomplete beta function, derived here.
 * Check: `tests/light/lamp-row.test.ts` against the sine for power 1 and against quadrature.
 */
export function shareBelow(angle_rad: number, power: number): number {
  if (angle_rad >= Math.PI / 2) return 1;
  if (angle_rad <= -Math.PI / 2) return 0;
  const sine = Math.sin(angle_rad);
  if (power === 1) return 0.5 * (1 + sine);
  return 0.5 * (1 + Math.sign(sine) * incompleteBeta(sine * sine, 0.5, (power + 1) / 2));
}

/**
 * Amplitude of one harmonic of the light along a line beside a long row, relative to its mean:
 * `A = 4*(q/2)^v*K_v(q)/G(v)`, `v = (m+2)/2`, `q = 2*pi*n*R/pitch`; for m = 1 `A = 2*(1+q)*exp(-q)`.
 *
 * @param exponent m of the lamps.
 * @param q wave number of the harmonic times the distance to the row, not negative.
 * @returns 0 to 2.
 * Source: Poisson summation, derived here; K is the modified Bessel function (DLMF 10.32).
 * Check: `row-ripple-*` in `reference/light.checks.ts`; `tests/light/lamp-row.test.ts` against a sum over lamps.
 */
export function harmonicAmplitude(exponent: number, q: number): number {
  // At the row itself the amplitude is 2 less some q^2, and the two factors below leave the range of numbers.
  if (q < 1e-6) return 2;
  if (exponent === 1) return 2 * (1 + q) * Math.exp(-q);
  const v = (exponent + 2) / 2;
  return 4 * (q / 2) ** v * besselK(v, q) * Math.exp(-lnGamma(v));
}

/** Light relative to its mean, a share of the pitch away from a lamp: `1 + sum A_n cos(2*pi*n*x/pitch)`. */
export function relativeLight(amplitudes: readonly number[], pitchShare: number): number {
  return amplitudes.reduce((sum, a, i) => sum + a * Math.cos(2 * Math.PI * (i + 1) * pitchShare), 1);
}

/**
 * Michelson contrast of the light along the row, `(max - min)/(max + min)`: brightest beside a lamp, darkest
 * midway, because every lamp's light falls steadily on both sides.
 *
 * @param amplitudes relative harmonics, as {@link rowHarmonics} gives.
 * @returns 0 to 1.
 * Check: `row-ripple-*` in `reference/light.checks.ts`.
 */
export function michelsonContrast(amplitudes: readonly number[]): number {
  const most = relativeLight(amplitudes, 0);
  const least = relativeLight(amplitudes, 0.5);
  return (most - least) / (most + least);
}
