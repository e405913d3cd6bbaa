/**
 * Modified Bessel function of the second kind, `K_v(x) = integral over t >= 0 of exp(-x cosh t) cosh(v t)`.
 *
 * The integrand is even and dies doubly exponentially, so the plain trapezoidal rule converges to round-off; its
 * step follows the width of the integrand, which shrinks as `1/sqrt(x)`.
 *
 * @param order v, any real number (K is even in v); meant for |v| below about 50.
 * @param x positive argument, without unit.
 * @returns K_v(x), relative accuracy about 1e-12; zero where it underflows.
 * @throws RangeError when x is not positive.
 * Source: NIST Digital Library of Mathematical Functions, equation 10.32.9 (from memory).
 * Check: `tests/numeric/special-functions.test.ts` (closed forms of half-integer order).
 */
export function besselK(order: number, x: number): number {
  if (!(x > 0)) throw new RangeError(`besselK needs a positive argument, not ${x}`);
  const step = 1 / 16 / Math.max(1, Math.sqrt(x / 50));
  let sum = 0.5 * Math.exp(-x);
  for (let t = step; ; t += step) {
    const fall = -x * Math.cosh(t);
    const term = 0.5 * (Math.exp(fall + order * t) + Math.exp(fall - order * t));
    sum += term;
    const past = x * Math.sinh(t) > Math.abs(order);
    if (past && term <= 1e-17 * sum) return sum * step;
  }
}
