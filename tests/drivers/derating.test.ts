import { describe, expect, it } from 'vitest';
import {
  ambientDerating,
  caseTemperature_degC,
  driverLifeRatio,
  usableWatts,
} from '../../src/drivers/derating.ts';
import { leastEfficiency } from '../../src/drivers/efficiency.ts';

const rating = { rated_W: 100, fullLoadAmbient_degC: 50, derating_per_K: 0.025, highestAmbient_degC: 70 };

describe('derating', () => {
  it.each([
    // degC, share: 2.5 % for each kelvin over 50, and 70 itself still counts.
    [50, 1],
    [54, 0.9],
    [60, 0.75],
    [70, 0.5],
  ])('at %d degC it is %d', (ambient_degC, share) => {
    expect(ambientDerating(rating, ambient_degC)).toBeCloseTo(share, 12);
  });

  it('and the reserve both come off the rated watts', () => {
    // 100 W · 0.75 at 60 degC · 0.8 left of the reserve.
    expect(usableWatts(rating, { ambient_degC: 60, reserve: 0.2 })).toBeCloseTo(60, 12);
    expect(usableWatts(rating, { ambient_degC: 50, reserve: 0 })).toBe(100);
  });

  it('is full below the full-load ambient, nothing above the highest, and never negative', () => {
    expect(ambientDerating(rating, -20)).toBe(1);
    expect(ambientDerating(rating, 70.01)).toBe(0);
    expect(ambientDerating({ ...rating, derating_per_K: 0.2 }, 69)).toBe(0);
  });

  it('never rises with the ambient or the reserve', () => {
    const steps = [20, 40, 50, 55, 60, 65, 70, 75];
    const watts = steps.map((ambient_degC) => usableWatts(rating, { ambient_degC, reserve: 0.2 }));
    expect(watts).toEqual(watts.toSorted((a, b) => b - a));
    expect(usableWatts(rating, { ambient_degC: 30, reserve: 0.3 })).toBeLessThan(watts[0]!);
  });

  it('puts the case at tc at full load and full-load ambient, and at ambient without load', () => {
    const driver = { ...rating, caseLimit_degC: 80 };
    expect(caseTemperature_degC(driver, { ambient_degC: 50, load: 1 })).toBe(80);
    expect(caseTemperature_degC(driver, { ambient_degC: 35, load: 0 })).toBe(35);
    // Half of the 30 K between tc 80 and 50, over an air of 41.
    expect(caseTemperature_degC(driver, { ambient_degC: 41, load: 0.5 })).toBe(56);
    // A mark below the full-load ambient is no cooling.
    expect(caseTemperature_degC({ ...driver, caseLimit_degC: 45 }, { ambient_degC: 41, load: 1 })).toBe(41);
  });

  it('throws on a broken precondition', () => {
    expect(() => ambientDerating(rating, Number.NaN)).toThrow(RangeError);
    for (const reserve of [1, -0.1, Number.NaN]) {
      expect(() => usableWatts(rating, { ambient_degC: 30, reserve })).toThrow(RangeError);
    }
    for (const rated_W of [0, -5]) expect(() => leastEfficiency(rated_W)).toThrow(RangeError);
  });
});

describe('a driver by the rule of ten kelvin', () => {
  it('lives half as long 10 K over its mark, and no more than twice as long however cool', () => {
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 75 })).toBe(1);
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 85 })).toBeCloseTo(0.5, 12);
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 27 })).toBe(2);
  });
});

describe('least efficiency on the market', () => {
  it('of a 100 W driver, by hand', () => {
    // 100^0.81 = 10^1.62 = 41.687; 41.687 / (1.09 · 41.687 + 2.1) = 41.687 / 47.539.
    expect(leastEfficiency(100)).toBeCloseTo(0.8769, 4);
    // 1 W to any power is 1: 1 / 3.19.
    expect(leastEfficiency(1)).toBeCloseTo(1 / 3.19, 12);
  });
});
