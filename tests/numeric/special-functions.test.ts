import { describe, expect, it } from 'vitest';
import { besselK } from '../../src/numeric/bessel-k.ts';
import { lnGamma } from '../../src/numeric/gamma.ts';
import { incompleteBeta } from '../../src/numeric/incomplete-beta.ts';

describe('lnGamma', () => {
  it('gives factorials and the gamma function of one half', () => {
    for (const [x, value] of [
      [1, 1],
      [2, 1],
      [5, 24],
      [11, 3_628_800],
      [0.5, Math.sqrt(Math.PI)],
      [2.5, 0.75 * Math.sqrt(Math.PI)],
    ] as const) {
      expect(Math.exp(lnGamma(x)) / value).toBeCloseTo(1, 11);
    }
  });
  it('refuses what is not positive', () => {
    expect(() => lnGamma(0)).toThrow(RangeError);
  });
});

describe('besselK', () => {
  it.each([1e-4, 0.1, 1, 5, 30, 200])('is elementary at half-integer order, x = %f', (x) => {
    const half = Math.sqrt(Math.PI / (2 * x)) * Math.exp(-x);
    expect(besselK(0.5, x) / half).toBeCloseTo(1, 11);
    expect(besselK(1.5, x) / (half * (1 + 1 / x))).toBeCloseTo(1, 11);
    expect(besselK(2.5, x) / (half * (1 + 3 / x + 3 / (x * x)))).toBeCloseTo(1, 11);
  });
  it('keeps the recurrence K(v+1) = K(v-1) + 2v/x K(v)', () => {
    for (const v of [0.7, 1.83, 4.2]) {
      for (const x of [0.02, 0.9, 12]) {
        const right = besselK(v - 1, x) + ((2 * v) / x) * besselK(v, x);
        expect(besselK(v + 1, x) / right).toBeCloseTo(1, 11);
      }
    }
  });
  it('gives the printed K0(1) and K1(1) (Abramowitz and Stegun, table 9.8, from memory)', () => {
    expect(besselK(0, 1)).toBeCloseTo(0.42102443824, 10);
    expect(besselK(1, 1)).toBeCloseTo(0.60190723019, 10);
  });
  it('refuses what is not positive', () => {
    expect(() => besselK(1, 0)).toThrow(RangeError);
  });
});

describe('incompleteBeta', () => {
  it('is elementary for whole parameters', () => {
    for (const x of [0, 0.01, 0.3, 0.77, 1]) {
      expect(incompleteBeta(x, 1, 3)).toBeCloseTo(1 - (1 - x) ** 3, 11);
      expect(incompleteBeta(x, 2, 2)).toBeCloseTo(x * x * (3 - 2 * x), 11);
    }
  });
  it('mirrors: I_x(a, b) = 1 - I_1-x(b, a)', () => {
    for (const x of [0.05, 0.5, 0.93]) {
      expect(incompleteBeta(x, 0.5, 1.7) + incompleteBeta(1 - x, 1.7, 0.5)).toBeCloseTo(1, 12);
    }
  });
  it('refuses x outside 0 to 1', () => {
    expect(() => incompleteBeta(1.1, 1, 1)).toThrow(RangeError);
  });
});
