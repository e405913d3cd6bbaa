import { describe, expect, it } from 'vitest';
import { conjugateGradients } from '../../src/numeric/conjugate-gradients.ts';

/**
 * The worked example of the encyclopedias (from memory): A = [4 1; 1 3], b = [1 2], from [2 1]. The residual is [-8 -3];
 * the first step is 73/331: x = [0.2356 0.3384], residual [-0.2810 0.7492]; the second ends at [1/11 7/11].
 */
function solved(change: { tolerance?: number; reduction?: number; mostRoundCount?: number } = {}) {
  const start = Float64Array.from([2, 1]);
  const answer = conjugateGradients({
    apply: ([x, y], into) => into.set([4 * x! + y!, x! + 3 * y!]),
    precondition: () => {},
    rightSide: Float64Array.from([1, 2]),
    ...{ start, tolerance: 1e-12, reduction: 0, mostRoundCount: 9, ...change },
  });
  return { x: [...start], ...answer };
}

describe('conjugate gradients', () => {
  it('solve two equations in two rounds', () => {
    const { x, roundCount } = solved();
    expect(x).toEqual([expect.closeTo(1 / 11, 12), expect.closeTo(7 / 11, 12)]);
    expect(roundCount).toBe(2);
  });

  it('stop after as many rounds as they may take, and say what is left: 0.2810 + 0.7492', () => {
    const { x, roundCount, residual } = solved({ mostRoundCount: 1 });
    expect(x).toEqual([expect.closeTo(0.2356, 4), expect.closeTo(0.3384, 4)]);
    expect(roundCount).toBe(1);
    expect(residual).toBeCloseTo(1.0302, 3);
  });

  it('stop at the tolerance, or at a share of the 8 + 3 they began with', () => {
    expect(solved({ tolerance: 11 })).toMatchObject({ roundCount: 0, residual: 11 });
    expect(solved({ tolerance: 1.1 }).roundCount).toBe(1);
    expect(solved({ reduction: 0.1 }).roundCount).toBe(1);
    expect(solved({ reduction: 0.09 }).roundCount).toBe(2);
  });
});
