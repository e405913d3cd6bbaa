import { describe, expect, it } from 'vitest';
import type { Effort } from '../../src/numeric/bin-packing.ts';
import { piecesOf } from '../../src/numeric/bins.ts';
import { chooseReels, type ReelUnits } from '../../src/set-out/reel-choice.ts';

const effort: Effort = { fillWork: 3e6, searchNodes: 20_000, priceWork: 3e7 };

const chosen = (units: readonly number[], kinds: readonly ReelUnits[]) =>
  chooseReels(piecesOf(units.toSorted((a, b) => b - a)), kinds, effort);

const counts = (choice: ReturnType<typeof chosen>) => choice.bins.map(({ count }) => count);

const bought = (size: number, cost: number): ReelUnits => ({ size, cost, count: null });
const offcut = (size: number, count = 1): ReelUnits => ({ size, cost: 0, count });

describe('reels of several lengths and prices', () => {
  it('are those of least cost', () => {
    // 30 units: one of 30 at 5 is cheaper than three of 10 at 2, and dearer than three at 1.
    expect(counts(chosen([10, 10, 10], [bought(10, 2), bought(30, 5)]))).toEqual([0, 1]);
    expect(counts(chosen([10, 10, 10], [bought(10, 1), bought(30, 5)]))).toEqual([3, 0]);
  });

  it('are of equal cost those of fewest units', () => {
    expect(counts(chosen([10, 10], [bought(40, 3), bought(25, 3)]))).toEqual([0, 1]);
    expect(counts(chosen([10, 10], [bought(25, 3), bought(40, 3)]))).toEqual([1, 0]);
  });

  it('are of equal cost and units more of the kind listed first', () => {
    // Two of 10 and two of 30 are 80 units, four of 20 as many, all at one price each.
    const kinds = [bought(20, 1), bought(10, 1), bought(30, 1)];
    expect(counts(chosen([20, 20, 20, 20], kinds))).toEqual([4, 0, 0]);
  });

  it('are no fewer than the pieces need, however much room there is', () => {
    // Three of 12 do not go into two of 20, 40 units for 36; one of 40 holds them.
    const choice = chosen([12, 12, 12], [bought(20, 2), bought(40, 5)]);
    expect(counts(choice)).toEqual([0, 1]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 5 });
  });
});

describe('offcuts in stock', () => {
  it('are used before anything is bought, as little of them as will do', () => {
    // 8 and 6 units: offcuts of 9, 8 and 7 hold them; 8 + 7 are the fewest units that do.
    const choice = chosen([8, 6], [offcut(9), offcut(8), offcut(7), bought(20, 4)]);
    expect(counts(choice)).toEqual([0, 1, 1, 0]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 0 });
  });

  it('spare a reel, and only those are taken that are needed for that', () => {
    // 20 and 8: one reel of 20, and 8 of an offcut; without it two reels.
    const choice = chosen([20, 8], [offcut(8), offcut(12), bought(20, 4)]);
    expect(counts(choice)).toEqual([1, 0, 1]);
    expect(choice.leastCost).toBe(4);
  });

  it('stay where they are when they spare nothing', () => {
    expect(counts(chosen([10, 10], [offcut(9, 3), bought(20, 4)]))).toEqual([0, 1]);
  });

  it('are no more than there are', () => {
    expect(counts(chosen([5, 5, 5], [offcut(5, 2), bought(5, 4)]))).toEqual([2, 1]);
  });
});

describe('more choices than are looked at', () => {
  it('are as many as it takes of the kind that is cheapest by the unit, and not shown to be the least', () => {
    // 230 pieces of 90 take 230 reels of either kind: some 26,000 choices have fewer. 102/95 is less than 101/92. Of offcuts
    // all are taken, and two pieces go into them.
    const many = Array<number>(230).fill(90);
    const choice = chosen(many, [bought(92, 101), bought(95, 102), offcut(91, 2), bought(89, 1)]);
    expect(choice).toMatchObject({ isLeast: false, leastCost: 0 });
    expect(choice.filled).toHaveLength(230);
    expect(counts(choice)[0]).toBe(0);
    expect(counts(choice)[3]).toBe(0);
    expect(choice.filled.filter(({ of }) => of === 1).length).toBeGreaterThanOrEqual(228);
  });
});
