import fc from 'fast-check';
import { expect, it } from 'vitest';
import { reaches } from '../../src/drivers/share-bounds.ts';
import { countsInOrder } from '../../src/drivers/share-counts.ts';
import { compareCosts, type Kind } from '../../src/drivers/share-kinds.ts';

const kind = (model: number, cost: readonly [number, number]): Kind => ({
  ...{ model, places: [0], outputCount: 1, usable_W: 80, output_W: 80, own_W: 0, isOfOneZone: true, cost },
});

it('gives every choice of drivers that reaches the cuts and keeps to stock, each once, the cheapest first', () => {
  const some = fc.record({
    kinds: fc.array(
      fc.record({
        cents: fc.nat(9),
        gives: fc.tuple(fc.nat(9), fc.nat(9)),
        stock: fc.constantFrom(null, 1, 2),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    needs: fc.tuple(fc.integer({ min: 1, max: 25 }), fc.integer({ min: 0, max: 25 })),
    mostDrivers: fc.integer({ min: 1, max: 5 }),
  });
  fc.assert(
    fc.property(some, ({ kinds, needs, mostDrivers }) => {
      const asked = {
        kinds: kinds.map(({ cents }, i) => kind(i, [cents, 1])),
        stocks: kinds.map(({ stock }) => stock),
        cuts: needs.map((need, c) => ({ need, gives: kinds.map(({ gives }) => gives[c]!), worths: null })),
        mostDrivers,
      };
      const inOrder = [...countsInOrder(asked)].filter(({ counts }) =>
        asked.cuts.every((cut) => reaches(cut, counts)),
      );
      // Every choice there is, by counting up.
      let every: number[][] = [[]];
      for (const { stock } of kinds)
        every = every.flatMap((counts) =>
          Array.from({ length: (stock ?? mostDrivers) + 1 }, (_, n) => [...counts, n]),
        );
      const able = every.filter(
        (counts) =>
          counts.reduce((a, b) => a + b, 0) <= mostDrivers && asked.cuts.every((cut) => reaches(cut, counts)),
      );
      expect(inOrder.map(({ counts }) => counts.join()).toSorted()).toEqual(
        able.map((counts) => counts.join()).toSorted(),
      );
      inOrder.forEach(({ cost, atLeast }, i) => {
        expect(compareCosts(atLeast, cost)).toBeLessThanOrEqual(0);
        if (i > 0) expect(compareCosts(inOrder[i - 1]!.cost, cost)).toBeLessThanOrEqual(0);
      });
    }),
    { seed: 75, numRuns: 300 },
  );
});
