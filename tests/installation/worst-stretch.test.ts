import { describe, expect, it } from 'vitest';
import { worstStretch } from '../../src/installation/worst-stretch.ts';

const head = { where: 'head of the panel', air_degC: 30, togetherCount: 12 };
const slot = { where: 'down slot S07', air_degC: 62, togetherCount: 1 };
const riser = { where: 'riser at the cupboard', air_degC: 40, togetherCount: 9 };

describe('the worst stretch of a way', () => {
  it('is the one with the least product: a hot slot alone, not the crowded head', () => {
    // PVC: head 1 x 0.45; riser 0.866 x 0.50 = 0.433; slot sqrt(8/40) = 0.447.
    expect(worstStretch([head, slot, riser], 70)).toEqual({
      stretch: riser,
      factor: expect.closeTo(0.433, 3),
    });
    // One degree more in the slot: sqrt(7/40) = 0.418.
    const hotter = { ...slot, air_degC: 63 };
    expect(worstStretch([head, hotter, riser], 70)).toEqual({
      stretch: hotter,
      factor: expect.closeTo(0.418, 3),
    });
  });

  it('changes with what the insulation stands: at 90 degC the crowded head is worst', () => {
    // Slot sqrt(28/60) = 0.683, riser sqrt(50/60) x 0.5 = 0.456, head 0.45.
    expect(worstStretch([head, slot, riser], 90)).toEqual({ stretch: head, factor: 0.45 });
  });

  it('does not mix the air of one stretch with the bunch of another', () => {
    // Mixed it would be sqrt(8/40) x 0.45 = 0.201.
    expect(worstStretch([head, slot], 70).factor).toBeGreaterThan(0.44);
  });

  it('is never better for one stretch more, nor in another order', () => {
    const all = [head, slot, riser];
    for (const limit_degC of [70, 90]) {
      const { factor } = worstStretch(all, limit_degC);
      expect(worstStretch(all.toReversed(), limit_degC).factor).toBe(factor);
      for (const one of all) expect(worstStretch([one], limit_degC).factor).toBeGreaterThanOrEqual(factor);
    }
  });

  it('leaves nothing where the air is at the limit', () => {
    expect(worstStretch([head, { ...slot, air_degC: 75 }], 70).factor).toBe(0);
  });

  it('asks for a stretch and its temperature', () => {
    expect(() => worstStretch([], 70)).toThrow(RangeError);
    expect(() => worstStretch([{ ...head, air_degC: Number.NaN }], 70)).toThrow(RangeError);
  });
});
