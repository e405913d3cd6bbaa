import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type BreakerCurve,
  countOnBreaker,
  mainsSide,
  noTripPeak_A,
  shareOnBreakers,
} from '../../src/drivers/mains.ts';

const driver = { input_A: 0.5, inrush_A: 50, inrush_us: 300, perBreakerB16: null, isPrinted: false };

describe('mains side', () => {
  it('keeps the watts: input is output and heat', () => {
    const side = mainsSide({ watts: 88, efficiency: 0.88, powerFactor: 0.95, mains_V: 230 });
    expect(side.input_W).toBeCloseTo(100, 12);
    expect(side.loss_W + 88).toBeCloseTo(side.input_W, 12);
    // 100 W over 230 V · 0.95.
    expect(side.input_A).toBeCloseTo(0.45767, 5);
    expect(side.loss_W).toBeCloseTo(12, 12);
  });
});

describe('drivers on a breaker', () => {
  it('counts the scarcer of steady current and inrush, by hand', () => {
    // B16: 67.88 A / 50 A = 1.36; 0.8 · 16 A / 0.5 A = 25.6.
    expect(countOnBreaker(driver, { curve: 'B', rating_A: 16 })).toMatchObject({
      mostDrivers: 1,
    });
    expect(countOnBreaker(driver, { curve: 'B', rating_A: 16 })).toMatchObject({
      ...{ bySteady: 25, byInrush: 1, printed: null, isPrinted: false, input_A: 0.5 },
      formula: expect.stringMatching(
        /^least of 0.8 × 16 A \/ 0.5 A = 25 and 3 × 16 A × √2 \/ 50 A = 1 \(inrush 300 µs wide/,
      ),
    });
    // C16 with 2 A of inrush: 113.1/2 = 56, steady 25 is scarcer.
    expect(countOnBreaker({ ...driver, inrush_A: 2 }, { curve: 'C', rating_A: 16 })).toMatchObject({
      mostDrivers: 25,
    });
  });

  it('takes the maker at its word on a B16, and scales to the others', () => {
    const printed = { ...driver, perBreakerB16: 12, isPrinted: true };
    const most = (curve: BreakerCurve, rating_A: number) =>
      countOnBreaker(printed, { curve, rating_A }).mostDrivers;
    expect(most('B', 16)).toBe(12);
    // 12 · 42.4/67.9 = 7.5; C16: 12 · 113.1/67.9 = 20, steady 25.
    expect(most('B', 10)).toBe(7);
    expect(most('C', 16)).toBe(20);
    expect(countOnBreaker(printed, { curve: 'B', rating_A: 16 }).formula).toBe(
      '12 on a B16, as the driver maker prints it',
    );
  });

  it('scales steady current from what is known to run: the printed number where it is more than the formula', () => {
    const on = (input_A: number, curve: BreakerCurve, rating_A: number) =>
      countOnBreaker({ ...driver, input_A, perBreakerB16: 12, isPrinted: true }, { curve, rating_A });
    // At 2 A the formula has 0.8 · 16 / 2 = 6.4, fewer than the 12 that run: C16 takes 12, not 20 by inrush.
    expect(on(2, 'C', 16)).toMatchObject({ byInrush: 20, bySteady: 12, mostDrivers: 12 });
    // At 0.5 A it has 25.6, on 10 A 16: D10 takes 16 of 12 · 141.4/67.9 = 25.
    expect(on(0.5, 'D', 10)).toMatchObject({ byInrush: 25, bySteady: 16, mostDrivers: 16 });
    expect(on(0.5, 'D', 10).formula).toContain('× 2.083 = 25, by steady current at most 16');
    // B20 is no B16, and C16 neither: 12 · 20/16 = 15.
    expect(on(0.5, 'B', 20)).toMatchObject({ byInrush: 15, bySteady: 32, mostDrivers: 15 });
    // As printed nothing is worked out beside it.
    expect(on(0.5, 'B', 16)).toMatchObject({ byInrush: null, bySteady: null, printed: 12, isPrinted: true });
  });

  it('rides through the lower edge of its band at the peak of the wave', () => {
    // 3, 5 and 10 times the rating, times 1.4142.
    expect(noTripPeak_A({ curve: 'B', rating_A: 10 })).toBeCloseTo(42.43, 2);
    expect(noTripPeak_A({ curve: 'C', rating_A: 10 })).toBeCloseTo(70.71, 2);
    expect(noTripPeak_A({ curve: 'D', rating_A: 10 })).toBeCloseTo(141.42, 2);
  });

  it('throws where a driver draws nothing', () => {
    for (const broken of [{ input_A: 0 }, { inrush_A: 0 }, { input_A: Number.NaN }]) {
      expect(() => countOnBreaker({ ...driver, ...broken }, { curve: 'B', rating_A: 16 })).toThrow(
        RangeError,
      );
    }
  });

  it("says of a typical number that it is not the maker's", () => {
    for (const curve of ['B', 'C'] as const) {
      const typical = { ...driver, perBreakerB16: 12, isPrinted: false };
      const { formula } = countOnBreaker(typical, { curve, rating_A: 16 });
      expect(formula).toContain(
        "12 on a B16, typical of drivers this size, in place of the maker's own number",
      );
      expect(formula).not.toContain('maker prints');
    }
  });

  it('says 0 when one driver is too much', () => {
    expect(countOnBreaker({ ...driver, inrush_A: 100 }, { curve: 'B', rating_A: 6 })).toMatchObject({
      mostDrivers: 0,
    });
  });

  it('never allows fewer on a larger breaker of the same kind', () => {
    fc.assert(
      fc.property(
        fc.record({
          input_A: fc.double({ min: 0.05, max: 3, noNaN: true }),
          inrush_A: fc.double({ min: 1, max: 100, noNaN: true }),
          inrush_us: fc.constant(200),
          perBreakerB16: fc.option(fc.integer({ min: 1, max: 100 }), { nil: null }),
          isPrinted: fc.boolean(),
        }),
        fc.constantFrom<BreakerCurve>('B', 'C', 'D'),
        (d, curve) => {
          const counts = [6, 10, 13, 16, 20].map((rating_A) => countOnBreaker(d, { curve, rating_A }));
          for (const [i, count] of counts.entries()) {
            expect(count.mostDrivers).toBeGreaterThanOrEqual(counts[i - 1]?.mostDrivers ?? 0);
          }
        },
      ),
      { seed: 44 },
    );
  });
});

describe('drivers breaker by breaker', () => {
  const some = (count: number, mostDrivers: number) =>
    Array.from({ length: count }, (_, i) => ({
      ...{ id: `D${i + 1}`, input_A: 0.1 * (i + 1), inrush_A: 40, mostDrivers },
    }));

  it('are shared out in their order, as even as may be', () => {
    // 13 at four each need four breakers: 4, 3, 3 and 3. The second has D5 to D7: 0.5 + 0.6 + 0.7 A, and 3 · 40 A.
    const loads = shareOnBreakers(some(13, 4));
    expect(loads.map(({ id, drivers }) => [id, drivers.length])).toEqual([
      ['M1', 4],
      ['M2', 3],
      ['M3', 3],
      ['M4', 3],
    ]);
    expect(loads[1]!.drivers).toEqual(['D5', 'D6', 'D7']);
    expect(loads[1]!.input_A).toBeCloseTo(1.8, 12);
    expect(loads[1]!.inrush_A).toBe(120);
    expect(loads[1]!.share).toBeCloseTo(0.75, 12);
  });

  it('fill one breaker to the last it holds, and are none where it holds none', () => {
    expect(shareOnBreakers(some(4, 4))).toHaveLength(1);
    expect(shareOnBreakers(some(5, 4)).map(({ drivers }) => drivers.length)).toEqual([3, 2]);
    expect(shareOnBreakers(some(3, 0))).toEqual([]);
    expect(shareOnBreakers([])).toEqual([]);
  });

  it('of several models take their part of a breaker each, filled one after the other where even numbers do not hold', () => {
    const row = [2, 2, 4, 4, 4, 4].map((most, i) => ({ ...some(6, most)[i]! }));
    // Halves and quarters: 1/2 + 1/2 fill the first, four quarters the second; three and three would be 1.25 and 0.75.
    expect(shareOnBreakers(row).map(({ drivers, share }) => [drivers.join(' '), share])).toEqual([
      ['D1 D2', 1],
      ['D3 D4 D5 D6', 1],
    ]);
    expect(shareOnBreakers([...row, { ...row[0]!, mostDrivers: 0 }])).toEqual([]);
  });

  it('are each on one breaker, on as few as hold them, and lose no ampere', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 20 }), (count, most) => {
        const loads = shareOnBreakers(some(count, most));
        const sizes = loads.map(({ drivers }) => drivers.length);
        expect(loads.flatMap(({ drivers }) => drivers)).toEqual(some(count, most).map(({ id }) => id));
        expect(loads).toHaveLength(Math.ceil(count / most));
        expect(Math.max(...sizes)).toBeLessThanOrEqual(most);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
        const sum = (numbers: number[]) => numbers.reduce((a, b) => a + b, 0);
        expect(sum(loads.map(({ input_A }) => input_A))).toBeCloseTo((0.1 * count * (count + 1)) / 2, 9);
      }),
    );
  });
});
