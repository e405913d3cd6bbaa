import { describe, expect, it } from 'vitest';
import { lowRiskModulation, noEffectModulation } from '../../reference/laws/flicker.ts';
import { reflectanceFromLightness } from '../../reference/laws/lightness.ts';
import { hexColour, linearRgb, planckianChromaticity } from '../../src/light/colour.ts';
import { finishes, sheetFinishes } from '../../src/light/finishes.ts';
import { fullModulationFrom_Hz, lowestDimLevel } from '../../src/light/flicker.ts';

describe('colour on the screen', () => {
  it('grows bluer with temperature, without a step between the pieces of the fit', () => {
    const blue = (t: number): number => linearRgb(planckianChromaticity(t))[2];
    for (const t of [2222, 4000]) expect(blue(t + 0.5)).toBeCloseTo(blue(t - 0.5), 2);
    expect(blue(4000)).toBeGreaterThan(blue(2700));
  });
  it('writes two digits for every channel and cuts what is beyond', () => {
    expect(hexColour([0, 0.001, 2])).toBe('#0003ff');
  });
  it('refuses temperatures the fit does not reach', () => {
    expect(() => planckianChromaticity(1500)).toThrow(RangeError);
  });
});

describe('flicker', () => {
  it('of full pulses is allowed above two frequencies, where its curves have all but reached it', () => {
    const { lowRisk, noEffect } = fullModulationFrom_Hz;
    // 0.08 * 1249 % = 99.92 %, 0.0333 * 2999 % = 99.87 %
    expect(lowRiskModulation(lowRisk - 1)).toBeCloseTo(0.9992, 4);
    expect(lowRiskModulation(lowRisk + 1)).toBe(1);
    expect(noEffectModulation(noEffect - 1)).toBeCloseTo(0.9987, 4);
    expect(noEffectModulation(noEffect + 1)).toBe(1);
  });
  it('is allowed more the faster it is, and less without effect than at low risk', () => {
    let last = 0;
    for (const frequency_Hz of [10, 50, 89, 90, 300, 1000, 1250, 2000, 5000]) {
      const lowRisk = lowRiskModulation(frequency_Hz);
      expect(lowRisk).toBeGreaterThanOrEqual(last);
      expect(noEffectModulation(frequency_Hz)).toBeLessThanOrEqual(lowRisk);
      last = lowRisk;
    }
  });
  it('stands beside the lowest level of a pulsed dimmer', () => {
    expect(lowestDimLevel({ frequency_Hz: 1000, shortestPulse_s: 5e-6, stepCount: 4096 })).toBeCloseTo(
      0.005,
      12,
    );
    expect(lowestDimLevel({ frequency_Hz: 1000, shortestPulse_s: 0, stepCount: 256 })).toBe(1 / 256);
    expect(() => lowestDimLevel({ frequency_Hz: 0, shortestPulse_s: 0, stepCount: 1 })).toThrow(RangeError);
  });
});

describe('finishes', () => {
  it('lie within their own range and have their own names', () => {
    for (const { reflectance, from, to } of finishes) {
      expect(from).toBeLessThanOrEqual(reflectance);
      expect(reflectance).toBeLessThanOrEqual(to);
    }
    expect(new Set(finishes.map((f) => f.id)).size).toBe(finishes.length);
  });
  it('of sheets send out no more light than they get', () => {
    for (const sheet of sheetFinishes) expect(sheet.transmittance + sheet.reflectance).toBeLessThanOrEqual(1);
  });
  it('from a colour reading join at lightness 8', () => {
    expect(reflectanceFromLightness(8.0001)).toBeCloseTo(reflectanceFromLightness(8), 6);
    expect(reflectanceFromLightness(100)).toBe(1);
    expect(() => reflectanceFromLightness(101)).toThrow(RangeError);
  });
});
