import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocateLoads, type Load, type LoadsToAllocate } from '../../src/drivers/allocation.ts';

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
    const least = allocated(given([load('R1', 50), load('R2', 50)]));
    expect(least.method).toContain('No sharing-out can use fewer drivers');
    const open = allocated(given([40, 40, 30, 25, 25].map((w, i) => load(`R${i}`, w))));
    expect(open.method.includes('Not shown to be the least')).toBe(
      open.drivers.length > open.lowerBoundCount,
    );
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
  });

  it('refuses places that are all too warm', () => {
    const outcome = allocateLoads(given([load('R1', 20)], { usable_W: [0] }));
    expect(outcome.ok ? null : outcome.issues[0]!.code).toBe('driver-place-too-warm');
  });

  it('has no drivers for no loads and throws on broken input', () => {
    expect(allocated(given([])).drivers).toEqual([]);
    expect(() => allocateLoads(given([load('R1', Number.NaN)]))).toThrow(RangeError);
    expect(() => allocateLoads(given([load('R1', 1, null, [])]))).toThrow(RangeError);
  });
});
