import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { whitening } from '../../src/readings/common-shifts.ts';

/** x' C^-1 x by elimination with C = I + sum g g'. */
function quadratic(x: readonly number[], shifts: readonly (readonly number[])[]): number {
  const n = x.length;
  const rows = x.map((xi, i) => [
    ...x.map((_, j) => (i === j ? 1 : 0) + shifts.reduce((sum, g) => sum + g[i]! * g[j]!, 0)),
    xi,
  ]);
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const f = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= n; j++) rows[i]![j]! -= f * rows[k]![j]!;
    }
  return x.reduce((sum, xi, i) => sum + (xi * rows[i]![n]!) / rows[i]![i]!, 0);
}

const vector = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 5, maxLength: 5 });

describe('common shifts', () => {
  it('give the sum of squares of the inverted covariance', () => {
    fc.assert(
      fc.property(vector, fc.array(vector, { maxLength: 4 }), (x, shifts) => {
        const sum = whitening(shifts)(x).reduce((s, xi) => s + xi * xi, 0);
        const expected = quadratic(x, shifts);
        expect(Math.abs(sum - expected)).toBeLessThan(1e-7 * (1 + Math.abs(expected)));
      }),
      { seed: 51 },
    );
  });

  it('change nothing when there are none', () => {
    expect(whitening([])([1, 2])).toEqual([1, 2]);
    expect(whitening([[0, 0]])([1, 2])).toEqual([1, 2]);
  });
});
