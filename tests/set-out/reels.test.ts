import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { Piece } from '../../src/answer/set-out.ts';
import { cutReels, type ReelKind } from '../../src/set-out/reels.ts';
import { everyWay } from '../numeric/ways.ts';
import { cuttingInstance } from './cutting-instances.ts';

/** Pieces in cut units of 50 mm. */
const pieces = (units: readonly number[]): Piece[] =>
  units.map((unitCount, i) => ({
    id: `P${i}`,
    run: `S${i}`,
    unitCount,
    length_mm: unitCount * 50,
    reel: '',
  }));

const whole = (units: number): ReelKind => ({ length_mm: units * 50, price_cents: null, count: null });
const cut = (units: readonly number[], kinds: readonly ReelKind[]) => cutReels(pieces(units), kinds, 20);

interface Best {
  readonly cost: number;
  readonly size: number;
  readonly left: number;
}

const isBetter = (a: Best, b: Best | undefined): boolean =>
  !b || a.cost < b.cost || (a.cost === b.cost && (a.size < b.size || (a.size === b.size && a.left > b.left)));

/** Least cost, then fewest units, then longest offcut over every way of cutting from a list of single reels. */
function bestOf(
  units: readonly number[],
  reels: readonly { size: number; cost: number }[],
): Best | undefined {
  let best: Best | undefined;
  everyWay(
    units,
    reels.map(({ size }) => size),
    (content) => {
      const used = reels.flatMap((reel, r) => {
        const taken = content[r]!.reduce((sum, i) => sum + units[i]!, 0);
        return taken > 0 ? [{ ...reel, left: reel.size - taken }] : [];
      });
      const sum = (of: (reel: (typeof used)[number]) => number) => used.reduce((s, reel) => s + of(reel), 0);
      const way = {
        cost: sum((reel) => reel.cost),
        size: sum((reel) => reel.size),
        left: Math.max(...used.map((reel) => reel.left)),
      };
      if (isBetter(way, best)) best = way;
      return false;
    },
  );
  return best;
}

describe('reels', () => {
  it('give every piece once and never more than they hold', () => {
    const units = fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(units, (list) => {
        const { reels } = cut(list, [whole(100)]);
        expect(reels.flatMap((reel) => reel.pieces).sort()).toEqual(
          pieces(list)
            .map((p) => p.id)
            .sort(),
        );
        for (const reel of reels) {
          const held = reel.pieces.reduce((sum, id) => sum + list[Number(id.slice(1))]! * 50, 0);
          expect(reel.used_mm).toBeCloseTo(held, 9);
          expect(reel.used_mm + reel.left_mm).toBeCloseTo(5000, 9);
          expect(reel.left_mm).toBeGreaterThanOrEqual(0);
        }
      }),
      { seed: 11, numRuns: 40 },
    );
  });

  it('are as few as any way of cutting needs, and one keeps as much as any way leaves', () => {
    const units = fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(units, (list) => {
        const best = bestOf(
          list,
          list.map(() => ({ size: 20, cost: 1 })),
        )!;
        const { reels, isLeast, longestOffcut_mm } = cut(list, [whole(20)]);
        const left_mm = Math.max(...reels.map((reel) => reel.left_mm));
        expect([reels.length, left_mm]).toEqual([best.cost, best.left * 50]);
        expect([isLeast, longestOffcut_mm]).toEqual([true, left_mm]);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it('come from stock first, and from as little of it as will do', () => {
    const units = fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 6 });
    const stock = fc.array(fc.integer({ min: 3, max: 19 }), { maxLength: 3 });
    fc.assert(
      fc.property(units, stock, (list, offcuts) => {
        const best = bestOf(list, [
          ...offcuts.map((size) => ({ size, cost: 0 })),
          ...list.map(() => ({ size: 20, cost: 1 })),
        ])!;
        const kinds = offcuts.map((size) => ({ length_mm: size * 50, price_cents: 0, count: 1 }));
        const { reels, isLeast } = cut(list, [...kinds, { length_mm: 1000, price_cents: 2500, count: null }]);
        const length_mm = reels.reduce((sum, reel) => sum + reel.length_mm, 0);
        expect(reels.filter((reel) => reel.length_mm === 1000)).toHaveLength(best.cost);
        expect(length_mm).toBe(best.size * 50);
        expect(isLeast).toBe(true);
      }),
      { seed: 13, numRuns: 200 },
    );
  });

  it('are the cheapest of several lengths, then the shortest', () => {
    // 60 units in pieces of 10: of reels of 20 at 30 and of 50 at 60, one of each is 90; three short ones are 90, too, and
    // ten units less.
    const short = { length_mm: 1000, price_cents: 30, count: null };
    const long = { length_mm: 2500, price_cents: 60, count: null };
    const lengths = (kinds: ReelKind[]) =>
      cut([10, 10, 10, 10, 10, 10], kinds).reels.map((reel) => reel.length_mm);
    expect(lengths([short, long])).toEqual([1000, 1000, 1000]);
    expect(lengths([{ ...short, price_cents: 31 }, long])).toEqual([1000, 2500]);
    // A price nobody knows is taken for the dearest: one long one and one more.
    expect(lengths([{ ...short, price_cents: null }, long])).toEqual([1000, 2500]);
    // Two prices nobody knows are alike: two reels, of the fewest metres. One of them known is that of the other: two of
    // 1.5 m, not three of 1 m.
    const unknown = { ...short, price_cents: null };
    expect(lengths([unknown, { ...long, price_cents: null }])).toEqual([1000, 2500]);
    expect(lengths([unknown, { ...short, length_mm: 1500, price_cents: 30 }])).toEqual([1500, 1500]);
  });

  it('by hand: longest pieces first, equal pieces in their order, what is left at the end of each', () => {
    // Reels of 20 units; 47 units need three reels, with 13 to spare: 12 + 8 and 12 + 5 + 3 are full, 7 are left for the
    // third, which keeps all 13.
    const { reels, method } = cut([5, 12, 8, 12, 7, 3], [whole(20)]);
    expect(reels).toMatchObject([
      { id: 'R1', length_mm: 1000, pieces: ['P1', 'P2'], used_mm: 1000, left_mm: 0 },
      { id: 'R2', length_mm: 1000, pieces: ['P3', 'P0', 'P5'], used_mm: 1000, left_mm: 0 },
      { id: 'R3', length_mm: 1000, pieces: ['P4'], used_mm: 350, left_mm: 650 },
    ]);
    expect(method).toBe(
      'No fewer reels can serve these pieces; no way of cutting them leaves a longer offcut on one reel.',
    );
  });

  it('are fewer than by first-fit-decreasing where that goes wrong', () => {
    // Johnson's example, in whole units: six each of 102, 54 and 52 and twelve of 46 on reels of 202. Nine are enough:
    // 102 + 52 + 46 six times, 54 + 54 + 46 + 46 three times. First-fit-decreasing begins with 102 + 54 and takes eleven.
    const list = [102, 54, 52, 46, 46].flatMap((size) => Array<number>(6).fill(size));
    const { reels, isLeast } = cut(list, [whole(202)]);
    expect(reels).toHaveLength(9);
    expect(isLeast).toBe(true);
  });

  it('are proved the least in 40 random cuttings of up to 600 pieces, a third of them from five lengths of reel', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { pieces: list, kinds } = cuttingInstance(seed);
      const { reels, isLeast } = cutReels(list, kinds, 20);
      expect([seed, isLeast]).toEqual([seed, true]);
      const units = list.reduce((sum, { unitCount }) => sum + unitCount, 0);
      // No cutting takes fewer than all units over a reel.
      if (kinds.length === 1) expect(reels.length).toBeGreaterThanOrEqual(Math.ceil(units / 100));
      expect(reels.flatMap((reel) => reel.pieces)).toHaveLength(list.length);
    }
  });

  it.each([1, 2, 5, 10])(
    'are nine for every eleven of first-fit-decreasing in its worst family, %d times',
    (k) => {
      // Johnson: 6k pieces each of 101, 52 and 51 and 12k of 48 from reels of 200. 101 + 51 + 48 and 52 + 52 + 48 + 48 are full.
      const list = [101, 52, 51, 48, 48].flatMap((size) => Array<number>(6 * k).fill(size));
      const { reels, isLeast } = cut(list, [whole(200)]);
      expect([reels.length, isLeast]).toEqual([9 * k, true]);
    },
  );

  it('of one length come with the longest pieces first', () => {
    const units = fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 4, maxLength: 14 });
    fc.assert(
      fc.property(units, (list) => {
        const { reels } = cut(list, [whole(20)]);
        const on = reels.map((reel) => reel.pieces.map((id) => list[Number(id.slice(1))]!));
        for (const [i, lengths] of on.entries()) {
          expect(lengths).toEqual(lengths.toSorted((a, b) => b - a));
          // Of two reels the one with the longer piece, or one piece more of that length, where they differ first.
          const next = on[i + 1] ?? [];
          const at = next.findIndex((length, k) => length !== lengths[k]);
          if (at >= 0) expect(lengths[at] ?? 0).toBeGreaterThan(next[at]!);
        }
      }),
      { seed: 14, numRuns: 200 },
    );
  });

  it('do not depend on the order of the pieces but for their names', () => {
    const list = [31, 44, 17, 52, 23, 38, 29, 61, 12, 47, 35, 26];
    const lengths = (units: readonly number[]) =>
      cut(units, [whole(100)]).reels.map((reel) => reel.pieces.map((id) => units[Number(id.slice(1))]));
    expect(lengths(list.toReversed())).toEqual(lengths(list));
    expect(lengths(list.toSorted())).toEqual(lengths(list));
  });

  it('say what is not shown to be the least or the longest', () => {
    // 200 unlike pieces leave questions open that the trouble allowed does not answer; what is said is a bound all the same.
    const list = Array.from({ length: 200 }, (_, i) => 20 + ((i * 37) % 61));
    const { reels, method, longestOffcut_mm } = cut(list, [whole(120)]);
    const left_mm = Math.max(...reels.map((reel) => reel.left_mm));
    const open_mm = longestOffcut_mm - left_mm;
    if (open_mm > 0) expect(method).toContain(`was not ruled out, by up to ${open_mm} mm.`);
    else expect(method).toContain('no way of cutting them leaves a longer offcut');
    expect(reels.length * 120).toBeGreaterThanOrEqual(list.reduce((sum, n) => sum + n, 0));
  });

  it('come kind by kind as listed, those with the longest pieces first', () => {
    // Pieces of 9, 8, 7 and 6 units: offcuts of 8 and 6, and reels of 9 for the others.
    const kinds = [
      { length_mm: 300, price_cents: 0, count: 1 },
      { length_mm: 450, price_cents: 100, count: null },
      { length_mm: 400, price_cents: 0, count: 1 },
    ];
    const { reels, method } = cut([6, 7, 8, 9], kinds);
    expect(reels.map(({ id, length_mm, pieces: on, fromStock }) => [id, length_mm, on, fromStock])).toEqual([
      ['R1', 300, ['P0'], true],
      ['R2', 450, ['P3'], false],
      ['R3', 450, ['P1'], false],
      ['R4', 400, ['P2'], true],
    ]);
    expect(method).toBe(
      'No choice of reels that serves these pieces is cheaper, nor as cheap with fewer metres; no way of cutting them leaves a longer offcut on one reel.',
    );
  });

  it('say that cheaper ones were not ruled out where there are too many choices', () => {
    // 230 pieces need as many reels of either kind: some 26,000 choices have fewer.
    const kinds = [92, 95].map((units, i) => ({ length_mm: units * 50, price_cents: 101 + i, count: null }));
    const { isLeast, method } = cut(Array<number>(230).fill(90), kinds);
    expect(isLeast).toBe(false);
    expect(method).toMatch(/^Not shown to be the least: cheaper ones were not all ruled out; /);
  });

  it('leaves what is no whole unit on the reel', () => {
    // 1,030 mm are 20 units of 50 mm and 30 mm of waste; the two pieces take 18 of them.
    expect(cutReels(pieces([11, 7]), [{ ...whole(20), length_mm: 1030 }], 20).reels).toMatchObject([
      { used_mm: 900, left_mm: 130 },
    ]);
  });

  it('are none for no pieces', () => {
    expect(cut([], [whole(20)])).toEqual({
      reels: [],
      method: 'Nothing to cut.',
      isLeast: true,
      longestOffcut_mm: 0,
    });
  });
});
