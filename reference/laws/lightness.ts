/**
 * Reflectance of a matt face from a colour reading, `Y = ((L* + 16)/116)^3`, or `27*L/24389` for L* up to 8.
 *
 * @param lightness CIE L*, 0 to 100.
 * @throws RangeError outside that range.
 * Source: CIE 015:2018, lightness turned round (from memory). Check: `lightness-*` in `reference/light.checks.ts`.
 */
export function reflectanceFromLightness(lightness: number): number {
  if (!(lightness >= 0 && lightness <= 100))
    throw new RangeError(`lightness must lie between 0 and 100, not ${lightness}`);
  return lightness > 8 ? ((lightness + 16) / 116) ** 3 : (lightness * 27) / 24389;
}
