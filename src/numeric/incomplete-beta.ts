import { lnGamma } from './gamma.ts';

/** The continued fraction of the incomplete beta function, evaluated by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || tiny);
    c = 1 + even / c || tiny;
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || tiny);
    c = 1 + odd / c || tiny;
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return value;
}

/**
 * Regularised incomplete beta function, `I_x(a, b) = B(x; a, b) / B(a, b)`.
 *
 * @param x 0 to 1.
 * @param a positive.
 * @param b positive.
 * @returns 0 to 1, to about 1e-12.
 * @throws RangeError outside those ranges.
 * Source: NIST Digital Library of Mathematical Functions, equations 8.17.4 and 8.17.22 (from memory).
 * Check: `tests/numeric/special-functions.test.ts`.
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (!(x >= 0 && x <= 1 && a > 0 && b > 0))
    throw new RangeError('incompleteBeta: 0 <= x <= 1, a > 0, b > 0');
  if (x === 0 || x === 1) return x;
  const lnFront = lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log(1 - x);
  const front = Math.exp(lnFront);
  if (x < (a + 1) / (a + b + 2)) return (front * betaFraction(x, a, b)) / a;
  return 1 - (front * betaFraction(1 - x, b, a)) / b;
}
