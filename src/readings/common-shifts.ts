/** Turns differences in units of their own spread into independent ones of unit spread. */
export type Whitening = (differences: readonly number[]) => number[];

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, i) => sum + x * b[i]!, 0);

/**
 * Makes differences independent that share common shifts: with covariance `I + sum(g*g')` it returns
 * `(I + g*g')^(-1/2) * x` shift by shift, so that the sum of squares is `x' * C^-1 * x`.
 *
 * @param shifts one list for each common shift, along the readings, each reading in units of its own spread
 * The sum of squares is exact for any number of shifts, because each factor is applied to the shifts after it too.
 * Source: generalised least squares (Aitken, On least squares and linear combination of observations, 1935);
 * rank-one square root by hand. Check: `tests/readings/common-shifts.test.ts`, against the covariance inverted.
 */
export function whitening(shifts: readonly (readonly number[])[]): Whitening {
  const steps: Whitening[] = [];
  const through: Whitening = (x) => steps.reduce<number[]>((y, step) => step(y), [...x]);
  for (const shift of shifts) {
    const g = through(shift);
    const size = dot(g, g);
    if (size === 0) continue;
    const share = (1 - 1 / Math.sqrt(1 + size)) / size;
    steps.push((x) => {
      const along = share * dot(g, x);
      return x.map((xi, i) => xi - along * g[i]!);
    });
  }
  return through;
}
