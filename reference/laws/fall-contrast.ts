/**
 * Michelson contrast of a fall: `F/(2 - F)`.
 *
 * @param fall share of the brightest light missing at the darkest place, 0 to 1.
 * Check: `fall-michelson-*` in `reference/light.checks.ts`.
 */
export function fallContrast(fall: number): number {
  if (!(fall >= 0 && fall <= 1)) throw new RangeError(`a fall is a share from 0 to 1, not ${fall}`);
  return fall / (2 - fall);
}
