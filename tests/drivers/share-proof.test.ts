import { expect, it } from 'vitest';
import type { Cost } from '../../src/drivers/share-kinds.ts';
import { methodText, type Offer, type Shared, sharingOf } from '../../src/drivers/share-proof.ts';
import { given, load, model } from './loads-to-allocate.ts';

const priced = given([load('R1', 40)], { driver: { price_cents: 1000 } });
const unpriced = given([load('R1', 40)]);
const group = { model: 0, place: 0, outputs: [] };
const shared = (cost: Cost, atLeast: Cost, change: Partial<Shared> = {}): Shared => ({
  ...{ groups: Array.from({ length: cost[1] < 10 ? cost[1] : cost[0] }, () => group), cost, atLeast },
  ...change,
});
const row = (cost: Cost): Offer => shared(cost, cost);
const said = (of: Shared, by: typeof priced) => methodText(sharingOf(of, by), of, by);

it('is proved cheapest where nothing costs less, and where of that price nothing takes fewer drivers', () => {
  // 3000 cents on 3 drivers. Nothing below 3000 on 3: proved.
  expect(sharingOf(shared([3000, 3], [3000, 3]), priced)).toMatchObject({ isProved: true, gap: 0 });
  expect(said(shared([3000, 3], [3000, 3]), priced)).toMatch(
    / They cost 30\.00; no choice of these drivers is cheaper\.$/,
  );
  // A bound is worked out in parts of cents: 2999.0000005 is 3000 to the whole cent above, less 1e-6 of rounding.
  expect(sharingOf(shared([3000, 3], [2999.5, 3]), priced)).toMatchObject({ isProved: true, gap: 0 });
  // Of 3000, two drivers were not ruled out.
  const fewer = shared([3000, 3], [3000, 2]);
  expect(sharingOf(fewer, priced)).toMatchObject({ isProved: false, gap: 0, leastPrice_cents: 3000 });
  expect(said(fewer, priced)).toMatch(
    /They cost 30\.00; no choice of these drivers is cheaper, but fewer at that price were not ruled out\.$/,
  );
  // All of 3000 was ruled out but this: how many drivers others take says nothing.
  expect(sharingOf(shared([3000, 3], [3100, 1]), priced)).toMatchObject({
    ...{ isProved: true, leastPrice_cents: 3000, leastCount: 0 },
  });
  // 3 less rounding is 3.
  expect(sharingOf(shared([3000, 3], [3000, 3 - 1e-7]), priced).isProved).toBe(true);
});

it('says how far above the least it may be: (3000 - 2500) / 2500 is 20 %, (3000 - 2800) / 2800 is 7.1 %', () => {
  const far = shared([3000, 3], [2500, 3]);
  expect(sharingOf(far, priced)).toMatchObject({ isProved: false, gap: 0.2, leastPrice_cents: 2500 });
  expect(said(far, priced)).toMatch(
    /not shown to be the cheapest: none costs less than 25\.00, so this is at most 20 % too dear\.$/,
  );
  expect(said(shared([3000, 3], [2800, 3]), priced)).toMatch(/at most 7\.1 % too dear\.$/);
  // 9.949 % is written 9.9 %, 9.95 % to whole percents, since it would be 10.0 else.
  expect(said(shared([109949, 3], [100000, 3]), priced)).toMatch(/at most 9\.9 % too dear\.$/);
  expect(said(shared([109950, 3], [100000, 3]), priced)).toMatch(/at most 10 % too dear\.$/);
  // Without anything known, a price of 30.00 is at most 3000 / 1 too dear.
  expect(sharingOf(shared([3000, 3], [0, 0]), priced).gap).toBe(3000);
});

it('counts drivers where not every model has a price, and leaves their rated watts out of the proof', () => {
  const proved = shared([3, 300], [3, 0]);
  expect(sharingOf(proved, unpriced)).toEqual({
    ...{ driverCount: 3, price_cents: null, isProved: true, gap: 0, leastPrice_cents: null, leastCount: 3 },
    ...{ isSideBySide: true, sideBySide: null },
  });
  expect(said(proved, unpriced)).toMatch(/No allocation can use fewer drivers\.$/);
  // 2.2 drivers are 3; 2 of 3 leave (3 - 2) / 2.
  expect(sharingOf(shared([3, 300], [2.2, 0]), unpriced).isProved).toBe(true);
  const open = shared([3, 300], [2, 0]);
  expect(sharingOf(open, unpriced)).toMatchObject({ isProved: false, gap: 0.5, leastCount: 2 });
  expect(said(open, unpriced)).toMatch(
    /Not shown to be the least number of all: at least 2 drivers are needed, this uses 3, at most 50 % too many\.$/,
  );
});

it('says how it was shared out, and what runs side by side would take', () => {
  const whole = { isWhole: true };
  expect(said(shared([3000, 3], [3000, 3], whole), priced)).toMatch(
    /^Runs side by side on each driver: least price, then fewest drivers, then shortest cable, then evenly loaded \(every way tried\)\./,
  );
  expect(said(shared([3, 300], [3, 0]), unpriced)).toMatch(
    /^Runs side by side on each driver: fewest drivers, then least rated watts, then shortest cable, then evenly loaded\. /,
  );
  const dearer = shared([3000, 3], [3000, 3], { instead: row([4000, 4]) });
  expect(sharingOf(dearer, priced)).toMatchObject({
    ...{ isSideBySide: false, sideBySide: { driverCount: 4, price_cents: 4000 } },
  });
  expect(said(dearer, priced)).toMatch(/since side by side they would cost 40\.00 on 4\. /);
  const more = shared([3, 300], [3, 0], { instead: row([4, 400]) });
  expect(sharingOf(more, unpriced).sideBySide).toEqual({ driverCount: 4, price_cents: null });
  expect(said(more, unpriced)).toMatch(/since side by side they would take 4\. /);
  const none = shared([3000, 3], [3000, 3], { instead: null });
  expect(sharingOf(none, priced)).toMatchObject({ isSideBySide: false, sideBySide: null });
  expect(said(none, priced)).toMatch(/since side by side they cannot be carried\. /);
});

it('says that prices decide nothing where some model has none, and nothing of them where none has', () => {
  const models = [model({ price_cents: 1000 }), model()];
  const way = shared([3, 300], [3, 0]);
  expect(said(way, given([], { models }))).toMatch(
    /Prices decide nothing here, since not every model has one\.$/,
  );
  expect(said(way, unpriced)).not.toMatch(/Prices/);
  expect(said(shared([3000, 3], [3000, 3]), priced)).not.toMatch(/Prices/);
});
