import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Profile, SectionDescription } from '../../src/heat/section-description.ts';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { geometryOf } from '../../src/heat/section-geometry.ts';
import { anySection, carrier, panel, sheet } from './sections.ts';

function field(section: SectionDescription, strip_W_per_m = 8) {
  const loads = { strip_W_per_m, facesAbsorbed_W_per_m: { backing: 0.4, front: 0.3 } };
  const outcome = solveSectionField(section, loads, { lampRise_K: 0, confirm: false });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

const peak_K = (section: SectionDescription): number => field(section).temperatures.strip.peak.temperature_K;

const profile: Profile = {
  ...{ base_m: 0.0015, wall_m: 0.0015, inside_m: 0.012, wallHeight_m: 0.008, conductivity_W_per_mK: 200 },
  ...{ insideEmissivity: 0.8, outsideEmissivity: 0.8, contact_m2K_per_W: 2e-3 },
  cover: { thickness_m: 0.0015, conductivity_W_per_mK: 0.2, emissivity: 0.9 },
};

const kinds: Readonly<Record<string, SectionDescription>> = {
  plain: panel,
  'without battens': { ...panel, battenWidth_m: 0 },
  'with a sheet and a flat': { ...panel, sheet, strip: { ...panel.strip, carrier } },
  'with a profile': { ...panel, strip: { ...panel.strip, profile } },
  'with a profile and no battens': { ...panel, battenWidth_m: 0, strip: { ...panel.strip, profile } },
  'on the side': { ...panel, strip: { ...panel.strip, mount: 'side', offset_m: 0.015 } },
  'on the front': { ...panel, strip: { ...panel.strip, mount: 'front', offset_m: -0.03 } },
};

describe('a slot by the edge of its panel', () => {
  it('half a pitch from it is a slot between two others', () => {
    for (const [name, section] of Object.entries(kinds)) {
      const there = { ...section, edge_m: section.pitch_m / 2 };
      expect(Math.abs(peak_K(there) - peak_K(section)), name).toBeLessThan(0.1);
    }
  });

  it('is warmer than one between two others, and cooler than one between two edges', () => {
    for (const [name, section] of Object.entries(kinds))
      for (const edge_m of [0.06, 0.045]) {
        // Both sides as near as the edge; the last batten is half of one between two slots.
        const between = peak_K({ ...section, pitch_m: 2 * edge_m });
        const edge = peak_K({ ...section, edge_m });
        expect(edge, `${name}, ${edge_m} m`).toBeGreaterThan(peak_K(section));
        expect(edge, `${name}, ${edge_m} m`).toBeLessThan(between);
      }
  });

  it('keeps its watts, and is the warmer the nearer it is', () => {
    for (const [name, section] of Object.entries(kinds)) {
      const peaks = [0.07, 0.05, 0.035, 0.02].map((edge_m) => {
        const solved = field({ ...section, edge_m });
        const out = Object.values(solved.watts_W_per_m).reduce((sum, watts) => sum + watts, 0);
        expect(Math.abs(out - 8.7), name).toBeLessThan(9e-3);
        return solved.temperatures.strip.peak.temperature_K;
      });
      expect(peaks, name).toEqual(peaks.toSorted((a, b) => a - b));
    }
  });

  it('has its edge on the side of the strip: to the left is the mirror image of to the right', () => {
    const at = (offset_m: number): SectionDescription => ({
      ...panel,
      edge_m: 0.04,
      strip: { ...panel.strip, offset_m },
    });
    const [left, right] = [geometryOf(at(-0.01)), geometryOf(at(0.01))];
    expect([left.x0, left.x1]).toEqual([-right.x1, -right.x0]);
    expect(right.x1).toBeCloseTo(0.04, 9);
    expect(peak_K(at(-0.01))).toBeCloseTo(peak_K(at(0.01)), 3);
  });

  it('makes room for what would not fit: slot, flat and profile are never cut off', () => {
    fc.assert(
      fc.property(anySection, fc.double({ min: 0.001, max: 0.04, noNaN: true }), (section, edge_m) => {
        if (edge_m > section.pitch_m / 2) return;
        const { cavity, slot, carrier: flat } = geometryOf({ ...section, edge_m });
        expect(cavity.x1).toBeGreaterThanOrEqual(Math.max(slot?.x1 ?? 0, flat?.x1 ?? 0) - 1e-9);
        const solved = field({ ...section, edge_m });
        expect(Math.abs(solved.balance)).toBeLessThan(1e-3);
      }),
      { seed: 91, numRuns: 12 },
    );
  });
});
