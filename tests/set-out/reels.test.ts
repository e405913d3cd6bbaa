import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Piece } from '../../src/answer/sizing.ts';
import { cutFromReels } from '../../src/set-out/reels.ts';

const pieces = (units: readonly number[]): Piece[] =>
  units.map((unitCount, i) => ({
    id: `P${i}`,
    run: `S${i}`,
    unitCount,
    length_mm: unitCount * 50,
    reel: '',
  }));

describe('reels', () => {
  it('give every piece once and never more than they hold', () => {
    const units = fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 120 });
    fc.assert(
      fc.property(units, (list) => {
        const reels = cutFromReels(pieces(list), 5000, 20);
        expect(reels.flatMap((reel) => reel.pieces).sort()).toEqual(
          pieces(list)
            .map((p) => p.id)
            .sort(),
        );
        for (const reel of reels) expect(reel.used_mm).toBeLessThanOrEqual(5000 + 1e-9);
        const total = list.reduce((sum, n) => sum + n, 0);
        expect(reels.reduce((sum, reel) => sum + reel.used_mm, 0)).toBeCloseTo(total * 50, 6);
      }),
      { seed: 11 },
    );
  });

  it('keeps to the bound of first-fit-decreasing where the optimum is known', () => {
    // Three pieces of 60 units and three of 40 fill three reels of 100 exactly.
    expect(cutFromReels(pieces([40, 60, 40, 60, 60, 40]), 5000, 20)).toHaveLength(3);
  });
});
