import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SectionDescription } from '../../src/heat/section-description.ts';
import { solveFirstMesh, solveSectionField } from '../../src/heat/section-field.ts';
import { carrier, panel } from './sections.ts';

type Carrier = NonNullable<SectionDescription['strip']['carrier']>;

const on = (
  contact_m2K_per_W: number | undefined,
  change: Partial<SectionDescription['strip']> = {},
  flat: Partial<Carrier> = {},
): SectionDescription => ({
  ...panel,
  strip: {
    ...panel.strip,
    ...change,
    carrier: { ...carrier, ...flat, ...(contact_m2K_per_W === undefined ? {} : { contact_m2K_per_W }) },
  },
});

function field(section: SectionDescription, strip_W_per_m = 8) {
  const outcome = solveSectionField(section, { strip_W_per_m }, { lampRise_K: 0 });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

const peak_K = (section: SectionDescription): number => field(section).temperatures.strip.peak.temperature_K;

const mounts = [
  {},
  { mount: 'side', offset_m: 0.015 },
  { mount: 'front', offset_m: 0.03 },
  { offset_m: 0.012 },
] as const;

describe('a flat on a joint', () => {
  it('that is perfect is one with the timber, on every mount', () => {
    for (const mount of mounts) expect(peak_K(on(0, mount)) - peak_K(on(undefined, mount))).toBeCloseTo(0, 1);
  });

  it('warms as the joint gets poorer, and keeps its watts', () => {
    for (const mount of mounts) {
      const peaks = [0, 5e-4, 2e-3, 0.02, 0.05].map((contact) => {
        const { watts_W_per_m, temperatures } = field(on(contact, mount));
        const out = Object.values(watts_W_per_m).reduce((sum, watts) => sum + watts, 0);
        expect(Math.abs(out - 8)).toBeLessThan(8e-3);
        return temperatures.strip.peak.temperature_K;
      });
      expect(peaks).toEqual(peaks.toSorted((a, b) => a - b));
      expect(peaks.at(-1)! - peaks[0]!).toBeGreaterThan(1);
    }
  });

  it('adds its resistance in series where nothing varies across', () => {
    // A flat as wide as the pitch, insulation on the room's side of nothing: all watts that go behind pass the joint.
    const wide: Partial<SectionDescription> = {
      ...{ slotWidth_m: 0, battenWidth_m: 0 },
      behind: { kind: 'room', resistance_m2K_per_W: 0.1, air_K: 296 },
    };
    const whole = { width_m: panel.pitch_m };
    for (const contact of [5e-4, 5e-3, 0.02]) {
      const section = { ...on(contact, whole, { ...whole, contact_m2K_per_W: contact }), ...wide };
      const { temperatures, watts_W_per_m } = field(section, 15);
      const series = 6e-4 + 0.002 / 160 + contact + 0.009 / 0.13 + 0.1;
      const byHand = (0.15 * (temperatures.strip.mean_K - 296)) / series;
      expect(watts_W_per_m.behind).toBeCloseTo(byHand, 2);
    }
  });

  it('is the same on the mesh of another joint', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 0.04, noNaN: true }), (contact) => {
        const solve = (section: SectionDescription, like: Parameters<typeof solveFirstMesh>[3]) => {
          const outcome = solveFirstMesh(section, { strip_W_per_m: 8 }, 0, like);
          if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
          return outcome.value;
        };
        const like = solve(on(2e-3), null).level;
        expect(solve(on(contact), like).temperatures).toEqual(solve(on(contact), null).temperatures);
      }),
      { seed: 83, numRuns: 5 },
    );
  });

  it('that reaches from batten to batten ends half a millimetre before both', () => {
    const across_m = panel.pitch_m - panel.battenWidth_m;
    const wide = on(0.02, {}, { width_m: across_m });
    const narrower = on(0.02, {}, { width_m: across_m - 0.001 });
    expect(peak_K(wide) - peak_K(narrower)).toBeCloseTo(0, 2);
  });

  it('poorer than is worked out is no section', () => {
    expect(() => field(on(0.06))).toThrow(RangeError);
  });
});
