import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { cutBars } from '../../src/set-out/bars.ts';

const slots = (...lengths_mm: number[]) =>
  lengths_mm.map((length_mm, i) => ({
    ...{ id: `S${i + 1}`, number: i + 1, panel: null, length_mm, width_mm: 20 },
    ...{ x0_mm: 0, y0_mm: 0, x1_mm: 0, y1_mm: length_mm },
  }));

const cut = (bar_mm: number, ...lengths_mm: number[]) =>
  cutBars(slots(...lengths_mm), { item: 'profile', name: 'U', bar_mm });

const lengths = ({ bars }: ReturnType<typeof cut>): number[][] =>
  bars.map(({ pieces }) => pieces.map(({ length_mm }) => length_mm));

/** The fewest bars by trying every way: each piece into each bar begun, or a new one. */
function fewest(pieces_mm: readonly number[], bar_mm: number, kerf_mm: number): number {
  const place = (k: number, rooms: readonly number[]): number => {
    if (k === pieces_mm.length) return rooms.length;
    const need = pieces_mm[k]! + kerf_mm;
    const ways = rooms.flatMap((room, i) => (room >= need ? [place(k + 1, rooms.with(i, room - need))] : []));
    return Math.min(...ways, place(k + 1, [...rooms, bar_mm + kerf_mm - need]));
  };
  return place(0, []);
}

describe('bars', () => {
  it('take as many pieces as fit with a saw cut between them', () => {
    // 998 + 4 + 998 is 2,000; two of 1,000 leave no room for a cut between them.
    expect(lengths(cut(2000, 998, 998))).toEqual([[998, 998]]);
    expect(lengths(cut(2000, 1000, 1000))).toEqual([[1000], [1000]]);
    // A piece as long as the bar needs no cut.
    expect(cut(2000, 2000)).toMatchObject({ bars: [{ left_mm: 0 }], jointCount: 0 });
    // 2,000 less 700 and 600 and their two cuts.
    expect(cut(2000, 700, 600).bars[0]!.left_mm).toBe(692);
  });

  it('make a slot longer than a bar of whole bars and a rest', () => {
    const long = cut(2000, 5000, 990);
    // 1,000 and 990 with their cuts are 1,998.
    expect(lengths(long)).toEqual([[2000], [2000], [1000, 990]]);
    expect(long).toMatchObject({ jointCount: 2, isLeast: true });
    expect(long.bars.map(({ pieces }) => pieces.map(({ slot }) => slot))).toEqual([
      ['S1'],
      ['S1'],
      ['S1', 'S2'],
    ]);
    expect(cut(2000, 4000)).toMatchObject({ jointCount: 1 });
  });

  it('are the fewest there are, hold every piece once and no more than their length', () => {
    const random = seededRandom(7);
    for (let i = 0; i < 60; i++) {
      const bar_mm = 1000 + Math.floor(1000 * random());
      const count = 1 + Math.floor(7 * random());
      const lengths_mm = Array.from({ length: count }, () => 100 + Math.floor(bar_mm * 0.9 * random()));
      const made = cut(bar_mm, ...lengths_mm);
      expect(made.bars).toHaveLength(fewest(lengths_mm, bar_mm, made.kerf_mm));
      expect(made.isLeast).toBe(true);
      expect(lengths(made).flat().sort()).toEqual([...lengths_mm].sort());
      for (const { pieces, left_mm } of made.bars) {
        const used_mm = pieces.reduce((sum, { length_mm }) => sum + length_mm + made.kerf_mm, 0);
        expect(used_mm).toBeLessThanOrEqual(bar_mm + made.kerf_mm);
        expect(left_mm).toBeCloseTo(Math.max(0, bar_mm - used_mm), 9);
      }
    }
  });
});
