/** What the eye is adapted to while it looks for a pattern. */
export interface Viewing {
  /** Mean luminance of what is looked at, above zero. */
  readonly luminance_cd_per_m2: number;
  /** Side of the square field the pattern fills, in degrees. */
  readonly field_deg: number;
}

/**
 * Spatial frequency of a pattern as the eye meets it: `u = 1/(2*atan(pitch/(2*distance)))`, in degrees.
 *
 * @param view pitch of the pattern and distance to it, both positive, the pattern seen square on.
 * @returns cycles per degree.
 * @throws RangeError when a length is not positive.
 * Source: geometry. Check: `cycles-per-degree-*` in `reference/light.checks.ts`.
 */
export function cyclesPerDegree(view: { readonly pitch_m: number; readonly distance_m: number }): number {
  if (!(view.pitch_m > 0 && view.distance_m > 0)) throw new RangeError('pitch and distance must be positive');
  return Math.PI / 180 / (2 * Math.atan(view.pitch_m / (2 * view.distance_m)));
}

/**
 * Contrast sensitivity of a young, practised eye by Barten's short formula,
 * `S = 5200*exp(-0.0016*u^2*(1+100/L)^0.08) / sqrt((1 + 144/X0^2 + 0.64*u^2)*(63/L^0.83 + 1/(1-exp(-0.02*u^2))))`.
 *
 * @param frequency_per_deg u, cycles per degree, above zero.
 * @param viewing mean luminance L and side X0 of the field; 10 degrees is the strict choice for a slot.
 * @returns S, one over the Michelson contrast seen half the time.
 * Holds for sine patterns on a plain field. Falls to nothing at very low frequency, where real eyes level off:
 * see {@link sensitivityWithFloor}.
 * Source: Barten, Proc. SPIE 5294, 231 (2003), short form (secondary copy).
 * Check: `barten-short-*` in `reference/light.checks.ts`.
 */
export function contrastSensitivity(frequency_per_deg: number, viewing: Viewing): number {
  const { luminance_cd_per_m2: L, field_deg: X0 } = viewing;
  const u2 = frequency_per_deg * frequency_per_deg;
  const optics = 5200 * Math.exp(-0.0016 * u2 * (1 + 100 / L) ** 0.08);
  const summation = 1 + 144 / (X0 * X0) + 0.64 * u2;
  const noise = 63 / L ** 0.83 + 1 / (1 - Math.exp(-0.02 * u2));
  return optics / Math.sqrt(summation * noise);
}

/**
 * Highest contrast sensitivity over all frequencies by {@link contrastSensitivity}, and where it lies.
 *
 * Found by halving a bracket on log frequency by the golden section, between 0.1 and 60 cycles per degree.
 * Check: `barten-short-peak` in `reference/light.checks.ts`.
 */
export function peakSensitivity(viewing: Viewing): {
  readonly sensitivity: number;
  readonly frequency_per_deg: number;
} {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = Math.log(0.1);
  let high = Math.log(60);
  for (let i = 0; i < 40; i++) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    const rising = contrastSensitivity(Math.exp(a), viewing) < contrastSensitivity(Math.exp(b), viewing);
    if (rising) low = a;
    else high = b;
  }
  const frequency_per_deg = Math.exp((low + high) / 2);
  return { sensitivity: contrastSensitivity(frequency_per_deg, viewing), frequency_per_deg };
}

/** How far below its peak sensitivity levels off towards very slow patterns: about 1.5 log units. */
const floorBelowPeak = 32;

/**
 * Contrast sensitivity that levels off at 1/32 of its peak towards very slow patterns instead of vanishing.
 *
 * Source: floor about 1.5 log units below the peak (secondary copy); the rest as {@link contrastSensitivity}.
 */
export function sensitivityWithFloor(frequency_per_deg: number, viewing: Viewing): number {
  const own = contrastSensitivity(frequency_per_deg, viewing);
  const peak = peakSensitivity(viewing);
  if (frequency_per_deg >= peak.frequency_per_deg) return own;
  return Math.max(own, peak.sensitivity / floorBelowPeak);
}
