import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestFills, type Goods } from '../../src/numeric/knapsack.ts';

/** The most that goods are worth that go into a room, by trying every number of each. */
function most(goods: readonly Goods[], room: number): number {
  const [first, ...rest] = goods;
  if (!first) return 0;
  const tries = Array.from({ length: first.count + 1 }, (_, n) => n).filter((n) => n * first.size <= room);
  return Math.max(...tries.map((n) => n * first.value + most(rest, room - n * first.size)));
}

describe('the knapsack problem', () => {
  it('by hand: two of 4 worth 5 each and one of 3 worth 4 in every room up to 11', () => {
    const goods = [
      { size: 4, count: 2, value: 5 },
      { size: 3, count: 1, value: 4 },
    ];
    const fills = bestFills(goods, 11);
    expect([...fills.values]).toEqual([0, 0, 0, 4, 5, 5, 5, 9, 10, 10, 10, 14]);
    expect([2, 3, 6, 7, 10, 11].map((room) => fills.countsIn(room))).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
      [2, 0],
      [2, 1],
    ]);
  });

  it('is worth as much as the best of every choice, and the counts make it up', () => {
    const goods = fc.record({
      size: fc.integer({ min: 1, max: 9 }),
      count: fc.nat(6),
      value: fc.nat(12),
    });
    fc.assert(
      fc.property(fc.array(goods, { maxLength: 4 }), fc.nat(30), (list, room) => {
        const fills = bestFills(list, room);
        expect(fills.values[room]).toBe(most(list, room));
        const counts = fills.countsIn(room);
        const sum = (of: (g: Goods) => number) => list.reduce((s, g, i) => s + counts[i]! * of(g), 0);
        expect(sum((g) => g.value)).toBe(fills.values[room]);
        expect(sum((g) => g.size)).toBeLessThanOrEqual(room);
        expect(counts.every((n, i) => n <= list[i]!.count)).toBe(true);
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});
