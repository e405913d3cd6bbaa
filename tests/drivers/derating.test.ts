import { describe, expect, it } from 'vitest';
import {
  ambientDerating,
  caseTemperature_degC,
  driverLifeRatio,
  usableWatts,
} from '../../src/drivers/derating.ts';

const rating = { rated_W: 100, fullLoadAmbient_degC: 50, derating_per_K: 0.025, highestAmbient_degC: 70 };

describe('derating', () => {
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
  });

  it('throws on a broken precondition', () => {
    expect(() => ambientDerating(rating, Number.NaN)).toThrow(RangeError);
    expect(() => usableWatts(rating, { ambient_degC: 30, reserve: 1 })).toThrow(RangeError);
  });
});

describe('a driver by the rule of ten kelvin', () => {
  it('lives half as long 10 K over its mark, and no more than twice as long however cool', () => {
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 75 })).toBe(1);
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 85 })).toBeCloseTo(0.5, 12);
    expect(driverLifeRatio({ caseLimit_degC: 75, case_degC: 27 })).toBe(2);
  });
});
