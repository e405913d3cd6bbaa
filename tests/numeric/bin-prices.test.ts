import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binPrices, type PriceQuestion } from '../../src/numeric/bin-prices.ts';
import { piecesOf } from '../../src/numeric/bins.ts';
import { anyWay } from './ways.ts';

const asked = (question: Partial<PriceQuestion> & Pick<PriceQuestion, 'pieces' | 'bins'>): PriceQuestion => ({
  leftOut: question.pieces.sizes.map(() => 1),
  enough: Number.POSITIVE_INFINITY,
  work: 1e8,
  ...question,
});

/** Most that pieces in one bin can be worth, by trying every number of each. */
function mostWorth(
  sizes: readonly number[],
  counts: readonly number[],
  worths: readonly number[],
  room: number,
): number {
  if (sizes.length === 0) return 0;
  const tries = Array.from({ length: counts[0]! + 1 }, (_, n) => n).filter((n) => n * sizes[0]! <= room);
  const rest = (n: number) =>
    mostWorth(sizes.slice(1), counts.slice(1), worths.slice(1), room - n * sizes[0]!);
  return Math.max(...tries.map((n) => n * worths[0]! + rest(n)));
}

describe('prices of pieces', () => {
  it('prove 453 rolls where the relaxed problem uses 452.25', () => {
    // Chvatal, Linear Programming, 1983, chapter 13. Half a roll for a 45 and a 36, a quarter for a 31, nothing for a 14
    // are worth one roll at most in any roll, and 97/2 + 610/2 + 395/4 = 452.25 all together.
    const pieces = { sizes: [45, 36, 31, 14], counts: [97, 610, 395, 211] };
    const { bound, worths, unit, fills } = binPrices(
      asked({ pieces, bins: [{ size: 100, cost: 1, count: null }] }),
    );
    expect(bound).toBe(453);
    expect(worths.map((worth) => worth / unit)).toEqual([0.5, 0.5, 0.25, 0]);
    expect(fills.reduce((sum, { times }) => sum + times, 0)).toBeCloseTo(452.25, 9);
  });

  it('are a proof that holds by itself, and refute no bins that hold everything', () => {
    const bins = fc.array(fc.integer({ min: 4, max: 14 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 10 }), { minLength: 1, maxLength: 7 }),
        bins,
        (all, sizes) => {
          const pieces = piecesOf(all);
          const limited = sizes.map((size) => ({ size, cost: 0, count: 1 }));
          const { bound, worths } = binPrices(asked({ pieces, bins: limited }));
          const worth = pieces.counts.reduce((sum, count, i) => sum + count * worths[i]!, 0);
          const held = sizes.reduce(
            (sum, size) => sum + mostWorth(pieces.sizes, pieces.counts, worths, size),
            0,
          );
          expect(bound > 0).toBe(worth > held);
          if (bound > 0) expect(anyWay(all, sizes)).toBe(false);
        },
      ),
      { seed: 6, numRuns: 300 },
    );
  });

  it('of bins at a price never come to more than the cheapest way', () => {
    // By hand: three of 6 and three of 4 in bins of 10 at 3 or of 20 at 5: one of each is 8, and 30 is just their room.
    const bins = [
      { size: 10, cost: 3, count: null },
      { size: 20, cost: 5, count: null },
    ];
    const pieces = piecesOf([6, 6, 6, 4, 4, 4]);
    expect(binPrices(asked({ pieces, bins, leftOut: [9, 9] })).bound).toBe(8);
    // One such large bin only: 5 and 3.
    const one = [bins[0]!, { ...bins[1]!, count: 1 }];
    expect(binPrices(asked({ pieces, bins: one, leftOut: [9, 9] })).bound).toBe(8);
    // None: three bins.
    expect(binPrices(asked({ pieces, bins: [bins[0]!], leftOut: [9, 9] })).bound).toBe(9);
  });

  it('never make a bin of which there are as many as wanted worth more than it costs, however early they stop', () => {
    const sizes = fc.array(fc.integer({ min: 1, max: 10 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(
        sizes,
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 1, max: 3000 }),
        (all, cost, work) => {
          const pieces = piecesOf(all);
          const bins = [{ size: 13, cost, count: null }];
          const leftOut = pieces.sizes.map(() => 3);
          const { bound, worths, unit } = binPrices(asked({ pieces, bins, leftOut, work }));
          expect(mostWorth(pieces.sizes, pieces.counts, worths, 13)).toBeLessThanOrEqual(unit * cost);
          const worth = pieces.counts.reduce((sum, count, i) => sum + count * worths[i]!, 0);
          expect([bound - 1 < worth / unit, worth / unit <= bound]).toEqual([true, true]);
        },
      ),
      { seed: 8, numRuns: 300 },
    );
  });

  it('say less, and still the truth, when they may not work long', () => {
    const pieces = piecesOf([60, 60, 60, 40, 40, 40, 40]);
    for (const work of [1, 50, 500, 5000]) {
      const { bound } = binPrices(asked({ pieces, bins: [{ size: 100, cost: 1, count: null }], work }));
      expect(bound).toBeLessThanOrEqual(5);
    }
    expect(binPrices(asked({ pieces, bins: [{ size: 100, cost: 1, count: null }] })).bound).toBe(4);
  });
});
