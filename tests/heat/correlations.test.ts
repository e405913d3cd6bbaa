import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plateSpreading } from '../../reference/laws/spreading.ts';
import { airAt } from '../../src/heat/air.ts';
import { uprightLayerConvection_W_per_m2K } from '../../src/heat/air-layer.ts';
import { cavityConvection } from '../../src/heat/cavity-air.ts';
import {
  elSherbiny,
  type GapCorrelation,
  gapNusselt,
  gapRemarks,
  iso15099,
} from '../../src/heat/correlations.ts';
import { panel } from './sections.ts';

const correlations: readonly GapCorrelation[] = ['elsherbiny', 'iso15099', 'macgregor-emery', 'en673'];
const gap = fc.record({
  rayleigh: fc.double({ min: 1, max: 6, noNaN: true }).map((power) => 10 ** power),
  prandtl: fc.constant(0.71),
  aspect: fc.double({ min: 10, max: 110, noNaN: true }),
});

describe('a gap correlation', () => {
  it('is never below conduction, and never falls as the drive rises but for a step of half a per cent', () => {
    fc.assert(
      fc.property(gap, fc.constantFrom(...correlations), (g, name) => {
        expect(gapNusselt(name, g)).toBeGreaterThanOrEqual(1);
        const more = gapNusselt(name, { ...g, rayleigh: 1.02 * g.rayleigh });
        expect(more).toBeGreaterThan(0.994 * gapNusselt(name, g));
      }),
      { seed: 91, numRuns: 300 },
    );
  });

  it('has no step that would leave a section without a balance', () => {
    for (const rayleigh of [5e4, 5.4e4, 5.415e4]) {
      const at = { rayleigh, prandtl: 0.71, aspect: 60 };
      expect(iso15099({ ...at, rayleigh: rayleigh * (1 + 1e-9) })).toBeCloseTo(iso15099(at), 6);
    }
  });

  it('differs from that of another author by no more than authors differ', () => {
    fc.assert(
      fc.property(gap, (g) => {
        expect(Math.abs(iso15099(g) / elSherbiny(g) - 1)).toBeLessThan(0.15);
      }),
      { seed: 92, numRuns: 200 },
    );
  });

  it('says when it is used outside its range', () => {
    expect(gapRemarks('elsherbiny', { rayleigh: 1e4, prandtl: 0.71, aspect: 60 })).toEqual([]);
    expect(gapRemarks('macgregor-emery', { rayleigh: 1e3, prandtl: 0.71, aspect: 60 }).length).toBe(2);
  });
});

describe('the air of a cavity', () => {
  it('does not care which face is the warm one', () => {
    const [a, b] = [
      cavityConvection(panel, { backing_K: 310, front_K: 300 }),
      cavityConvection(panel, { backing_K: 300, front_K: 310 }),
    ];
    expect(a).toEqual(b);
  });

  it('conducts along as across, or as still air, and scales with its factor', () => {
    const faces = { backing_K: 320, front_K: 300 };
    const alike = cavityConvection(panel, faces);
    expect(alike.along_W_per_mK).toBe(alike.across_W_per_mK);
    const still = cavityConvection({ ...panel, cavityAir: { ...panel.cavityAir, along: 'still' } }, faces);
    expect(still.along_W_per_mK).toBe(airAt(310).conductivity_W_per_mK);
    const more = cavityConvection({ ...panel, cavityAir: { ...panel.cavityAir, factor: 1.15 } }, faces);
    expect(more.across_W_per_mK).toBeCloseTo(1.15 * alike.across_W_per_mK, 12);
  });

  it('is continuous where the air layer of ISO 6946 changes its formula, to two parts in a thousand', () => {
    const at = (difference_K: number) =>
      uprightLayerConvection_W_per_m2K({ thickness_m: 0.04, difference_K });
    expect(Math.abs(at(5.000001) / at(5) - 1)).toBeLessThan(2e-3);
  });

  it('is refused where air has no properties', () => {
    expect(() => airAt(100)).toThrow(RangeError);
    expect(() => airAt(300, 1)).toThrow(RangeError);
  });
});

describe('spreading in a plate', () => {
  const plate = {
    heat_W_per_m: 7,
    halfStrip_m: 0.005,
    halfWidth_m: 0.075,
    thickness_m: 0.009,
    conductivity_W_per_mK: 0.13,
    film_W_per_m2K: 7,
  };

  it('vanishes where the strip is as wide as the plate, and where the plate conducts without end', () => {
    expect(plateSpreading({ ...plate, halfStrip_m: 0.075 }).peak_K).toBeCloseTo(0, 9);
    expect(plateSpreading({ ...plate, conductivity_W_per_mK: 1e7 }).peak_K).toBeCloseTo(0, 3);
  });

  it('has a peak above its mean, and meets the fin equation in small steps', () => {
    const { mean_K, peak_K } = plateSpreading(plate);
    expect(peak_K).toBeGreaterThan(mean_K);
    // Finite differences on half the plate, 1500 cells of 0.05 mm, Thomas' elimination.
    const count = 1500;
    const step = plate.halfWidth_m / count;
    const along = (plate.conductivity_W_per_mK * plate.thickness_m) / step;
    const loss = plate.film_W_per_m2K * step;
    const upper = new Float64Array(count);
    const value = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const links = (i > 0 ? along : 0) + (i < count - 1 ? along : 0);
      const heat = i < 100 ? 3.5 / 100 : 0;
      const pivot = links + loss - (i > 0 ? along * upper[i - 1]! : 0);
      upper[i] = i < count - 1 ? along / pivot : 0;
      value[i] = (heat + (i > 0 ? along * value[i - 1]! : 0)) / pivot;
    }
    for (let i = count - 2; i >= 0; i--) value[i] = value[i]! + upper[i]! * value[i + 1]!;
    const even = 7 / (2 * plate.halfWidth_m * plate.film_W_per_m2K);
    const under = value.slice(0, 100).reduce((sum, v) => sum + v, 0) / 100;
    expect(mean_K).toBeCloseTo(under - even, 2);
    expect(peak_K).toBeCloseTo(value[0]! - even, 2);
  });

  it('is refused a strip wider than its plate', () => {
    expect(() => plateSpreading({ ...plate, halfStrip_m: 0.08 })).toThrow(RangeError);
  });
});
