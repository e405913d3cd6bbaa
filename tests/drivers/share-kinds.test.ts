import { describe, expect, it } from 'vitest';
import {
  compareCosts,
  costOf,
  costOfAll,
  isPriced,
  kindsOf,
  roomiest,
  roomOfDriver_W,
} from '../../src/drivers/share-kinds.ts';
import { kindOf } from './kinds.ts';
import { given, model } from './loads-to-allocate.ts';

describe('what drivers are chosen by', () => {
  it('is cents and drivers where every model has a price, else drivers and rated watts', () => {
    const dear = model({ price_cents: 1500, rated_W: 60 });
    expect(isPriced({ models: [dear, dear] })).toBe(true);
    expect(isPriced({ models: [dear, model()] })).toBe(false);
    expect(costOf(dear, true)).toEqual([1500, 1]);
    expect(costOf(dear, false)).toEqual([1, 60]);
  });

  it('adds up over drivers: 1500 + 900 + 900 cents on three, or three of 60 + 100 + 100 W', () => {
    const models = [model({ price_cents: 1500, rated_W: 60 }), model({ price_cents: 900 })];
    const drivers = [{ model: 0 }, { model: 1 }, { model: 1 }];
    expect(costOfAll(drivers, { models })).toEqual([3300, 3]);
    expect(costOfAll(drivers, { models: [models[0]!, model()] })).toEqual([3, 260]);
    expect(costOfAll([], { models })).toEqual([0, 0]);
  });

  it('compares by the first figure that differs by more than rounding, 1e-9 of it and at least 1e-9', () => {
    expect(compareCosts([1, 100], [2, 0])).toBe(-1);
    expect(compareCosts([3, 0], [1, 100])).toBe(2);
    expect(compareCosts([1, 100], [1, 70])).toBe(30);
    expect(compareCosts([1, 70], [1, 100])).toBe(-30);
    expect(compareCosts([1, 70], [1, 70])).toBe(0);
    // 2000 and 2000 + 1e-6 are one, since 1e-9 of 2000 is 2e-6; 2000 + 3e-6 is more.
    expect(compareCosts([2000, 3], [2000 + 1e-6, 2])).toBe(1);
    expect(compareCosts([2000, 2], [2000 + 3e-6, 1])).toBeLessThan(0);
    // Of figures below 1, what parts them is 1e-9 itself.
    expect(compareCosts([0.1, 2], [0.1 + 5e-10, 1])).toBe(1);
    expect(compareCosts([0.1, 2], [0.1 + 2e-9, 1])).toBeLessThan(0);
  });
});

describe('kinds of drivers', () => {
  const upTo = (limit: number) => limit + 1e-9 * limit;

  it('are each model at places where it gives as much, the roomiest first, the places as they are met', () => {
    // Place 1 gives 64 W of the first model, places 0 and 2 give 80 W and place 3 nothing; of the second all give 40 W but 3.
    const models = [
      model({ usable_W: [80, 64, 80, 0] }),
      model({ usable_W: [40, 40, 40, 0], outputCount: 2, current_A: 1 }),
    ];
    const kinds = kindsOf(given([], { models, placeOrder: [2, 1, 0, 3], outputOwn_W: 0.5 }));
    expect(kinds.map(({ model: m, places }) => [m, places])).toEqual([
      [0, [2, 0]],
      [0, [1]],
      [1, [2, 1, 0]],
    ]);
    expect(kinds[0]).toEqual({
      ...{ model: 0, places: [2, 0], outputCount: 1, own_W: 0.5, isOfOneZone: true, cost: [1, 100] },
      ...{ usable_W: upTo(80), output_W: upTo(80) },
    });
    // 1 A at 24 V.
    expect(kinds[2]).toMatchObject({
      outputCount: 2,
      isOfOneZone: false,
      output_W: upTo(24),
      usable_W: upTo(40),
    });
  });

  it('begin with the roomiest of each model, in whichever order the places are met', () => {
    // 40, 80 and 64 W at places 0, 1 and 2 of the one, 50 and twice 70 W of the other.
    const models = [model({ usable_W: [40, 80, 64] }), model({ usable_W: [50, 70, 70] })];
    const kinds = kindsOf(given([], { models }));
    expect(kinds.map(({ model: m, places }) => [m, places])).toEqual([
      [0, [1]],
      [0, [2]],
      [0, [0]],
      [1, [1, 2]],
      [1, [0]],
    ]);
    expect(roomiest(kinds).map(({ model: m, places }) => [m, places])).toEqual([
      [0, [1]],
      [1, [1, 2]],
    ]);
  });

  it('keep places apart from those of a second level that differ from the first by rounding', () => {
    // 80 and a little more are one, 64 is another.
    const models = [model({ usable_W: [80, 64, 80 + 1e-9] })];
    expect(kindsOf(given([], { models })).map(({ places }) => places)).toEqual([[0, 2], [1]]);
  });

  it('take places that differ by rounding alone for one, at the least of them', () => {
    const models = [model({ usable_W: [80 + 1e-9, 80] })];
    const kinds = kindsOf(given([], { models }));
    expect(kinds).toHaveLength(1);
    expect(kinds[0]).toMatchObject({ places: [1, 0], usable_W: upTo(80) });
  });

  it('are of one zone with outputs dimmed together, and none where what stands behind an output takes all', () => {
    const models = [model({ outputCount: 2, outputsDimTogether: true })];
    expect(kindsOf(given([], { models }))).toMatchObject([{ isOfOneZone: true }]);
    expect(kindsOf(given([], { models, outputOwn_W: 81 }))).toEqual([]);
    expect(kindsOf(given([], { models, outputOwn_W: 79 }))).toHaveLength(1);
    // What leaves nothing for a load, up to rounding, is none either.
    expect(kindsOf(given([], { models, outputOwn_W: upTo(80) }))).toEqual([]);
  });
});

describe('room for loads on a driver', () => {
  it('is the least of its watts and of all its outputs, less what stands behind one and behind all', () => {
    // One output of 80 W with 1 W behind it: 79. Two of 30 W: 2 * 29 is 58; of 50 W: 98, but 80 - 1 are given.
    expect(roomOfDriver_W(kindOf({ own_W: 1 }))).toBe(79);
    expect(roomOfDriver_W(kindOf({ own_W: 1, outputCount: 2, output_W: 30 }))).toBe(58);
    expect(roomOfDriver_W(kindOf({ own_W: 1, outputCount: 2, output_W: 50, isOfOneZone: false }))).toBe(79);
    // One output of 30 W of a driver of 80 W.
    expect(roomOfDriver_W(kindOf({ output_W: 30 }))).toBe(30);
  });
});
