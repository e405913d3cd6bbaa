import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitCases } from '../../src/drivers/fit.ts';

const place = (across_mm: number, up_mm: number, deep_mm: number) => ({ across_mm, up_mm, deep_mm });
const driverCase = { length_mm: 210, width_mm: 60, height_mm: 31, clearance_mm: 20 };

describe('cases in a place', () => {
  it.each([
    // One flat case needs 250 × 100 × 51 exactly.
    [place(250, 100, 51), 1],
    [place(250, 180, 51), 2],
    [place(480, 180, 51), 4],
    [place(249, 99, 51), 0],
    [place(250, 100, 50.9), 0],
    // Standing on its edge: 31 up, 60 deep.
    [place(250, 71, 80), 1],
  ])('%j holds %d', (room, most) => {
    expect(fitCases(room, driverCase, 1).mostCount).toBe(most);
  });

  it('says which way, how many, and what to change', () => {
    expect(fitCases(place(250, 180, 51), driverCase, 2).note).toContain('1 across and 2 up');
    // Deep enough to stand on end, but one lies flat all the same.
    expect(fitCases(place(250, 180, 400), driverCase, 1).note).toContain('210 × 60 × 31 mm');
    expect(fitCases(place(250, 180, 51), driverCase, 3)).toMatchObject({ fits: false });
    expect(fitCases(place(250, 180, 51), driverCase, 3).note).toContain('share the drivers out');
    expect(fitCases(place(100, 60, 31), driverCase, 1).note).toContain('Not even one');
  });

  it('grows with the place, shrinks with the clearance, and does not care how the place is turned', () => {
    const side = fc.integer({ min: 20, max: 900 });
    fc.assert(
      fc.property(side, side, side, (a, b, c) => {
        const count = fitCases(place(a, b, c), driverCase, 0).mostCount;
        expect(fitCases(place(b, a, c), driverCase, 0).mostCount).toBe(count);
        expect(fitCases(place(a + 50, b, c), driverCase, 0).mostCount).toBeGreaterThanOrEqual(count);
        expect(
          fitCases(place(a, b, c), { ...driverCase, clearance_mm: 25 }, 0).mostCount,
        ).toBeLessThanOrEqual(count);
        // What is packed is never more than the room: one layer, clearances shared.
        expect(count * 210 * 60 * 31).toBeLessThanOrEqual(a * b * c);
      }),
      { seed: 45 },
    );
  });
});
