import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowestShelf } from '../../server/papers/sheets/shelf.ts';

/** Every way of giving each of so many things at least one module of so many. */
function ways(things: number, modules: number): number[][] {
  if (things === 0) return [[]];
  return Array.from({ length: modules }, (_, i) => i + 1).flatMap((k) =>
    ways(things - 1, modules - k).map((rest) => [k, ...rest]),
  );
}

const height = fc.oneof(fc.constant(Number.POSITIVE_INFINITY), fc.integer({ min: 1, max: 40 }));

describe('the lowest shelf', () => {
  it('is as low as the lowest of all ways of sharing out its width', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.array(fc.array(height, { minLength: 9, maxLength: 9 }), { minLength: 1, maxLength: 4 }),
        (modules, heights) => {
          const all = ways(heights.length, modules).map((way) =>
            Math.max(...way.map((k, i) => heights[i]![k]!)),
          );
          const least = Math.min(Number.POSITIVE_INFINITY, ...all);
          const shelf = lowestShelf(heights, modules);
          expect(shelf?.height ?? Number.POSITIVE_INFINITY).toBe(least);
          if (!shelf) return;
          expect(shelf.modules.reduce((a, b) => a + b)).toBeLessThanOrEqual(modules);
          expect(Math.max(...shelf.modules.map((k, i) => heights[i]![k]!))).toBe(least);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });
});
