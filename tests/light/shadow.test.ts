import { describe, expect, it } from 'vitest';
import { blockedShare, darkLength_m } from '../../src/light/shadow.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

/** Light on a point of the slot plane beside a body, and the share of it that the body stops, ray by ray from points of the row. */
function countedShare(of: { depth: number; width: number; reach: number; beside: number; exponent: number }) {
  const { depth, width, reach, beside, exponent } = of;
  const random = seededRandom(11);
  const at = width / 2 + beside;
  let [all, stopped] = [0, 0];
  const count = 60_000;
  for (let i = 0; i < count; i++) {
    // Lamps anywhere along the row, a hundred depths to either side, more often near.
    const angle = (random() - 0.5) * Math.PI * 0.995;
    const lamp = at + depth * Math.tan(angle);
    const weight = Math.cos(angle) ** (exponent + 1);
    all += weight;
    // Follow the ray up: is it inside the body anywhere?
    const inside = Array.from({ length: 60 }, (_, k) => depth - reach + (reach * (k + 0.5)) / 60).some(
      (y) => {
        const z = lamp + ((at - lamp) * y) / depth;
        return Math.abs(z) < width / 2;
      },
    );
    if (inside) stopped += weight;
  }
  return stopped / all;
}

describe('the shade of what hangs in a slot', () => {
  it.each([
    { depth: 22, width: 12, reach: 8, beside: 3, exponent: 1 },
    { depth: 22, width: 12, reach: 8, beside: 20, exponent: 1 },
    { depth: 40, width: 30, reach: 20, beside: 10, exponent: 1 },
    { depth: 40, width: 30, reach: 20, beside: 10, exponent: 4.8 },
    { depth: 15, width: 4, reach: 14, beside: 6, exponent: 0.65 },
  ])('is what rays counted one by one find: %o', (of) => {
    const law = blockedShare({ beside_m: of.beside, reach_m: of.reach, exponent: of.exponent });
    expect(Math.abs(countedShare(of) - law)).toBeLessThan(0.008);
  });

  it('is one half at the body itself, nothing far away, and a closed form for bare lamps', () => {
    const at = (beside_m: number): number => blockedShare({ beside_m, reach_m: 0.01, exponent: 1 });
    expect(at(0)).toBeCloseTo(0.5, 12);
    expect(at(10)).toBeLessThan(1e-6);
    // s = p: a = 45 degrees, 1/2 - (0.785398 + 0.5)/3.141593 = 0.090845.
    expect(at(0.01)).toBeCloseTo(0.090845, 6);
  });

  it('darkens by a fifth as far as the law says: half a millimetre in each millimetre of reach', () => {
    // 1/2 - (a + sin a cos a)/pi = 0.2 where a + sin a cos a = 0.942478: a = 0.49358 (0.49358 + 0.47377*0.88065 - ...),
    // by hand: a = 0.4927 gives 0.4927 + 0.41690 = 0.9096, a = 0.5130 gives 0.5130 + 0.42767 = 0.9407, a = 0.5142 gives 0.9425;
    // tan(0.5142) = 0.5651. A body 12 wide and 10 deep darkens 12 + 2*5.65 = 23.3.
    const dark = darkLength_m({ width_m: 0.012, reach_m: 0.01, directShare: 1, exponent: 1, missing: 0.2 });
    expect(dark).toBeCloseTo(0.0233, 4);
  });

  it('darkens no more than it covers where it does not come behind the slot or little light is straight', () => {
    const body = { width_m: 0.012, reach_m: 0.01, directShare: 1, exponent: 1, missing: 0.2 };
    expect(darkLength_m({ ...body, reach_m: 0 })).toBe(0.012);
    expect(darkLength_m({ ...body, directShare: 0.39 })).toBe(0.012);
    expect(darkLength_m({ ...body, directShare: 0.6 })).toBeGreaterThan(0.012);
  });

  it('refuses a body without reach', () => {
    expect(() => blockedShare({ beside_m: 0, reach_m: 0, exponent: 1 })).toThrow(RangeError);
  });
});
