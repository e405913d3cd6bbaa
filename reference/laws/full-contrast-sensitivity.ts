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
