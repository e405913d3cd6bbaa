import { describe, expect, it } from 'vitest';
import type { Effort } from '../../src/numeric/bin-packing.ts';
import { piecesOf } from '../../src/numeric/bins.ts';
import { chooseReels, type ReelUnits } from '../../src/set-out/reel-choice.ts';

const effort: Effort = { fillWork: 3e6, searchNodes: 20_000, priceWork: 3e7 };

const chosen = (units: readonly number[], kinds: readonly ReelUnits[], by = effort) =>
  chooseReels(piecesOf(units.toSorted((a, b) => b - a)), kinds, by);

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
    // At 1 for every ten units all ways of making up 80 units cost 8.
    const [ten, twenty, thirty] = [bought(10, 1), bought(20, 2), bought(30, 3)];
    const eight = Array<number>(8).fill(10);
    expect(counts(chosen(eight, [ten, twenty, thirty]))).toEqual([8, 0, 0]);
    expect(counts(chosen(eight, [twenty, ten, thirty]))).toEqual([4, 0, 0]);
    expect(counts(chosen(eight, [thirty, ten, twenty]))).toEqual([2, 2, 0]);
  });

  it('are no fewer than the pieces need, however much room there is', () => {
    // Three of 12 do not go into two of 20, 40 units for 36; one of 40 holds them.
    const choice = chosen([12, 12, 12], [bought(20, 2), bought(40, 5)]);
    expect(counts(choice)).toEqual([0, 1]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 5 });
  });

  it('of which there are some at a price are bought too, and only where that is cheaper', () => {
    const one = (size: number, cost: number): ReelUnits => ({ size, cost, count: 1 });
    expect(chosen([20], [one(40, 9), bought(20, 6)])).toMatchObject({
      bins: [{ count: 0 }, { count: 1 }],
      leastCost: 6,
    });
    expect(chosen([20, 20], [one(20, 4), bought(20, 6)])).toMatchObject({
      bins: [{ count: 1 }, { count: 1 }],
      leastCost: 10,
    });
  });
});

describe('what no way of cutting need be tried for', () => {
  it('is refuted by prices: hundreds of choices with room enough', () => {
    // A reel of 20 holds one piece of 12: 300 pieces take 300 reels, though from 180 on there is room. An offcut of 11 is of
    // no use.
    const choice = chosen(Array<number>(300).fill(12), [bought(20, 7), offcut(11)]);
    expect(counts(choice)).toEqual([300, 0]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 2100 });
  });

  it('counts a piece left out as dear as the dearest reel', () => {
    // Reels of 11 at 6 hold no piece of 12: 150 of 20 at 7 it is, 1050 in all. Were a piece worth 6 at most, choices from 900
    // on would be tried, a hundred and more.
    const choice = chosen(Array<number>(150).fill(12), [bought(11, 6), bought(20, 7)]);
    expect(counts(choice)).toEqual([0, 150]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 1050 });
  });

  it('is refuted by room: hundreds of choices of offcuts', () => {
    // 60 units; offcuts of 1 to 9 are 45 together, in 512 ways, and hold none of the pieces.
    const small = Array.from({ length: 9 }, (_, i) => offcut(i + 1));
    const choice = chosen([20, 20, 20], [offcut(20, 3), ...small, bought(50, 4)]);
    expect(counts(choice)).toEqual([3, ...Array<number>(10).fill(0)]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 0 });
  });
});

describe('no trouble taken', () => {
  // 74 units. Four reels of 20 hold them: 13 + 6, 12 + 4, 11 + 9, 10 + 9. Filling reel after reel takes five.
  const pieces = [13, 12, 11, 10, 9, 9, 6, 4];

  it('leaves open whether a choice that was not refuted would have done', () => {
    const choice = chosen(pieces, [bought(20, 7)], { fillWork: 0, searchNodes: 0, priceWork: 0 });
    expect(counts(choice)).toEqual([5]);
    expect(choice).toMatchObject({ isLeast: false, leastCost: 28 });
  });

  it('but for prices shows which choice does', () => {
    const choice = chosen(pieces, [bought(20, 7)], { ...effort, fillWork: 0, searchNodes: 0 });
    expect(counts(choice)).toEqual([4]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 28 });
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

  it('are left alone where reels have to be bought all the same, however many there are', () => {
    // Sixteen offcuts too short for the pieces: 65,536 choices of them.
    const many = Array.from({ length: 16 }, (_, i) => offcut(30 + i));
    const choice = chosen([100, 100, 100], [...many, bought(100, 5)]);
    expect(counts(choice)).toEqual([...Array<number>(16).fill(0), 3]);
    expect(choice).toMatchObject({ isLeast: true, leastCost: 15 });
  });

  it('are all put down as taken where the fewest of them are not found, and not shown to be the least', () => {
    // Three of 30 go into three of 40. With twelve offcuts too short for any, of 18 to 29, there are hundreds of choices
    // from 90 to 120 units, all of which have room.
    const short = Array.from({ length: 12 }, (_, i) => offcut(18 + i));
    const choice = chosen([30, 30, 30], [...short, offcut(40, 3), bought(50, 4)]);
    expect(counts(choice)).toEqual([...Array<number>(12).fill(1), 3, 0]);
    expect(choice).toMatchObject({ isLeast: false, leastCost: 0 });
    expect(choice.filled.map(({ of }) => of)).toEqual([12, 12, 12]);
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
    expect(counts(choice)).toEqual([0, 228, 2, 0]);
  });

  it('are of the kind listed first where two are as cheap by the unit, though it has no waste', () => {
    const many = Array<number>(230).fill(90);
    expect(counts(chosen(many, [bought(90, 90), bought(99, 99)]))).toEqual([230, 0]);
    expect(counts(chosen(many, [bought(99, 99), bought(90, 90)]))).toEqual([230, 0]);
  });

  it('are of the cheaper kind, be it listed first or last', () => {
    // 102 / 95 is less than 101 / 92 and than 97 / 90.
    const many = Array<number>(230).fill(90);
    expect(counts(chosen(many, [bought(95, 102), bought(92, 101)]))).toEqual([230, 0]);
    expect(counts(chosen(many, [bought(90, 97), bought(95, 102)]))).toEqual([0, 230]);
  });
});
