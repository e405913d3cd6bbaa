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

/** Field of the full formula, which may be longer one way than the other. */
export interface FieldOfView {
  readonly luminance_cd_per_m2: number;
  readonly width_deg: number;
  readonly height_deg: number;
}

/**
 * Diameter of the pupil, `d = 5 - 3*tanh(0.4*ln(L*X0*Y0/40^2))`.
 *
 * @returns millimetres, 2 to 8.
 * Source: Barten, Contrast Sensitivity of the Human Eye (1999) (secondary copy). Check: `barten-pupil`.
 */
export function pupilDiameter_mm(field: FieldOfView): number {
  const lit = (field.luminance_cd_per_m2 * field.width_deg * field.height_deg) / 1600;
  return 5 - 3 * Math.tanh(0.4 * Math.log(lit));
}

/**
 * Contrast sensitivity by Barten's full formula: optics, photon noise, neural noise and lateral inhibition,
 * `S = (M/k)/sqrt((2/T)*a_x*a_y*(1/(eta*p*E) + F0/(1-exp(-(u/u0)^2))))`, `a = sqrt(1/X0^2 + 1/12^2 + u^2/15^2)`.
 * Constants: k 3, T 0.1 s, eta 0.03, p 1.2274e6, F0 3e-8, u0 7, sigma0 0.5 minutes, 0.08 minutes per mm of pupil.
 *
 * @param frequency_per_deg cycles per degree, above zero.
 * @param field mean luminance and the two sides of the field.
 * @param pupil_mm pupil diameter; from the field unless measured.
 * @returns S, one over the Michelson contrast seen half the time.
 * Source: Barten, Contrast Sensitivity of the Human Eye (1999) (secondary copy). Check: `barten-full`.
 */
export function fullContrastSensitivity(
  frequency_per_deg: number,
  field: FieldOfView,
  pupil_mm = pupilDiameter_mm(field),
): number {
  const u = frequency_per_deg;
  const sigma_deg = Math.hypot(0.5 / 60, (0.08 * pupil_mm) / 60);
  const optics = Math.exp(-2 * Math.PI ** 2 * sigma_deg ** 2 * u ** 2);
  const stilesCrawford = 1 - (pupil_mm / 9.7) ** 2 + (pupil_mm / 12.4) ** 4;
  const retinal_td = ((Math.PI * pupil_mm ** 2) / 4) * field.luminance_cd_per_m2 * stilesCrawford;
  const summed = (side_deg: number): number => Math.sqrt(1 / side_deg ** 2 + 1 / 144 + (u / 15) ** 2);
  const noise = 1 / (0.03 * 1.2274e6 * retinal_td) + 3e-8 / (1 - Math.exp(-((u / 7) ** 2)));
  return optics / 3 / Math.sqrt((2 / 0.1) * summed(field.width_deg) * summed(field.height_deg) * noise);
}
