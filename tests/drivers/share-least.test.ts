import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DriverModel } from '../../src/drivers/loads.ts';
import { plainlyCostLeast } from '../../src/drivers/share-least.ts';
import { leastOfAll } from './every-sharing.ts';
import { given, load, model } from './loads-to-allocate.ts';

const onFirst = (count: number) => Array.from({ length: count }, () => ({ model: 0, place: 0 }));

describe('drivers that plainly cost least', () => {
  it('are those that watts or number ask for, and not one more', () => {
    const loads = Array.from({ length: 5 }, (_, i) => load(`R${i}`, 32.02));
    // Two of 32.02 W go onto a driver: five take three.
    expect(plainlyCostLeast(onFirst(3), given(loads))).toBe(true);
    expect(plainlyCostLeast(onFirst(4), given(loads))).toBe(false);
    expect(plainlyCostLeast(onFirst(2), given([load('R1', 80), load('R2', 0.1)]))).toBe(true);
    expect(plainlyCostLeast(onFirst(2), given([load('R1', 40), load('R2', 40)]))).toBe(false);
  });

  it('are told by the number of loads from some size on, where the smallest would go on three at a time', () => {
    // 2 x 26 + 7 x 26.7 = 238.9 W, three times 80 W; 26 + 26 + 26.7 W go onto one, so that nine would take three as well. But three
    // of 26.7 W are 80.1 W: seven, two to a driver, take four.
    const loads = [26, 26, ...Array(7).fill(26.7)].map((watts, i) => load(`R${i}`, watts));
    expect(plainlyCostLeast(onFirst(4), given(loads))).toBe(true);
    expect(plainlyCostLeast(onFirst(5), given(loads))).toBe(false);
  });

  it('cost no more than the least of every way, in random small cases', () => {
    let plain = 0;
    const some = fc.record({
      watts: fc.array(fc.double({ min: 1, max: 34, noNaN: true }), { minLength: 2, maxLength: 6 }),
      zones: fc.boolean(),
      models: fc.array(
        fc.record({
          rated_W: fc.constantFrom(45, 60, 75, 100),
          outputCount: fc.constantFrom(1, 2),
          outputsDimTogether: fc.boolean(),
          price_cents: fc.integer({ min: 5, max: 40 }),
        }),
        { minLength: 1, maxLength: 2 },
      ),
      isPriced: fc.boolean(),
      counts: fc.tuple(fc.nat(3), fc.nat(3)),
    });
    fc.assert(
      fc.property(some, ({ watts, zones, models, isPriced, counts }) => {
        const loads = watts.map((each, i) => load(`R${i}`, each, zones && i % 2 ? 'upper' : null));
        const input = given(loads, {
          hasRoom: () => true,
          models: models.map(
            ({ price_cents, rated_W, ...rest }): DriverModel => ({
              ...model({ ...rest, rated_W, price_cents: isPriced ? price_cents : null }),
              usable_W: [0.8 * rated_W],
            }),
          ),
        });
        const drivers = models.flatMap((_, m) =>
          Array.from({ length: counts[m]! }, () => ({ model: m, place: 0 })),
        );
        if (!plainlyCostLeast(drivers, input)) return;
        const best = leastOfAll(input);
        const first = drivers.reduce(
          (sum, { model: m }) => sum + (isPriced ? input.models[m]!.price_cents! : 1),
          0,
        );
        const second = drivers.reduce(
          (sum, { model: m }) => sum + (isPriced ? 1 : input.models[m]!.rated_W),
          0,
        );
        if (!best) return;
        plain++;
        expect(
          [first - best.cost[0], second - best.cost[1]].find((more) => Math.abs(more) > 1e-9) ?? 0,
        ).toBeLessThanOrEqual(0);
      }),
      { seed: 91, numRuns: 600 },
    );
    expect(plain).toBeGreaterThan(60);
  });
});
