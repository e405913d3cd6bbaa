import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uprightLayerResistance_m2K_per_W } from '../../src/heat/air-layer.ts';
import type { SectionDescription } from '../../src/heat/section-description.ts';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { layerResistance_m2K_per_W, type WallLayer, wallResistance } from '../../src/heat/wall-layers.ts';
import { panel } from './sections.ts';

const solid = (thickness_m: number, conductivity_W_per_mK: number, share = 0, bridge = 0.13): WallLayer => ({
  ...{ thickness_m, conductivity_W_per_mK, emissivity: null },
  bridge: { share, conductivity_W_per_mK: bridge },
});

const anyLayer: fc.Arbitrary<WallLayer> = fc.record({
  thickness_m: fc.double({ min: 0.001, max: 0.3, noNaN: true }),
  conductivity_W_per_mK: fc.option(fc.double({ min: 0.01, max: 2, noNaN: true })),
  emissivity: fc.option(fc.double({ min: 0.02, max: 1, noNaN: true })),
  bridge: fc.option(
    fc.record({
      share: fc.double({ min: 0, max: 0.5, noNaN: true }),
      conductivity_W_per_mK: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
    }),
  ),
});
const anyWall = fc.array(anyLayer, { minLength: 1, maxLength: 6 });

describe('a wall of layers', () => {
  it('is a sum where nothing bridges it: 0.0125/0.21 + 0.1/0.5 + 0.13 + 0.04', () => {
    const layers = [solid(0.0125, 0.21), solid(0.1, 0.5)];
    const { resistance_m2K_per_W, upper_m2K_per_W, lower_m2K_per_W } = wallResistance(layers, 0.17);
    expect(resistance_m2K_per_W).toBeCloseTo(0.0595238 + 0.2 + 0.17, 6);
    expect(upper_m2K_per_W).toBe(lower_m2K_per_W);
  });

  it('lies between its limits, the lower below the upper, whichever way round it is met', () => {
    fc.assert(
      fc.property(anyWall, fc.double({ min: 0.04, max: 0.3, noNaN: true }), (layers, surfaces) => {
        const there = wallResistance(layers, surfaces);
        const back = wallResistance(layers.toReversed(), surfaces);
        expect(there.upper_m2K_per_W).toBeGreaterThanOrEqual(there.lower_m2K_per_W * (1 - 1e-12));
        expect(back.upper_m2K_per_W / there.upper_m2K_per_W).toBeCloseTo(1, 9);
        expect(back.lower_m2K_per_W / there.lower_m2K_per_W).toBeCloseTo(1, 9);
      }),
      { seed: 61, numRuns: 100 },
    );
  });

  it('crosses bridges of two layers: shares of a half each make four ways of a quarter', () => {
    // Each layer 1 or 0.1 m2K/W, no surfaces: ways of 2, 1.1, 1.1 and 0.2; lower limit two times 1/(0.5 + 5).
    const layer = solid(0.1, 0.1, 0.5, 1);
    const { upper_m2K_per_W, lower_m2K_per_W } = wallResistance([layer, layer], 0);
    expect(1 / upper_m2K_per_W).toBeCloseTo(0.25 * (1 / 2 + 2 / 1.1 + 1 / 0.2), 12);
    expect(lower_m2K_per_W).toBeCloseTo(2 / 5.5, 12);
    expect(layerResistance_m2K_per_W(layer)).toBeCloseTo(1 / 5.5, 12);
  });

  it('is not changed by a bridge as good as what it bridges', () => {
    const plain = wallResistance([solid(0.1, 0.13), solid(0.02, 0.2)], 0.17);
    const bridged = wallResistance([solid(0.1, 0.13, 0.3, 0.13), solid(0.02, 0.2)], 0.17);
    expect(bridged.resistance_m2K_per_W).toBeCloseTo(plain.resistance_m2K_per_W, 12);
  });
});

describe('an upright layer of air', () => {
  it('lies straight between the columns of the table: 20 mm half way from 0.17 to 0.18', () => {
    expect(uprightLayerResistance_m2K_per_W(0.02, null)).toBeCloseTo(0.175, 12);
    expect(uprightLayerResistance_m2K_per_W(0.0025, null)).toBeCloseTo(0.055, 12);
  });

  it('resists more with foil on one face: 30 mm, 0.05, 1/(1.25 + 5.149/(1/0.05 + 1/0.9 - 1)) = 0.664', () => {
    // 4*5.67e-8*283.15^3 = 5.149 W/(m2K); over 20.11 that is 0.256.
    expect(uprightLayerResistance_m2K_per_W(0.03, 0.05)).toBeCloseTo(1 / (1.25 + 5.1486 / 20.1111), 3);
  });

  it('has no law beyond 300 mm', () => {
    expect(() => uprightLayerResistance_m2K_per_W(0.31, null)).toThrow(RangeError);
    expect(() => uprightLayerResistance_m2K_per_W(0, null)).toThrow(RangeError);
  });
});

describe('a section before a wall', () => {
  /** Nothing varies across, and hardly any heat goes to the front: an adiabatic room face in all but name. */
  const even: SectionDescription = {
    ...panel,
    ...{ slotWidth_m: 0, battenWidth_m: 0 },
    strip: { ...panel.strip, width_m: panel.pitch_m },
  };
  const behind = (air_K: number, resistance_m2K_per_W = 0.6) => ({
    ...even,
    behind: { kind: 'room' as const, resistance_m2K_per_W, air_K },
  });
  const field = (section: SectionDescription, strip_W_per_m: number) => {
    const outcome = solveSectionField(section, { strip_W_per_m });
    if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
    return outcome.value;
  };

  it('gives it watts by resistances in series: (T strip - T air)/(tape + board + wall), a pitch wide', () => {
    for (const air_K of [268, 296, 318]) {
      const { temperatures, watts_W_per_m } = field(behind(air_K), 6);
      const series = 6e-4 + 0.009 / 0.13 + 0.6;
      const byHand = (0.15 * (temperatures.strip.mean_K - air_K)) / series;
      expect(watts_W_per_m.behind).toBeCloseTo(byHand, 3);
      const out = Object.values(watts_W_per_m).reduce((sum, w) => sum + w, 0);
      expect(out).toBeCloseTo(6, 2);
    }
  });

  it('carries heat from a warm wall to the room where the strip is dark, and none where both are alike', () => {
    const { watts_W_per_m, temperatures, balance } = field(behind(318), 0);
    expect(watts_W_per_m.behind).toBeLessThan(-1);
    expect(watts_W_per_m.front + watts_W_per_m.behind).toBeCloseTo(0, 2);
    expect(Math.abs(balance)).toBeLessThan(1e-3);
    expect(temperatures.strip.mean_K).toBeGreaterThan(298);
    expect(field(behind(296), 0).temperatures.strip.mean_K).toBeCloseTo(296, 6);
  });

  it('comes to insulation as the wall resists more', () => {
    const insulated = field({ ...even, behind: { kind: 'insulation' } }, 6).temperatures.strip.mean_K;
    const walls = [0.3, 1, 10, 1e4].map((r) => field(behind(296, r), 6).temperatures.strip.mean_K);
    expect(walls).toEqual(walls.toSorted((a, b) => a - b));
    expect(walls.at(-1)! - insulated).toBeCloseTo(0, 2);
    expect(walls[0]!).toBeLessThan(insulated - 5);
  });
});
