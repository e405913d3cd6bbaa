/**
 * Natural logarithm of the gamma function, `ln G(x)`, by Stirling's series after raising x above ten.
 *
 * @param x positive, without unit.
 * @returns ln G(x), to about 1e-12.
 * @throws RangeError when x is not positive.
 * Source: NIST Digital Library of Mathematical Functions, equation 5.11.1 (from memory).
 * Check: `tests/numeric/special-functions.test.ts`.
 */
export function lnGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`lnGamma needs a positive number, not ${x}`);
  let raised = x;
  let lowered = 0;
  while (raised < 10) {
    lowered += Math.log(raised);
    raised += 1;
  }
  const s = 1 / (raised * raised);
  const series = (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s / 1680))) / raised;
  return (raised - 0.5) * Math.log(raised) - raised + 0.5 * Math.log(2 * Math.PI) + series - lowered;
}
