import { describe, expect, it } from 'vitest';
import { endFade, rowHarmonics, rowMean_lx } from '../../reference/laws/lamp-row.ts';
import {
  harmonicAmplitude,
  lampExponent,
  michelsonContrast,
  relativeLight,
  shareBelow,
} from '../../src/light/lamp-row.ts';

interface Place {
  readonly exponent: number;
  readonly lampPitch_m: number;
  readonly lampHeight_m: number;
  readonly planeHeight_m: number;
  readonly distance_m: number;
}

/** Illuminance at a share of the pitch from a lamp, lamp after lamp, 1000 lm/m; far lamps by their integral. */
function lampByLamp(place: Place, pitchShare: number, from = -3000, to = 3000): number {
  const { exponent: m, lampPitch_m: d, distance_m: R } = place;
  const flux_lm = 1000 * d;
  const peak_cd = (flux_lm * (m + 1)) / (2 * Math.PI);
  let sum = 0;
  for (let n = from; n <= to; n++) {
    const r = Math.hypot(R, (n - pitchShare) * d);
    sum += (peak_cd * (place.lampHeight_m / r) ** m * (place.planeHeight_m / r)) / (r * r);
  }
  return sum;
}

const places: Place[] = [
  { exponent: 1, lampPitch_m: 1 / 60, lampHeight_m: 0.02, planeHeight_m: 0.02, distance_m: 0.02 },
  { exponent: 0.646, lampPitch_m: 1 / 60, lampHeight_m: 0.008, planeHeight_m: 0.008, distance_m: 0.008 },
  { exponent: 2, lampPitch_m: 1 / 30, lampHeight_m: 0.03, planeHeight_m: 0.03, distance_m: 0.037 },
  { exponent: 4.8188, lampPitch_m: 0.05, lampHeight_m: 0.02, planeHeight_m: 0.011, distance_m: 0.023 },
];

describe('a long row of lamps', () => {
  it.each(places)('is the sum of its lamps, m = $exponent', (place) => {
    const mean = rowMean_lx({ ...place, flux_lm_per_m: 1000 });
    const harmonics = rowHarmonics(place);
    for (const share of [0, 0.1, 0.25, 0.5]) {
      expect(lampByLamp(place, share) / (mean * relativeLight(harmonics, share))).toBeCloseTo(1, 5);
    }
    const [most, least] = [lampByLamp(place, 0), lampByLamp(place, 0.5)];
    expect(michelsonContrast(harmonics)).toBeCloseTo((most - least) / (most + least), 5);
  });

  it('is brightest at a lamp and darkest midway', () => {
    for (const place of places) {
      const harmonics = rowHarmonics(place);
      const along = Array.from({ length: 51 }, (_, i) => relativeLight(harmonics, i / 100));
      expect(Math.max(...along)).toBe(along[0]);
      expect(Math.min(...along)).toBe(along[50]);
    }
  });

  it('has the elementary amplitude at m = 1, approached from both sides', () => {
    for (const q of [0.01, 0.5, 3, 12]) {
      const exact = 2 * (1 + q) * Math.exp(-q);
      expect(harmonicAmplitude(1, q)).toBe(exact);
      expect(harmonicAmplitude(1 - 1e-9, q) / exact).toBeCloseTo(1, 7);
      expect(harmonicAmplitude(1 + 1e-9, q) / exact).toBeCloseTo(1, 7);
    }
  });

  it('fades at its end like lamps counted from there', () => {
    for (const place of places) {
      const full = rowMean_lx({ ...place, flux_lm_per_m: 1000 });
      const fine = { ...place, lampPitch_m: place.distance_m / 200 };
      for (const along of [-0.5, 0, 0.5, 1, 2]) {
        const half = lampByLamp(fine, along * 200 - 0.5, 0, 60_000);
        expect(half / full).toBeCloseTo(
          endFade(place.exponent, along * place.distance_m, place.distance_m),
          3,
        );
      }
    }
  });

  it('refuses half angles no lamp has', () => {
    expect(() => lampExponent(0)).toThrow(RangeError);
    expect(() => lampExponent(90)).toThrow(RangeError);
    expect(() => rowHarmonics({ exponent: 1, distance_m: 0, lampPitch_m: 1 })).toThrow(RangeError);
  });
});

describe('at the row itself', () => {
  it.each([0.16, 1, 4, 45.3])(
    'the amplitude of a harmonic goes to 2 for an exponent of %d, however near',
    (exponent) => {
      for (const q of [1e-3, 1e-5, 1e-8, 1e-14, 1e-300]) {
        expect(Math.abs(harmonicAmplitude(exponent, q) - 2)).toBeLessThan(q ** 1.1 + 1e-9);
      }
    },
  );
});

describe('the share of cos^power below an angle', () => {
  it.each([0.4, 1, 1.247, 2, 7.3])('agrees with midpoint quadrature, power %f', (power) => {
    const steps = 200_000;
    for (const end of [-1.2, -0.3, 0, 0.8, 1.5]) {
      let below = 0;
      let all = 0;
      for (let i = 0; i < steps; i++) {
        const angle = -Math.PI / 2 + ((i + 0.5) * Math.PI) / steps;
        const value = Math.cos(angle) ** power;
        all += value;
        if (angle < end) below += value;
      }
      expect(shareBelow(end, power)).toBeCloseTo(below / all, 4);
    }
  });
  it('is nothing below and everything above a right angle', () => {
    expect(shareBelow(-2, 1.3)).toBe(0);
    expect(shareBelow(2, 1.3)).toBe(1);
  });
});
