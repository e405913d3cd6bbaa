import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ShelfCase, type ShelfRoom, shelve, type Way } from '../../src/installation/shelves.ts';

const way = (along_mm: number, over_mm: number): Way => ({
  ...{ along_mm, over_mm, deep_mm: 1 },
  terminals: 'asked',
});

const one = (
  id: string,
  clearance_mm: number,
  ...sides: readonly (readonly [number, number])[]
): ShelfCase => ({
  ...{ id, clearance_mm },
  ways: sides.map(([along_mm, over_mm]) => way(along_mm, over_mm)),
});

const corners = (cases: readonly ShelfCase[], along_mm: number, over_mm: number) =>
  shelve(cases, { along_mm, over_mm }).cases.map((each) => [each.id, each.along_mm, each.over_mm]);

/** Every way to give each case one of its ways. */
const picks = (cases: readonly ShelfCase[]): Way[][] =>
  cases.reduce<Way[][]>(
    (sofar, { ways }) => sofar.flatMap((before) => ways.map((each) => [...before, each])),
    [[]],
  );

/** Every way to cut a list into consecutive shelves, as lists of their places in it. */
function splits(count: number): number[][][] {
  return Array.from({ length: 2 ** (count - 1) }, (_, cuts) =>
    Array.from({ length: count }, (_, i) => i).reduce<number[][]>((shelves, i) => {
      if (i === 0 || (cuts >> (i - 1)) & 1) shelves.push([i]);
      else shelves.at(-1)!.push(i);
      return shelves;
    }, []),
  );
}

/** Whether a set goes in, tried out: every cut of the order, every way of every case. */
function goesIn(cases: readonly ShelfCase[], { along_mm, over_mm }: ShelfRoom): boolean {
  const air = (shelf: readonly number[]) => Math.max(...shelf.map((i) => cases[i]!.clearance_mm));
  const cuts = splits(cases.length);
  return picks(cases).some((ways) =>
    cuts.some((shelves) => {
      const isShort = shelves.every((shelf) => {
        let length = cases[shelf[0]!]!.clearance_mm + cases[shelf.at(-1)!]!.clearance_mm;
        for (const i of shelf) length += ways[i]!.along_mm;
        for (const i of shelf.slice(1))
          length += Math.max(cases[i - 1]!.clearance_mm, cases[i]!.clearance_mm);
        return length <= along_mm;
      });
      let height = air(shelves[0]!) + air(shelves.at(-1)!);
      for (const [k, shelf] of shelves.entries()) {
        height += Math.max(...shelf.map((i) => ways[i]!.over_mm));
        if (k > 0) height += Math.max(air(shelf), air(shelves[k - 1]!));
      }
      return isShort && height <= over_mm;
    }),
  );
}

describe('cases on shelves', () => {
  it('by hand: a driver, its dimmer and its block beside one another, the next three on the shelf above', () => {
    const three = (n: number) => [
      one(`D${n}`, 20, [200, 60]),
      one(`M${n}`, 10, [100, 40]),
      one(`B${n}`, 5, [50, 30]),
    ];
    // 20 + 200 + 20 + 100 + 10 + 50 + 5 = 405 along; 20 + 60 + 20 + 60 + 20 = 180 over.
    expect(corners([...three(1), ...three(2)], 405, 180)).toEqual([
      ...[
        ['D1', 20, 20],
        ['M1', 240, 20],
        ['B1', 350, 20],
      ],
      ...[
        ['D2', 20, 100],
        ['M2', 240, 100],
        ['B2', 350, 100],
      ],
    ]);
    // 1 mm less along: B1 goes up beside D2, which puts M2 and B2 on a third shelf of 40 and 10 of air: 180 - 20 + 20 + 40 + 10.
    expect(corners([...three(1), ...three(2)], 404, 230)).toEqual([
      ...[
        ['D1', 20, 20],
        ['M1', 240, 20],
      ],
      ...[
        ['B1', 5, 100],
        ['D2', 75, 100],
      ],
      ...[
        ['M2', 10, 180],
        ['B2', 120, 180],
      ],
    ]);
    expect(shelve([...three(1), ...three(2)], { along_mm: 404, over_mm: 229 }).without).toEqual(['M2']);
  });

  it('by hand: a higher shelf that asks for no clearance may leave more room than a lower one that does', () => {
    // A and X below, Y above: 10 + 3 + 10 + 5 = 28 and no air over Y. A below, X and Y above: 10 + 1 + 10 + 5 + 10 = 36.
    const cases = [one('A', 10, [10, 1]), one('X', 10, [10, 3]), one('Y', 0, [10, 5])];
    expect(corners(cases, 50, 28)).toEqual([
      ...[
        ['A', 10, 10],
        ['X', 30, 10],
      ],
      ...[['Y', 0, 23]],
    ]);
    expect(shelve(cases, { along_mm: 50, over_mm: 27 }).without).toEqual(['Y']);
  });

  it('by hand: turns one case so that the shelf holds, and only that one', () => {
    // 10 + 100 + 10 + 100 + 10 = 230; with one standing 190. On two shelves 10 + 60 + 10 + 60 + 10 = 150 high.
    const two = [one('A', 10, [100, 60], [60, 100]), one('B', 10, [100, 60], [60, 100])];
    const { cases } = shelve(two, { along_mm: 190, over_mm: 120 });
    expect(cases.map(({ way: { along_mm } }) => along_mm)).toEqual([100, 60]);
  });

  it('leaves out what has no room, and goes on with what has', () => {
    const cases = [one('A', 10, [100, 40]), one('B', 10, [500, 40]), one('C', 10, [100, 40]), one('D', 10)];
    expect(shelve(cases, { along_mm: 230, over_mm: 60 })).toEqual({
      cases: [
        { id: 'A', way: way(100, 40), along_mm: 10, over_mm: 10 },
        { id: 'C', way: way(100, 40), along_mm: 120, over_mm: 10 },
      ],
      without: ['B', 'D'],
    });
    expect(shelve([], { along_mm: 1, over_mm: 1 })).toEqual({ cases: [], without: [] });
  });

  it('fills the lower shelves first where cases are alike', () => {
    const five = ['A', 'B', 'C', 'D', 'E'].map((id) => one(id, 20, [210, 60]));
    expect(corners(five, 480, 260)).toEqual([
      ...[
        ['A', 20, 20],
        ['B', 250, 20],
      ],
      ...[
        ['C', 20, 100],
        ['D', 250, 100],
        ['E', 20, 180],
      ],
    ]);
  });

  it('has room exactly where some cut of the order with some way of each case has, tried one by one', () => {
    const side = fc.integer({ min: 1, max: 9 });
    const any = fc.record({ a: side, b: side, c: side, clearance_mm: fc.integer({ min: 0, max: 3 }) });
    const cases = fc
      .array(any, { minLength: 1, maxLength: 4 })
      .map((list) =>
        list.map(({ a, b, c, clearance_mm }, i) => one(`${i}`, clearance_mm, [a, b], [b, a], [a, c])),
      );
    const room = fc.record({
      along_mm: fc.integer({ min: 5, max: 26 }),
      over_mm: fc.integer({ min: 5, max: 26 }),
    });
    let [has, hasNot] = [0, 0];
    fc.assert(
      fc.property(cases, room, (given, within) => {
        const isRoom = goesIn(given, within);
        if (isRoom) has += 1;
        else hasNot += 1;
        expect(shelve(given, within).without.length === 0).toBe(isRoom);
      }),
      { seed: 7, numRuns: 600 },
    );
    expect(Math.min(has, hasNot)).toBeGreaterThan(100);
  });

  it('loses no room to rounding: three tenths are one tenth three times', () => {
    const three = ['A', 'B', 'C'].map((id) => one(id, 0, [0.1, 0.1]));
    expect(shelve(three, { along_mm: 0.3, over_mm: 0.1 }).without).toEqual([]);
    expect(shelve(three, { along_mm: 0.1, over_mm: 0.3 }).without).toEqual([]);
  });
});
