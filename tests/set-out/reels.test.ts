import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Piece } from '../../src/answer/set-out.ts';
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

  it('by hand: longest first, each from the first reel with room, what is left at the end of each', () => {
    // Reels of 20 units of 50 mm; pieces of 5, 12, 8, 12, 7, 3 units, P0 to P5. Longest first: 12 and 12 begin two
    // reels with 8 left on each; 8 fills the first; 7 goes on the second, 1 left; 5 begin a third, and 3 go there too.
    const reels = cutFromReels(pieces([5, 12, 8, 12, 7, 3]), 1000, 20);
    expect(reels).toEqual([
      { id: 'R1', length_mm: 1000, pieces: ['P1', 'P2'], used_mm: 1000, left_mm: 0 },
      { id: 'R2', length_mm: 1000, pieces: ['P3', 'P4'], used_mm: 950, left_mm: 50 },
      { id: 'R3', length_mm: 1000, pieces: ['P0', 'P5'], used_mm: 400, left_mm: 600 },
    ]);
  });

  it('leaves what is no whole unit on the reel', () => {
    // 1,030 mm are 20 units of 50 mm and 30 mm of waste; the two pieces take 18 of them.
    expect(cutFromReels(pieces([11, 7]), 1030, 20)).toMatchObject([{ used_mm: 900, left_mm: 130 }]);
  });

  it('keeps to the bound of first-fit-decreasing where the optimum is known', () => {
    // Three pieces of 60 units and three of 40 fill three reels of 100 exactly.
    expect(cutFromReels(pieces([40, 60, 40, 60, 60, 40]), 5000, 20)).toHaveLength(3);
  });
});
