import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastBinCount, leastDriverCount } from '../../src/drivers/lower-bound.ts';

describe('lower bound', () => {
  it.each([
    [[6, 6, 6], 10, 3],
    [[5, 5, 5, 5], 10, 2],
    [[7, 7, 4, 4], 10, 3],
    // Three of 6 and three of 4 pair off; a fourth 4 needs a bin of its own.
    [[6, 6, 6, 4, 4, 4], 10, 3],
    [[6, 6, 6, 4, 4, 4, 4], 10, 4],
    // 8 stands alone beside loads of 3 or more; 7 takes one 3; of the other 3s three go together: 8 | 7 3 | 3 3 3 | 3.
    [[8, 7, 3, 3, 3, 3, 3], 10, 4],
    // Nothing is left beside 8 for 3s, though 2 W are free; by the sum alone 27 would be three.
    [[8, 8, 8, 3], 10, 4],
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
    // By watts alone: 25 W on drivers of 8 W.
    expect(leastDriverCount(loads, { usable_W: 8, output_W: 8, outputCount: 8 })).toBe(5);
    // 5 W twice in one zone need two outputs of 6 W; three zones of them six outputs, two drivers of four.
    const twice = ['a', 'a', 'b', 'b', null, null].map((zone) => ({ watts: 5, zone }));
    expect(leastDriverCount(twice, { usable_W: 100, output_W: 6, outputCount: 4 })).toBe(2);
  });
});
