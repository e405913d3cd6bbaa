import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shareOut as exactly } from '../../src/drivers/allocation.ts';
import { firstFit } from '../../src/drivers/first-fit.ts';
import { type DriverModel, type LoadsToAllocate, outputLimit_W } from '../../src/drivers/loads.ts';
import { quickSharing } from '../../src/drivers/share-effort.ts';
import { given, load, model, told } from './loads-to-allocate.ts';

const shareOut = (input: LoadsToAllocate) => exactly(input, quickSharing);

function allocated(input: LoadsToAllocate) {
  const outcome = shareOut(input);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.sentence).join(' '));
  return outcome.value;
}

const small = fc.record({
  loads: fc.array(
    fc.record({
      watts: fc.double({ min: 0, max: 60, noNaN: true }),
      zone: fc.constantFrom(null, 'upper', 'lower'),
      far: fc.tuple(fc.nat(20), fc.nat(20)),
    }),
    { minLength: 1, maxLength: 40 },
  ),
  outputCount: fc.integer({ min: 1, max: 4 }),
  ceiling_W: fc.constantFrom(null, 60, 70),
  usable_W: fc.tuple(
    fc.double({ min: 60, max: 100, noNaN: true }),
    fc.double({ min: 0, max: 100, noNaN: true }),
  ),
});

type Small = typeof small extends fc.Arbitrary<infer T> ? T : never;

const fromSmall = (s: Small): LoadsToAllocate =>
  given(
    s.loads.map((l, i) => load(`R${i + 1}`, l.watts, l.zone, l.far)),
    {
      driver: { outputCount: s.outputCount, usable_W: s.usable_W },
      outputCeiling_W: s.ceiling_W,
    },
  );

describe('what one output may carry', () => {
  it.each([
    // 80 W of the driver, 4.17 A · 24 V = 100.08 W of the output, no ceiling: the driver decides.
    [{}, 80],
    [{ driver: { usable_W: [150] } }, 100.08],
    [{ driver: { usable_W: [150] }, set_V: 12 }, 50.04],
    [{ outputCeiling_W: 60 }, 60],
    [{ outputCeiling_W: 100 }, 80],
  ])('%j: the least of them, %d W', (change, limit_W) => {
    expect(outputLimit_W(given([], change), { model: 0, place: 0 })).toBeCloseTo(limit_W, 9);
  });
});

describe('allocating loads', () => {
  it('loses no load, no watt, and breaks no limit', () => {
    fc.assert(
      fc.property(small, (s) => {
        const input = fromSmall(s);
        const { drivers, lowerBoundCount } = allocated(input);
        const runs = drivers.flatMap((d) => d.outputs.flatMap((o) => o.runs));
        expect(runs.toSorted()).toEqual(input.loads.map((l) => l.run).toSorted());
        const byRun = new Map(input.loads.map((l) => [l.run, l]));
        for (const driver of drivers) {
          expect(driver.outputs.length).toBeLessThanOrEqual(s.outputCount);
          expect(driver.watts).toBeLessThanOrEqual(s.usable_W[driver.place]! * (1 + 1e-8));
          for (const output of driver.outputs) {
            const loads = output.runs.map((run) => byRun.get(run)!);
            expect(new Set(loads.map((l) => l.zone))).toEqual(new Set([output.zone]));
            expect(output.watts).toBeCloseTo(
              loads.reduce((sum, l) => sum + l.watts, 0),
              9,
            );
            expect(output.watts).toBeLessThanOrEqual(Math.min(s.ceiling_W ?? 1e9, 4.17 * 24) * (1 + 1e-8));
          }
        }
        expect(drivers.length).toBeGreaterThanOrEqual(lowerBoundCount);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it('never uses more drivers than first-fit decreasing alone would, in 200 random rows', () => {
    fc.assert(
      fc.property(small, (s) => {
        const input = fromSmall(s);
        const groups = firstFit(input, 0);
        if (groups !== null) expect(allocated(input).drivers.length).toBeLessThanOrEqual(groups.length);
      }),
      { seed: 47, numRuns: 200 },
    );
  });

  it('by hand: zone by zone, neighbours together, two zones on drivers of 80 W with two outputs of 60 W', () => {
    // The row is R1 R3 R4 of the upper zone, then R2 R5 of the lower: 50 + 30 fill the first driver, on an output each; 10 of the
    // upper zone and 40 + 20 of the lower are 70 W on the second.
    const loads = [
      load('R1', 50, 'upper'),
      load('R2', 40, 'lower'),
      load('R3', 30, 'upper'),
      load('R4', 10, 'upper'),
      load('R5', 20, 'lower'),
    ];
    const { drivers, lowerBoundCount } = allocated(
      given(loads, { driver: { outputCount: 2, current_A: 2.5 } }),
    );
    expect(told(drivers)).toEqual([
      'D1 80 W: D1.1 upper R1 50 W, D1.2 upper R3 30 W',
      'D2 70 W: D2.1 upper R4 10 W, D2.2 lower R2 R5 60 W',
    ]);
    expect(drivers.map(({ usable_W, outputs }) => [usable_W, ...outputs.map((o) => o.limit_W)])).toEqual([
      [80, 60, 60],
      [80, 60, 60],
    ]);
    expect(lowerBoundCount).toBe(2);
  });

  it('says of each driver which model it is, and takes the fewest', () => {
    const models = [model(), model({ name: 'large', rated_W: 200, current_A: 8.34, usable_W: [160] })];
    const { drivers, method } = allocated(
      given(
        [60, 50, 40, 75].map((w, i) => load(`R${i + 1}`, w)),
        { models },
      ),
    );
    expect(drivers.map((d) => [d.model, d.rated_W, d.usable_W, d.watts])).toEqual([
      [1, 200, 160, 150],
      [0, 100, 80, 75],
    ]);
    expect(method).toMatch(
      /^Runs side by side on each driver: .* \(every way tried\)\. No allocation can use fewer/,
    );
  });

  it('keeps to stock and room as far as that can be done, to stock before room', () => {
    const loads = [70, 70, 70].map((w, i) => load(`R${i + 1}`, w));
    const other = { name: 'other', rated_W: 75 };
    const models = (own: Partial<DriverModel>, further: Partial<DriverModel>) => [
      model(own),
      model({ ...other, ...further }),
    ];
    const sharedOut = (own: Partial<DriverModel>, further: Partial<DriverModel>) =>
      allocated(given(loads, { models: models(own, further) })).drivers.map((d) => d.model);
    // The smaller of the two does it; two of it are there; neither has room for a third, and stock still holds; one of each.
    expect(sharedOut({}, {})).toEqual([1, 1, 1]);
    expect(sharedOut({}, { stock: 2 }).toSorted()).toEqual([0, 1, 1]);
    expect(sharedOut({ placeShare: () => 1 }, { stock: 2, placeShare: () => 1 }).toSorted()).toEqual([
      0, 1, 1,
    ]);
    expect(sharedOut({ stock: 1 }, { stock: 1 })).toEqual([1, 1, 1]);
  });

  it('numbers drivers by their places as one meets them', () => {
    const loads = [load('R1', 60, null, [4, 9]), load('R2', 60, null, [9, 1])];
    const places = (placeOrder?: readonly number[]) =>
      allocated(
        given(loads, { driver: { usable_W: [80, 80] }, ...(placeOrder && { placeOrder }) }),
      ).drivers.map(({ id, place, outputs }) => [id, place, ...outputs.flatMap((output) => output.runs)]);
    expect(places()).toEqual([
      ['D1', 0, 'R1'],
      ['D2', 1, 'R2'],
    ]);
    expect(places([1, 0])).toEqual([
      ['D1', 1, 'R2'],
      ['D2', 0, 'R1'],
    ]);
  });

  it('bounds the number by the roomiest place', () => {
    // 50 and 50 W need two drivers of 60 or 80 W, and could stand on one of 110.
    const loads = [50, 50].map((w, i) => load(`R${i + 1}`, w, null, [1, 9]));
    expect(allocated(given(loads, { driver: { usable_W: [60, 80] } })).lowerBoundCount).toBe(2);
    expect(allocated(given(loads, { driver: { usable_W: [60, 110] } })).lowerBoundCount).toBe(1);
  });

  it('fills a driver to the last of 30 × 0.85 × 0.8 = 20.4 W', () => {
    const { drivers } = allocated(
      given([load('R1', 10.2), load('R2', 10.2)], { driver: { usable_W: [30 * 0.85 * 0.8] } }),
    );
    expect(drivers).toHaveLength(1);
  });

  it('takes loads from anywhere where that saves a driver, and says so', () => {
    // 50 30 50 30 are two drivers of 80 W, side by side three.
    const loose = allocated(given([50, 50, 30, 30].map((w, i) => load(`R${i + 1}`, w))));
    expect(told(loose.drivers)).toEqual(['D1 80 W: D1.1 R1 R3 80 W', 'D2 80 W: D2.1 R2 R4 80 W']);
    expect(loose.method).toMatch(
      /^Runs from anywhere on the wall share a driver, since side by side they would take 3\. No allocation can/,
    );
  });

  it('finds the least number where first-fit decreasing does not, and says what was not shown where it gives up', () => {
    // Two of 32 W and four of 24 W are 160 W, two drivers of 80 W (32 and twice 24 each), but not side by side.
    const input = given([32, 32, 24, 24, 24, 24].map((w, i) => load(`R${i + 1}`, w)));
    const third = allocated(input);
    expect(told(third.drivers)).toEqual(['D1 80 W: D1.1 R1 R3 R4 80 W', 'D2 80 W: D2.1 R2 R5 R6 80 W']);
    expect([third.lowerBoundCount, third.sharing.isProved]).toEqual([2, true]);
    const outcome = exactly(input, { ...quickSharing, steps: 0 });
    const hasty = outcome.ok ? outcome.value : third;
    expect(hasty.drivers).toHaveLength(3);
    expect(hasty).toMatchObject({
      lowerBoundCount: 2,
      sharing: { isProved: false, gap: 0.5, leastCount: 2 },
    });
    expect(hasty.method).toMatch(/at least 2 drivers are needed, this uses 3, at most 50 % too many\.$/);
  });

  it('refuses a load larger than an output by name, whatever limits the output', () => {
    const loads = [load('R1', 20), load('R7', 60)];
    for (const change of [
      { driver: { usable_W: [50] } },
      { outputCeiling_W: 55 },
      { driver: { outputCount: 4, current_A: 2 } },
    ]) {
      const outcome = shareOut(given(loads, change));
      expect(outcome.ok ? [] : outcome.issues.map((i) => [i.code, i.place.run])).toEqual([
        ['load-larger-than-output', 'R7'],
      ]);
    }
    // 2 A at 24 V are 48 W.
    const current = shareOut(given(loads, { driver: { name: 'd', outputCount: 4, current_A: 2 } }));
    expect(current.ok ? [] : current.issues).toMatchObject([
      {
        quantities: { load_W: 60, output_W: 48 },
        sentence: expect.stringContaining('Run R7 needs 60.0 W, and one output of the d may carry 48.0 W'),
      },
    ]);
    expect(shareOut(given(loads, { driver: { usable_W: [60] } })).ok).toBe(true);
    // It is the roomiest place that decides, wherever it stands in the list.
    const twoPlaces = loads.map((one) => ({ ...one, placeDistances_m: [1, 1] }));
    for (const usable_W of [
      [50, 80],
      [80, 50],
    ]) {
      expect(shareOut(given(twoPlaces, { driver: { usable_W } })).ok).toBe(true);
    }
  });

  it('refuses places that are all too warm', () => {
    const outcome = shareOut(given([load('R1', 20)], { driver: { usable_W: [0] } }));
    expect(outcome.ok ? [] : outcome.issues).toMatchObject([
      { code: 'driver-place-too-warm', place: { field: 'drivers.places' }, quantities: { placeCount: 1 } },
    ]);
    // With nothing to be carried it is nobody's trouble.
    expect(shareOut(given([], { driver: { usable_W: [0] } })).ok).toBe(true);
  });

  it('has no drivers for no loads and throws on broken input', () => {
    expect(allocated(given([])).drivers).toEqual([]);
    for (const watts of [Number.NaN, -1, Number.POSITIVE_INFINITY]) {
      expect(() => shareOut(given([load('R1', watts)]))).toThrow(RangeError);
    }
    expect(() => shareOut(given([], { driver: { usable_W: [] } }))).toThrow(RangeError);
    expect(shareOut(given([load('R1', 0)])).ok).toBe(true);
    expect(() => shareOut(given([load('R1', 1, null, [])]))).toThrow(RangeError);
  });
});
