import { describe, expect, it } from 'vitest';
import {
  halfTone_cd_per_m2,
  hexColour,
  linearRgb,
  planckianChromaticity,
  screenColour,
  screenTone,
} from '../../src/light/colour.ts';
import { finishes, reflectanceFromLightness, sheetFinishes } from '../../src/light/finishes.ts';
import { flickerVerdict, lowestDimLevel } from '../../src/light/flicker.ts';

describe('colour on the screen', () => {
  it('goes from black to the full colour and is never brighter for less light', () => {
    expect(screenColour({ temperature_K: 3000, luminance_cd_per_m2: 0 })).toBe('#000000');
    expect(screenTone(halfTone_cd_per_m2)).toBe(0.5);
    const tones = [1, 10, 30, 100, 300, 1000, 4000].map(screenTone);
    expect([...tones].sort((a, b) => a - b)).toEqual(tones);
    expect(Math.max(...tones)).toBeLessThan(1);
  });
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
    expect(() => screenTone(-1)).toThrow(RangeError);
  });
});

describe('flicker', () => {
  it('of full pulses is judged by frequency', () => {
    const judged = [100, 1249, 1251, 2999, 3001].map((frequency_Hz) => {
      return flickerVerdict({ frequency_Hz, modulation: 1 }).word;
    });
    expect(judged).toEqual([
      'above-low-risk',
      'above-low-risk',
      'low-risk',
      'low-risk',
      'no-observable-effect',
    ]);
  });
  it('is allowed more the faster it is, and less without effect than at low risk', () => {
    let last = 0;
    for (const frequency_Hz of [10, 50, 89, 90, 300, 1000, 1250, 2000, 5000]) {
      const verdict = flickerVerdict({ frequency_Hz, modulation: 1 });
      expect(verdict.lowRiskModulation).toBeGreaterThanOrEqual(last);
      expect(verdict.noEffectModulation).toBeLessThanOrEqual(verdict.lowRiskModulation);
      last = verdict.lowRiskModulation;
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
