import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestSet, type Good } from '../../src/numeric/best-set.ts';

/** The most that goods in a room are worth, by every choice. */
function byTrying(goods: readonly Good[], room: number): number {
  const [first, ...others] = goods;
  if (!first) return 0;
  let best = 0;
  for (let n = 0; n <= first.count && n * first.size <= room; n++)
    best = Math.max(best, n * first.value + byTrying(others, room - n * first.size));
  return best;
}

const goods = fc.array(
  fc.record({
    size: fc.oneof(fc.constantFrom(0, 3, 3.5), fc.double({ min: 0.5, max: 9, noNaN: true })),
    value: fc.oneof(fc.constantFrom(0, 1, 2), fc.double({ min: 0, max: 9, noNaN: true })),
    count: fc.nat(3),
  }),
  { maxLength: 6 },
);

describe('goods worth most', () => {
  it('are worth what the best of every choice is, and go in', () => {
    fc.assert(
      fc.property(goods, fc.double({ min: 0, max: 20, noNaN: true }), (list, room) => {
        const { counts, value, most } = bestSet(list, room, 1e6);
        expect(value).toBeCloseTo(byTrying(list, room), 9);
        expect(most).toBeGreaterThanOrEqual(value);
        expect(most).toBeLessThanOrEqual(value * (1 + 1e-8));
        const sum = (of: (good: Good) => number) =>
          list.reduce((all, good, i) => all + counts[i]! * of(good), 0);
        expect(sum(({ size }) => size)).toBeLessThanOrEqual(room + 1e-9);
        expect(sum((good) => good.value)).toBeCloseTo(value, 9);
        list.forEach(({ count }, i) => {
          expect(counts[i]!).toBeLessThanOrEqual(count);
        });
      }),
      { seed: 71, numRuns: 500 },
    );
  });

  it('are bounded from above where the search is cut short', () => {
    fc.assert(
      fc.property(goods, fc.double({ min: 0, max: 20, noNaN: true }), fc.nat(4), (list, room, steps) => {
        expect(bestSet(list, room, steps).most).toBeGreaterThanOrEqual(byTrying(list, room) - 1e-9);
      }),
      { seed: 72, numRuns: 500 },
    );
  });
});
