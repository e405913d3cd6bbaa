import { describe, expect, it } from 'vitest';
import {
  ambientFactor,
  beyondGroupingTable,
  groupingFactor,
} from '../../src/installation/capacity-factors.ts';

describe('the factor for ambient', () => {
  it('leaves the heat that may still be given off: a quarter of the rise is half the current', () => {
    expect(ambientFactor(30, 70)).toBe(1);
    expect(ambientFactor(60, 70)).toBeCloseTo(0.5, 12);
    expect(ambientFactor(75, 90)).toBeCloseTo(0.5, 12);
  });

  it('is nothing at the limit and above', () => {
    expect([70, 71, 200].map((air_degC) => ambientFactor(air_degC, 70))).toEqual([0, 0, 0]);
  });
});

describe('the factor for circuits bunched together', () => {
  it('never grows with the count, and counts between take the next greater', () => {
    for (let count = 1; count < 100; count++)
      expect(groupingFactor(count + 1)).toBeLessThanOrEqual(groupingFactor(count));
    expect([10, 11, 13, 17].map(groupingFactor)).toEqual([0.45, 0.45, 0.41, 0.38]);
  });

  it('beyond 20 keeps the heat of the bundle as a whole: n f^2 = 20 x 0.38^2 = 2.888', () => {
    for (const count of [21, 30, 45, 80, 200])
      expect(count * groupingFactor(count) ** 2).toBeCloseTo(2.888, 9);
    expect(groupingFactor(80)).toBeCloseTo(0.19, 12);
  });

  it('beyond 20 falls faster than the table itself does from 9 to 20, and joins it without a step up', () => {
    for (const count of [12, 16, 20])
      expect(groupingFactor(count)).toBeGreaterThan(0.5 * Math.sqrt(9 / count));
    expect(0.38 - groupingFactor(21)).toBeLessThan(0.01);
  });

  it('stays above the rule for cables of different sizes in one bundle, 1/sqrt(n) (BS 7671 appendix 4; secondary)', () => {
    for (const count of [2, 5, 9, 20, 30, 60])
      expect(groupingFactor(count)).toBeGreaterThan(1 / Math.sqrt(count));
  });

  it('says in a sentence where the table has ended', () => {
    expect(beyondGroupingTable(20)).toBeNull();
    expect(beyondGroupingTable(21)).toContain('tabled to 20 circuits; for 21 bunched the factor of 0.37');
  });

  it('is not known for less than one circuit', () => {
    for (const count of [0, -1, Number.NaN]) expect(() => groupingFactor(count)).toThrow(RangeError);
  });
});
