import fc from 'fast-check';
import { expect, it } from 'vitest';
import { placesFor, rememberedRoom } from '../../src/drivers/share-places.ts';
import { kindOf } from './kinds.ts';
import { given, model } from './loads-to-allocate.ts';

it('asks each question of room once, of each place and each set of models by itself', () => {
  const asked: string[] = [];
  const hasRoom = rememberedRoom({
    ...given([], { models: [model(), model()] }),
    hasRoom: (place, models) => {
      asked.push(`${place}:${models}`);
      return place === 0 && models.length < 2;
    },
  });
  const ask = () => [hasRoom(0, [0]), hasRoom(0, [0, 0]), hasRoom(1, [0]), hasRoom(0, [1])];
  expect(ask()).toEqual([true, false, false, true]);
  expect(ask()).toEqual([true, false, false, true]);
  expect(asked).toEqual(['0:0', '0:0,0', '1:0', '0:1']);
});

it('finds places wherever there are any, and none where there are none, by every way of placing', () => {
  // Up to three kinds at two or three places, each driver a part of a place: every way is gone through.
  const some = fc.record({
    shares: fc.array(fc.constantFrom(0.3, 0.4, 0.6, 1), { minLength: 1, maxLength: 3 }),
    open: fc.array(fc.subarray([0, 1, 2], { minLength: 1 }), { minLength: 3, maxLength: 3 }),
    counts: fc.array(fc.nat(3), { minLength: 3, maxLength: 3 }),
  });
  let placed = 0;
  let refused = 0;
  fc.assert(
    fc.property(some, ({ shares, open, counts: most }) => {
      const kinds = shares.map((_, k) => kindOf({ model: k, places: open[k]! }));
      const counts = shares.map((_, k) => most[k]!);
      const hasRoom = (_place: number, models: readonly number[]): boolean =>
        models.reduce((sum, m) => sum + shares[m]!, 0) <= 1 + 1e-9;
      const drivers = counts.flatMap((count, k) => Array<number>(count).fill(k));
      const canStand = (at: number, used: readonly number[]): boolean =>
        at === drivers.length ||
        kinds[drivers[at]!]!.places.some((p) => {
          const next = used.with(p, used[p]! + shares[drivers[at]!]!);
          return next[p]! <= 1 + 1e-9 && canStand(at + 1, next);
        });
      const found = placesFor(kinds, counts, hasRoom);
      if (!canStand(0, [0, 0, 0])) {
        refused++;
        expect([null, undefined]).toContain(found);
        return;
      }
      if (found === undefined) return;
      placed++;
      expect(found!.map(({ length }) => length)).toEqual(counts);
      expect(found!.every((places, k) => places.every((p) => open[k]!.includes(p)))).toBe(true);
      for (const p of [0, 1, 2])
        expect(
          hasRoom(
            p,
            found!.flatMap((places, k) => places.filter((at) => at === p).map(() => k)),
          ),
        ).toBe(true);
    }),
    { seed: 19, numRuns: 400 },
  );
  expect(placed).toBeGreaterThan(100);
  expect(refused).toBeGreaterThan(100);
});

it('proves that there is no room by few questions, and lets go after four hundred', () => {
  const none = (): boolean => false;
  expect(placesFor([kindOf({ places: [0, 1] })], [2], none)).toBeNull();
  // Two of three kinds go in anywhere, the third nowhere: 20 places squared are 400 questions and more.
  const places = Array.from({ length: 25 }, (_, p) => p);
  const kinds = [0, 1, 2].map((m) => kindOf({ model: m, places }));
  expect(placesFor(kinds, [1, 1, 1], (_place, models) => !models.includes(2))).toBeUndefined();
  // One kind that goes in once: places 0, 1, 2 in their order, nothing tried twice.
  const asked: string[] = [];
  const found = placesFor([kindOf({ places: [0, 1, 2] })], [3], (place, models) => {
    asked.push(`${place}:${models.length}`);
    return models.length === 1;
  });
  expect(found).toEqual([[0, 1, 2]]);
  expect(asked).toEqual(['0:1', '0:2', '1:1', '1:2', '2:1']);
});

it('places none of no drivers', () => {
  expect(placesFor([kindOf({}), kindOf({})], [0, 0], () => false)).toEqual([[], []]);
});
