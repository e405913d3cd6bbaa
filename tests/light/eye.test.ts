import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { luminanceAtRating, unifiedGlareRating } from '../../reference/laws/glare.ts';
import { brightnessBand, brightnessBands } from '../../src/answer/brightness.ts';
import {
  contrastSensitivity,
  cyclesPerDegree,
  sensitivityWithFloor,
} from '../../src/light/contrast-sensitivity.ts';
import { dotVerdict } from '../../src/light/dots.ts';
import { fallVerdict, neighbourVerdict } from '../../src/light/evenness.ts';

const viewing = { luminance_cd_per_m2: 100, field_deg: 10 };

describe('contrast sensitivity', () => {
  it('levels off towards slow patterns instead of vanishing', () => {
    expect(contrastSensitivity(0.01, viewing)).toBeLessThan(10);
    expect(sensitivityWithFloor(0.01, viewing)).toBeCloseTo(655.3 / 32, 1);
    expect(sensitivityWithFloor(4, viewing)).toBe(contrastSensitivity(4, viewing));
    expect(sensitivityWithFloor(50, viewing)).toBe(contrastSensitivity(50, viewing));
  });
  it('grows with luminance', () => {
    for (const u of [0.5, 2, 8, 20]) {
      const dim = contrastSensitivity(u, { ...viewing, luminance_cd_per_m2: 10 });
      expect(contrastSensitivity(u, viewing)).toBeGreaterThan(dim);
    }
  });
  it('turns distance into frequency almost in proportion', () => {
    const near = cyclesPerDegree({ pitch_m: 0.01, distance_m: 1 });
    expect(cyclesPerDegree({ pitch_m: 0.01, distance_m: 3 }) / near).toBeCloseTo(3, 3);
    expect(() => cyclesPerDegree({ pitch_m: 0, distance_m: 1 })).toThrow(RangeError);
  });
});

describe('dots', () => {
  const view = { lampPitch_m: 1 / 60, viewingDistance_m: 2, luminance_cd_per_m2: 200 };
  it('go from hidden to plain as the contrast grows', () => {
    const words = [0.0005, 0.003, 0.01, 0.3].map((michelson) => dotVerdict({ ...view, michelson }).word);
    expect(words).toEqual(['hidden', 'faint', 'visible', 'plain']);
  });
  it('are at threshold where the visibility is one', () => {
    const { threshold } = dotVerdict({ ...view, michelson: 0 });
    expect(dotVerdict({ ...view, michelson: threshold }).visibility).toBeCloseTo(1, 12);
  });
});

describe('evenness', () => {
  it('takes the published limits as the last value of each band', () => {
    expect([0.1, 0.11, 0.2, 0.21, 0.3, 0.31].map((fall) => fallVerdict(fall).word)).toEqual([
      ...['unseen', 'fine', 'fine', 'noticed', 'noticed', 'plain'],
    ]);
    expect([0.07, 0.08, 0.17, 0.18, 0.25, 0.27].map((step) => neighbourVerdict(step).word)).toEqual([
      ...['unseen', 'fine', 'fine', 'noticed', 'noticed', 'plain'],
    ]);
  });
  it('refuses a fall that is not a share', () => {
    expect(() => fallVerdict(1.1)).toThrow(RangeError);
    expect(() => neighbourVerdict(-0.1)).toThrow(RangeError);
  });
});

describe('brightness bands', () => {
  it('join without a gap and hold their own beginning', () => {
    for (const [i, band] of brightnessBands.entries()) {
      const next = brightnessBands[i + 1];
      if (next) expect(next.from_cd_per_m2).toBe(band.to_cd_per_m2);
      if (band.usual_cd_per_m2 !== null) expect(brightnessBand(band.usual_cd_per_m2)).toBe(band);
    }
  });
  it('name a luminance and refuse nonsense', () => {
    expect(brightnessBand(4073).word).toBe('glaring');
    expect(brightnessBand(0).word).toBe('barely-lit');
    expect(() => brightnessBand(-1)).toThrow(RangeError);
  });
});

describe('glare rating', () => {
  const slot = { area_m2: 0.06, distance_m: 2, positionIndex: 1 };
  it('turns round', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 8, max: 30, noNaN: true }),
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        (rating, area_m2) => {
          const source = { ...slot, area_m2 };
          const luminance_cd_per_m2 = luminanceAtRating(rating, source, 20);
          expect(unifiedGlareRating([{ ...source, luminance_cd_per_m2 }], 20)).toBeCloseTo(rating, 9);
        },
      ),
      { seed: 550 },
    );
  });
  it('has no step where small sources begin, and adds up slots', () => {
    const at = (area_m2: number): number =>
      unifiedGlareRating([{ ...slot, area_m2, luminance_cd_per_m2: 2000 }], 20);
    expect(at(0.005 - 1e-12)).toBeCloseTo(at(0.005), 6);
    const one = { ...slot, luminance_cd_per_m2: 1000 };
    const two = unifiedGlareRating([one, one], 20);
    expect(two - unifiedGlareRating([one], 20)).toBeCloseTo(8 * Math.log10(2), 9);
  });
});
