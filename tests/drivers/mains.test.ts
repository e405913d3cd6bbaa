import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BreakerCurve, countOnBreaker, mainsSide } from '../../src/drivers/mains.ts';

const driver = { input_A: 0.5, inrush_A: 50, inrush_us: 300, perBreakerB16: null, isPrinted: false };

describe('mains side', () => {
  it('keeps the watts: input is output and heat', () => {
    const side = mainsSide({ watts: 88, efficiency: 0.88, powerFactor: 0.95, mains_V: 230 });
    expect(side.input_W).toBeCloseTo(100, 12);
    expect(side.loss_W + 88).toBeCloseTo(side.input_W, 12);
    expect(side.input_A * 230 * 0.95).toBeCloseTo(side.input_W, 12);
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
