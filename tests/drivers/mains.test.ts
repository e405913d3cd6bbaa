import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BreakerCurve, countOnBreaker, mainsSide, noTripPeak_A } from '../../src/drivers/mains.ts';

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
    expect(countOnBreaker(driver, { curve: 'B', rating_A: 16 }, 5)).toMatchObject({
      name: 'B16',
      mostDrivers: 1,
      breakerCount: 5,
    });
    expect(countOnBreaker(driver, { curve: 'B', rating_A: 16 }, 5)).toMatchObject({
      ...{ bySteady: 25, byInrush: 1, printed: null, isPrinted: false, input_A: 0.5 },
      peak_A: expect.closeTo(67.88, 2),
      formula: expect.stringMatching(
        /^least of 0.8 × 16 A \/ 0.5 A = 25 and 3 × 16 A × √2 \/ 50 A = 1 \(inrush 300 µs wide/,
      ),
    });
    // C16 with 2 A of inrush: 113.1/2 = 56, steady 25 is scarcer.
    expect(countOnBreaker({ ...driver, inrush_A: 2 }, { curve: 'C', rating_A: 16 }, 26)).toMatchObject({
      mostDrivers: 25,
      breakerCount: 2,
    });
  });

  it('takes the maker at its word on a B16, and scales to the others', () => {
    const printed = { ...driver, perBreakerB16: 12, isPrinted: true };
    const most = (curve: BreakerCurve, rating_A: number) =>
      countOnBreaker(printed, { curve, rating_A }, 1).mostDrivers;
    expect(most('B', 16)).toBe(12);
    // 12 · 42.4/67.9 = 7.5; C16: 12 · 113.1/67.9 = 20, steady 25.
    expect(most('B', 10)).toBe(7);
    expect(most('C', 16)).toBe(20);
    expect(countOnBreaker(printed, { curve: 'B', rating_A: 16 }, 1).formula).toBe(
      '12 on a B16, as the driver maker prints it',
    );
  });

  it('scales steady current from what is known to run: the printed number where it is more than the formula', () => {
    const on = (input_A: number, curve: BreakerCurve, rating_A: number) =>
      countOnBreaker({ ...driver, input_A, perBreakerB16: 12, isPrinted: true }, { curve, rating_A }, 60);
    // At 2 A the formula has 0.8 · 16 / 2 = 6.4, fewer than the 12 that run: C16 takes 12, not 20 by inrush.
    expect(on(2, 'C', 16)).toMatchObject({ byInrush: 20, bySteady: 12, mostDrivers: 12, breakerCount: 5 });
    // At 0.5 A it has 25.6, on 10 A 16: D10 takes 16 of 12 · 141.4/67.9 = 25.
    expect(on(0.5, 'D', 10)).toMatchObject({ byInrush: 25, bySteady: 16, mostDrivers: 16, breakerCount: 4 });
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
      expect(() => countOnBreaker({ ...driver, ...broken }, { curve: 'B', rating_A: 16 }, 1)).toThrow(
        RangeError,
      );
    }
  });

  it("says of a typical number that it is not the maker's", () => {
    for (const curve of ['B', 'C'] as const) {
      const typical = { ...driver, perBreakerB16: 12, isPrinted: false };
      const { formula } = countOnBreaker(typical, { curve, rating_A: 16 }, 1);
      expect(formula).toContain(
        "12 on a B16, typical of drivers this size, in place of the maker's own number",
      );
      expect(formula).not.toContain('maker prints');
    }
  });

  it('says 0 when one driver is too much', () => {
    expect(countOnBreaker({ ...driver, inrush_A: 100 }, { curve: 'B', rating_A: 6 }, 3)).toMatchObject({
      mostDrivers: 0,
      breakerCount: 0,
    });
  });

  it('never allows fewer on a larger breaker of the same kind, and never too few breakers', () => {
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
        fc.integer({ min: 0, max: 60 }),
        (d, curve, driverCount) => {
          const counts = [6, 10, 13, 16, 20].map((rating_A) =>
            countOnBreaker(d, { curve, rating_A }, driverCount),
          );
          for (const [i, count] of counts.entries()) {
            expect(count.mostDrivers).toBeGreaterThanOrEqual(counts[i - 1]?.mostDrivers ?? 0);
            if (count.mostDrivers > 0)
              expect(count.breakerCount * count.mostDrivers).toBeGreaterThanOrEqual(driverCount);
          }
        },
      ),
      { seed: 44 },
    );
  });
});
