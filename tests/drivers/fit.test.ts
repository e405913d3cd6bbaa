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

  it.each([
    // Each place is exactly one case and its air in one of the six ways it can lie; across, up and deep.
    [place(250, 100, 51), [210, 60, 31]],
    [place(100, 250, 51), [60, 210, 31]],
    [place(250, 71, 80), [210, 31, 60]],
    [place(71, 250, 80), [31, 210, 60]],
    [place(100, 71, 230), [60, 31, 210]],
    [place(71, 100, 230), [31, 60, 210]],
  ])('%j takes one lying as %j, and none where any side is 1 mm less', (room, sides) => {
    const [spot, ...more] = fitCases(room, driverCase, 1).spots;
    expect(more).toEqual([]);
    expect([spot!.across_mm, spot!.up_mm, spot!.deep_mm]).toEqual(sides);
    for (const side of ['across_mm', 'up_mm', 'deep_mm'] as const) {
      expect(fitCases({ ...room, [side]: room[side] - 1 }, driverCase, 1).mostCount).toBe(0);
    }
  });

  it('lays them out row by row from the lower left, the clearance before, between and after', () => {
    // 20 + 210 + 20 = 250 to the second column, 20 + 60 + 20 = 100 to the second row.
    const { spots } = fitCases(place(480, 180, 51), driverCase, 3);
    expect(spots.map(({ x_mm, y_mm }) => [x_mm, y_mm])).toEqual([
      [20, 20],
      [250, 20],
      [20, 100],
    ]);
    expect(spots[2]).toMatchObject({ across_mm: 210, up_mm: 60, deep_mm: 31 });
  });

  it('lays out as many as there is room for where more are asked for, and stands them up where that holds more', () => {
    // Flat 1 across and 1 up; on edge, 31 high and 60 deep: floor((140 - 20) / 51) = 2 up.
    const room = place(250, 140, 80);
    expect(fitCases(room, driverCase, 1).spots.map((spot) => spot.up_mm)).toEqual([60]);
    const three = fitCases(room, driverCase, 3);
    expect(three).toMatchObject({ fits: false, mostCount: 2 });
    expect(three.spots.map(({ x_mm, y_mm, up_mm }) => [x_mm, y_mm, up_mm])).toEqual([
      [20, 20, 31],
      [20, 71, 31],
    ]);
    expect(three.note).toBe(
      'Room for 2 in equal rows, 3 are needed: 1 across and 2 up, each 210 × 31 × 60 mm (across × up × deep) with 20 mm of air round each. Enlarge the place or share the drivers out over more places.',
    );
    expect(fitCases(room, driverCase, 2)).toMatchObject({
      ...{ fits: true, mostCount: 2 },
      note: 'Room for 2 in equal rows: 1 across and 2 up, each 210 × 31 × 60 mm (across × up × deep) with 20 mm of air round each.',
    });
  });

  it('takes the first of the ways that hold equally many, lying along the place', () => {
    // 250 by 250 and flat: one across and two up, or two across and one up.
    expect(fitCases(place(250, 250, 51), driverCase, 3).note).toContain(
      '1 across and 2 up, each 210 × 60 × 31 mm',
    );
  });

  it('fits none into a place that is smaller than the clearance alone, and says so', () => {
    expect(fitCases(place(10, 10, 10), driverCase, 1)).toMatchObject({
      fits: false,
      mostCount: 0,
      spots: [],
    });
    expect(fitCases(place(10, 10, 10), driverCase, 0)).toMatchObject({ fits: true, spots: [] });
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
