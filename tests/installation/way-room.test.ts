import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CableInWay, fullestSpot, outsideDiameter_mm } from '../../src/installation/way-room.ts';

describe('the outside diameter of a cable', () => {
  it('is the one it was given with for two cores, and half of it for one', () => {
    expect(outsideDiameter_mm(8.6, 2)).toBeCloseTo(8.6, 12);
    expect(outsideDiameter_mm(8.6, 1)).toBeCloseTo(4.3, 12);
  });

  // Like circles in the smallest circle round them, over the diameter of one: published packings.
  it.each([
    [3, 1 + 2 / Math.sqrt(3)],
    [4, 1 + Math.SQRT2],
    [5, 1 + 1 / Math.sin(Math.PI / 5)],
    [6, 3],
    [7, 3],
  ])('of %d cores is that of their bundle, to the hundredth part', (coreCount, overOne) => {
    const bundle_mm = (10 * overOne) / 2;
    expect(Math.abs(outsideDiameter_mm(10, coreCount) / bundle_mm - 1)).toBeLessThan(0.01);
  });

  it('never shrinks with more cores, and is not known beyond twelve', () => {
    const all = Array.from({ length: 12 }, (_, i) => outsideDiameter_mm(10, i + 1));
    expect(all.toSorted((a, b) => a - b)).toEqual(all);
    for (const wrong of [0, 13, 2.5]) expect(() => outsideDiameter_mm(10, wrong)).toThrow(RangeError);
  });
});

const stretch = (from_mm: number, to_mm: number, y_mm = 50, where: 'way' | 'panel' = 'way') => ({
  in: where,
  from: { x_mm: from_mm, y_mm },
  to: { x_mm: to_mm, y_mm },
});
const cable = (id: string, outer_mm: number, ...stretches: CableInWay['stretches']): CableInWay => ({
  ...{ id, outer_mm, stretches },
});

describe('the fullest spot of the ways', () => {
  it('is nowhere where nothing lies in a way', () => {
    expect(fullestSpot([])).toBeNull();
    expect(fullestSpot([cable('C01', 8, stretch(0, 100, 50, 'panel'))])).toBeNull();
  });

  // From a hole at 400 mm: two go left, to 200 and to 100; three go right. One of 10 mm counts for more than two of 6 mm.
  it('is where most cross-section passes, whichever way the cables run', () => {
    const left = [cable('C01', 6, stretch(400, 200)), cable('C02', 6, stretch(400, 100))];
    const right = [500, 600, 700].map((to_mm, i) => cable(`C1${i}`, 6, stretch(400, to_mm)));
    expect(fullestSpot([...left, ...right])).toEqual({
      ...{ x_mm: 400, y_mm: 50, area_mm2: expect.closeTo(3 * 28.2743, 3) },
      cables: ['C10', 'C11', 'C12'],
    });
    const thick = fullestSpot([cable('C03', 10, stretch(400, 300)), ...left, ...right.slice(0, 2)])!;
    // 78.54 + 2 · 28.27 mm².
    expect(thick).toMatchObject({ x_mm: 300, cables: ['C03', 'C01', 'C02'] });
    expect(thick.area_mm2).toBeCloseTo(135.0885, 3);
  });

  it('takes cables that only touch end to end, or lie in another way, one by one', () => {
    const two = [cable('C01', 6, stretch(0, 100)), cable('C02', 6, stretch(100, 200))];
    expect(fullestSpot(two)!.cables).toEqual(['C01']);
    expect(fullestSpot([two[0]!, cable('C03', 7, stretch(0, 100, 900))])).toMatchObject({
      ...{ y_mm: 900, cables: ['C03'] },
    });
  });

  it('counts a ring that comes back twice', () => {
    expect(fullestSpot([cable('T1', 6, stretch(0, 100), stretch(100, 50))])!.cables).toEqual(['T1', 'T1']);
  });

  it('is beaten at no half millimetre of any way', () => {
    const end = fc.integer({ min: 0, max: 40 });
    const one = fc.record({ from: end, to: end, outer: fc.constantFrom(4, 6, 9), y: fc.constantFrom(0, 9) });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 8 }), (all) => {
        const cables = all
          .filter(({ from, to }) => from !== to)
          .map(({ from, to, outer, y }, i) => cable(`C${i}`, outer, stretch(from, to, y)));
        const best = fullestSpot(cables)?.area_mm2 ?? 0;
        const at = (x_mm: number, y_mm: number): number =>
          cables
            .filter(({ stretches: [only] }) => {
              const ends = [only!.from.x_mm, only!.to.x_mm];
              return only!.from.y_mm === y_mm && Math.min(...ends) < x_mm && Math.max(...ends) > x_mm;
            })
            .reduce((sum, { outer_mm }) => sum + Math.PI * (outer_mm / 2) ** 2, 0);
        const spots = Array.from({ length: 40 }, (_, i) => [at(i + 0.5, 0), at(i + 0.5, 9)]).flat();
        expect(best).toBeCloseTo(Math.max(0, ...spots), 9);
      }),
    );
  });
});
