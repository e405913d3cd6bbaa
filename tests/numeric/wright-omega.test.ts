import { describe, expect, it } from 'vitest';
import { wrightOmega } from '../../src/numeric/wright-omega.ts';

describe('Wright omega', () => {
  it('has the known values omega(1) = 1 and omega(0) = 0.5671432904097838 (the omega constant)', () => {
    expect(wrightOmega(1)).toBeCloseTo(1, 15);
    expect(wrightOmega(0)).toBeCloseTo(0.5671432904097838, 15);
  });

  it('satisfies its own equation over the whole range', () => {
    for (let x = -700; x <= 5000; x += x < 80 ? 0.0137 : 41.3) {
      const w = wrightOmega(x);
      expect(Math.abs(w + Math.log(w) - x)).toBeLessThan(4e-15 * Math.max(1, Math.abs(x)));
    }
  });

  it('never falls, across its joins too', () => {
    for (const join of [-40, 0, 0.125, 1, 7.875, 63.875, 64]) {
      expect(wrightOmega(join + 1e-9)).toBeGreaterThan(wrightOmega(join - 1e-9));
    }
  });

  it('goes to nothing on the far left', () => {
    expect(wrightOmega(-1e6)).toBe(0);
  });
});
