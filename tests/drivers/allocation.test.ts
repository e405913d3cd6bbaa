import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AllocatedDriver,
  allocateLoads,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
} from '../../src/drivers/allocation.ts';

const load = (run: string, watts: number, zone: string | null = null, distances: number[] = [1]): Load => ({
  run,
  watts,
  zone,
  placeDistances_m: distances,
});

const given = (loads: readonly Load[], change: Partial<LoadsToAllocate> = {}): LoadsToAllocate => ({
  loads,
  driver: { name: '24 V 100 W driver', outputCount: 1, current_A: 4.17 },
  set_V: 24,
  usable_W: [80],
  outputCeiling_W: null,
  ...change,
});

function allocated(input: LoadsToAllocate) {
  const outcome = allocateLoads(input);
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
      driver: { name: 'driver', outputCount: s.outputCount, current_A: 4.17 },
      usable_W: s.usable_W,
      outputCeiling_W: s.ceiling_W,
    },
  );

/** Fewest bins by trying every way. */
function fewest(watts: readonly number[], size: number): number {
  const go = (rest: readonly number[], bins: readonly number[]): number => {
    const [first, ...others] = rest;
    if (first === undefined) return bins.length;
    const tries = bins.flatMap((b, i) =>
      b + first <= size + 1e-9 ? [go(others, bins.with(i, b + first))] : [],
    );
    return Math.min(go(others, [...bins, first]), ...tries);
  };
  return go(watts, []);
}

/** Each driver as "D1 80 W: D1.1 zone R1 R2 80 W". */
const told = (drivers: readonly AllocatedDriver[]): string[] =>
  drivers.map(({ id, watts, outputs }) => {
    const words = outputs.map((o) => [o.id, ...(o.zone ? [o.zone] : []), ...o.runs, o.watts, 'W'].join(' '));
    return `${id} ${watts} W: ${words.join(', ')}`;
  });

describe('what one output may carry', () => {
  it.each([
    // 80 W of the driver, 4.17 A · 24 V = 100.08 W of the output, no ceiling: the driver decides.
    [{}, 80],
    [{ usable_W: [150] }, 100.08],
    [{ usable_W: [150], set_V: 12 }, 50.04],
    [{ outputCeiling_W: 60 }, 60],
    [{ outputCeiling_W: 100 }, 80],
  ])('%j: the least of them, %d W', (change, limit_W) => {
    expect(outputLimit_W(given([], change), 0)).toBeCloseTo(limit_W, 9);
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

  it('uses at most 11/9 of the least number plus 6/9, and never less than the bound below the least', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 1, maxLength: 8 }), (watts) => {
        const { drivers, lowerBoundCount } = allocated(given(watts.map((w, i) => load(`R${i}`, w))));
        const least = fewest(watts, 80);
        expect(drivers.length).toBeLessThanOrEqual((11 * least + 6) / 9);
        expect(lowerBoundCount).toBeLessThanOrEqual(least);
      }),
      { seed: 42, numRuns: 150 },
    );
  });

  it('by hand: two zones on drivers of 80 W with two outputs of 60 W', () => {
    // Largest first. R1 50 opens D1.1 (upper). R2 40: the driver would carry 90, so D2.1 (lower). R3 30: D1 has just
    // 30 left, D1.1 only 10, so D1.2. R5 20: D1 is full, D2.1 then holds 60. R4 10 is of the upper zone: D2.2.
    const loads = [
      load('R1', 50, 'upper'),
      load('R2', 40, 'lower'),
      load('R3', 30, 'upper'),
      load('R4', 10, 'upper'),
      load('R5', 20, 'lower'),
    ];
    const driver = { name: 'driver', outputCount: 2, current_A: 2.5 };
    const { drivers, lowerBoundCount } = allocated(given(loads, { driver }));
    expect(told(drivers)).toEqual([
      'D1 80 W: D1.1 upper R1 50 W, D1.2 upper R3 30 W',
      'D2 70 W: D2.1 lower R2 R5 60 W, D2.2 upper R4 10 W',
    ]);
    expect(drivers.map(({ usable_W, outputs }) => [usable_W, ...outputs.map((o) => o.limit_W)])).toEqual([
      [80, 60, 60],
      [80, 60, 60],
    ]);
    expect(lowerBoundCount).toBe(2);
  });

  it('lists the runs of an output as they are listed, however large they are', () => {
    const { drivers } = allocated(given([load('R1', 20), load('R2', 30), load('R3', 25)]));
    expect(told(drivers)).toEqual(['D1 75 W: D1.1 R1 R2 R3 75 W']);
  });

  it('takes equal loads in their order', () => {
    const { drivers } = allocated(given(['R1', 'R2', 'R3'].map((run) => load(run, 40))));
    expect(told(drivers)).toEqual(['D1 80 W: D1.1 R1 R2 80 W', 'D2 40 W: D2.1 R3 40 W']);
  });

  it('takes equally near places as one meets them, and numbers the drivers so', () => {
    const loads = [load('R1', 30, null, [4, 4]), load('R2', 60, null, [1, 9])];
    const places = (placeOrder?: readonly number[]) =>
      allocated(given(loads, { usable_W: [80, 80], ...(placeOrder && { placeOrder }) })).drivers.map(
        ({ id, place, outputs }) => [id, place, ...outputs.flatMap((output) => output.runs)],
      );
    // As listed R1 would join R2 at the first place, but 90 W are too much for one driver.
    expect(places()).toEqual([
      ['D1', 0, 'R2'],
      ['D2', 0, 'R1'],
    ]);
    // Met the other way round, the second place comes first, for R1 and for the numbers.
    expect(places([1, 0])).toEqual([
      ['D1', 1, 'R1'],
      ['D2', 0, 'R2'],
    ]);
  });

  it('puts nothing where it is too warm, not even a load of nothing', () => {
    const { drivers } = allocated(given([load('R1', 0, null, [1, 9])], { usable_W: [0, 80] }));
    expect(drivers.map((driver) => [driver.place, driver.usable_W])).toEqual([[1, 80]]);
  });

  it('bounds the number by the roomiest place', () => {
    // 50 and 50 W need two drivers of 60 or 80 W, and could stand on one of 110.
    const loads = [50, 50].map((w, i) => load(`R${i + 1}`, w, null, [1, 9]));
    expect(allocated(given(loads, { usable_W: [60, 80] })).lowerBoundCount).toBe(2);
    expect(allocated(given(loads, { usable_W: [60, 110] })).lowerBoundCount).toBe(1);
  });

  it('fills a driver to the last of 30 × 0.85 × 0.8 = 20.4 W', () => {
    const { drivers } = allocated(
      given([load('R1', 10.2), load('R2', 10.2)], { usable_W: [30 * 0.85 * 0.8] }),
    );
    expect(drivers).toHaveLength(1);
  });

  it('gives every load to its nearest place, and to the next when the nearest cannot carry it', () => {
    const loads = [load('R1', 30, null, [1, 9]), load('R2', 30, null, [9, 1]), load('R3', 70, null, [1, 9])];
    const { drivers } = allocated(given(loads, { usable_W: [60, 80] }));
    const placeOf = (run: string) => drivers.find((d) => d.outputs.some((o) => o.runs.includes(run)))!.place;
    expect([placeOf('R1'), placeOf('R2'), placeOf('R3')]).toEqual([0, 1, 1]);
  });

  it('numbers drivers and outputs place by place', () => {
    const loads = [load('R1', 20, 'a'), load('R2', 20, 'b'), load('R3', 70, 'a')];
    const { drivers } = allocated(given(loads, { driver: { name: 'd', outputCount: 2, current_A: 4.17 } }));
    expect(drivers.map((d) => d.id)).toEqual(['D1', 'D2']);
    expect(drivers.flatMap((d) => d.outputs.map((o) => o.id))).toEqual(['D1.1', 'D2.1', 'D2.2']);
  });

  it('says that the number is least only when the bound shows it', () => {
    // Two of 32 W and four of 24 W are 160 W, two drivers of 80 W (32 and twice 24 each). Longest first puts
    // 32 with 32 and 24 with 24 and 24, and the last 24 into a third.
    const third = allocated(given([32, 32, 24, 24, 24, 24].map((w, i) => load(`R${i + 1}`, w))));
    expect(told(third.drivers)).toEqual([
      'D1 64 W: D1.1 R1 R2 64 W',
      'D2 72 W: D2.1 R3 R4 R5 72 W',
      'D3 24 W: D3.1 R6 24 W',
    ]);
    expect(third.lowerBoundCount).toBe(2);
    expect(third.method).toContain('at least 2 drivers are needed, this uses 3');
    expect(third.method).not.toContain('No allocation');
    const least = allocated(given([load('R1', 50), load('R2', 50)]));
    expect(least.method).toContain('No allocation can use fewer drivers');
  });

  it('refuses a load larger than an output by name, whatever limits the output', () => {
    const loads = [load('R1', 20), load('R7', 60)];
    for (const change of [
      { usable_W: [50] },
      { outputCeiling_W: 55 },
      { driver: { name: 'd', outputCount: 4, current_A: 2 } },
    ]) {
      const outcome = allocateLoads(given(loads, change));
      expect(outcome.ok ? [] : outcome.issues.map((i) => [i.code, i.place.run])).toEqual([
        ['load-larger-than-output', 'R7'],
      ]);
    }
    // 2 A at 24 V are 48 W.
    const current = allocateLoads(given(loads, { driver: { name: 'd', outputCount: 4, current_A: 2 } }));
    expect(current.ok ? [] : current.issues).toMatchObject([
      {
        quantities: { load_W: 60, output_W: 48 },
        sentence: expect.stringContaining('Run R7 needs 60.0 W, and one output of the d may carry 48.0 W'),
      },
    ]);
    expect(allocateLoads(given(loads, { usable_W: [60] })).ok).toBe(true);
    // It is the roomiest place that decides, wherever it stands in the list.
    const twoPlaces = loads.map((one) => ({ ...one, placeDistances_m: [1, 1] }));
    for (const usable_W of [
      [50, 80],
      [80, 50],
    ]) {
      expect(allocateLoads(given(twoPlaces, { usable_W })).ok).toBe(true);
    }
  });

  it('refuses places that are all too warm', () => {
    const outcome = allocateLoads(given([load('R1', 20)], { usable_W: [0] }));
    expect(outcome.ok ? [] : outcome.issues).toMatchObject([
      { code: 'driver-place-too-warm', place: { field: 'drivers.places' }, quantities: { placeCount: 1 } },
    ]);
    // With nothing to be carried it is nobody's trouble.
    expect(allocateLoads(given([], { usable_W: [0] })).ok).toBe(true);
  });

  it('has no drivers for no loads and throws on broken input', () => {
    expect(allocated(given([])).drivers).toEqual([]);
    for (const watts of [Number.NaN, -1, Number.POSITIVE_INFINITY]) {
      expect(() => allocateLoads(given([load('R1', watts)]))).toThrow(RangeError);
    }
    expect(() => allocateLoads(given([], { usable_W: [] }))).toThrow(RangeError);
    expect(allocateLoads(given([load('R1', 0)])).ok).toBe(true);
    expect(() => allocateLoads(given([load('R1', 1, null, [])]))).toThrow(RangeError);
  });
});
