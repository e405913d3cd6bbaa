import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastBinCount, leastDriverCount } from '../../src/drivers/lower-bound.ts';

describe('lower bound', () => {
  it.each([
    [[6, 6, 6], 10, 3],
    [[5, 5, 5, 5], 10, 2],
    [[7, 7, 4, 4], 10, 3],
    [[0.1, 0.2, 0.3, 0.4], 1, 1],
    [[0], 10, 1],
    [[], 10, 0],
  ])('of %j in bins of %d is %d', (watts, size, least) => {
    expect(leastBinCount(watts, size)).toBe(least);
  });

  it('never exceeds a packing that exists', () => {
    const packed = fc.array(
      fc
        .array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 5 })
        .filter((bin) => bin.reduce((a, b) => a + b, 0) <= 100),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(packed, (bins) => {
        expect(leastBinCount(bins.flat(), 100)).toBeLessThanOrEqual(bins.length);
      }),
      { seed: 43 },
    );
  });

  it('counts outputs zone by zone', () => {
    const loads = ['a', 'b', 'c', 'd', null].map((zone) => ({ watts: 5, zone }));
    expect(leastDriverCount(loads, { usable_W: 100, output_W: 100, outputCount: 2 })).toBe(3);
  });
});
