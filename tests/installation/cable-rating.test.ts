import { describe, expect, it } from 'vitest';
import { rateCable } from '../../src/installation/cable-rating.ts';
import type { CountedPath } from '../../src/installation/plan.ts';

const stretch = (togetherCount: number, air_degC: number): CountedPath => ({
  ...{ in: 'way', from: { x_mm: 0, y_mm: 0 }, to: { x_mm: 100, y_mm: 0 }, length_mm: 100 },
  ...{ togetherCount, air_degC },
});

const pvc = (area_mm2: number) => ({ area_mm2, limit_degC: 70 });
const alone = [stretch(1, 30)];

describe('what a flexible cord may carry by itself at 30 degC', () => {
  // DIN VDE 0298-4 table 11 (secondary): 3, 6, 10, 16, 20 and 25 A.
  it.each([
    ['0.5 mm2', 0.5, 3],
    ['1.5 mm2', 1.5, 16],
    ['4 mm2, the largest', 4, 25],
    ['6 mm2, beyond all sizes: the largest', 6, 25],
    ['AWG 18, 0.823 mm2: that of the next size below, 0.75', 0.823, 6],
    ['AWG 22, 0.3255 mm2, below all sizes: 3 A in proportion to its area', 0.3255, 1.953],
    ['a size that misses its name by rounding', 0.75 - 1e-12, 6],
  ])('%s', (_, area_mm2, capacity_A) => {
    expect(rateCable(pvc(area_mm2), alone).capacity_A).toBeCloseTo(capacity_A, 6);
  });
});

describe('what it may carry where it lies', () => {
  it('is decided by the stretch where bunch and air are worst together', () => {
    // 0.8 for two at 30 degC; sqrt(15/40) = 0.612 alone at 55 degC; 0.65*sqrt(30/40) = 0.563 for four at 40 degC.
    const stretches = [stretch(2, 30), stretch(1, 55), stretch(4, 40)];
    expect(rateCable(pvc(1.5), stretches).worstStretch).toBe(2);
    expect(rateCable(pvc(1.5), stretches).capacity_A).toBeCloseTo(16 * 0.65 * Math.sqrt(30 / 40), 9);
    expect(rateCable(pvc(1.5), stretches.slice(0, 2))).toMatchObject({
      ...{ worstStretch: 1, capacity_A: expect.closeTo(16 * Math.sqrt(15 / 40), 9) },
    });
  });

  it('is more of the same air where its insulation stands more: sqrt(50/60) of 90 degC at 40', () => {
    const capacity_A = rateCable({ area_mm2: 1.5, limit_degC: 90 }, [stretch(1, 40)]).capacity_A;
    expect(capacity_A).toBeCloseTo(16 * Math.sqrt(50 / 60), 9);
  });

  it('is nothing at the limit of its insulation and beyond', () => {
    for (const air_degC of [70, 85])
      expect(rateCable(pvc(1.5), [...alone, stretch(1, air_degC)])).toEqual({
        ...{ capacity_A: 0, worstStretch: 1, capacityNote: null },
        rating: { table_A: 0, ambientFactor: 0, groupingFactor: 1, sizeFactor: 1 },
      });
  });

  it('says where the bunch is beyond the table, which ends at 20', () => {
    expect(rateCable(pvc(1.5), [stretch(20, 40)]).capacityNote).toBeNull();
    // 0.38 x sqrt(20/28) = 0.321.
    expect(rateCable(pvc(1.5), [stretch(28, 40)]).capacityNote).toMatch(
      /to 20 circuits; for 28 .* factor of 0.32 /,
    );
  });

  it('is never more for a stretch more, a degree more or a circuit more', () => {
    const capacity = (...stretches: CountedPath[]) => rateCable(pvc(1), stretches).capacity_A;
    for (let count = 1; count < 25; count++)
      for (let air_degC = 20; air_degC < 70; air_degC += 5) {
        const here = capacity(stretch(count, air_degC));
        expect(capacity(stretch(count + 1, air_degC))).toBeLessThanOrEqual(here);
        expect(capacity(stretch(count, air_degC + 5))).toBeLessThan(here);
        expect(capacity(stretch(count, air_degC), stretch(3, 35))).toBeLessThanOrEqual(here);
      }
  });
});
