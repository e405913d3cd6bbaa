import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stefanBoltzmann_W_per_m2K4 } from '../../src/heat/air.ts';
import type { SectionDescription } from '../../src/heat/section-description.ts';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { solveHandSection } from './hand-method.ts';
import { carrier, panel } from './sections.ts';

function hand(section: SectionDescription, strip_W_per_m: number) {
  const outcome = solveHandSection(section, { strip_W_per_m });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

function field(section: SectionDescription, strip_W_per_m: number) {
  const outcome = solveSectionField(section, { strip_W_per_m });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

/** Nothing varies across: the strip is as wide as the section, and there is no slot and no batten. */
const even: SectionDescription = {
  ...panel,
  slotWidth_m: 0,
  battenWidth_m: 0,
  strip: { ...panel.strip, width_m: panel.pitch_m },
};

describe('the hand method where nothing varies across', () => {
  it('agrees with a closed form: black faces, still air, insulation behind', () => {
    const section: SectionDescription = {
      ...even,
      front: { ...even.front, emissivity: 1 },
      strip: { ...even.strip, emissivity: 1 },
      cavityAir: { correlation: 'still', along: 'alike', factor: 1 },
    };
    const solved = hand(section, 15);
    const front = 296 + 100 * (0.13 + 0.018 / 0.13);
    expect(solved.frontInnerFace_K).toBeCloseTo(front, 6);
    const mean = (solved.strip_K + front) / 2;
    const k = (2.646_38e-3 * mean ** 1.5) / (mean + 245.4 * 10 ** (-12 / mean));
    const across =
      (k / 0.03) * (solved.strip_K - front) + stefanBoltzmann_W_per_m2K4 * (solved.strip_K ** 4 - front ** 4);
    expect(across).toBeCloseTo(100, 4);
  });

  it('agrees with the field to a thousandth of the rise over the coldest air', () => {
    const air = fc.constantFrom<SectionDescription['cavityAir']>(
      { correlation: 'elsherbiny', along: 'alike', factor: 1 },
      { correlation: 'iso6946', along: 'alike', factor: 1 },
      { correlation: 'still', along: 'still', factor: 1.1 },
    );
    const behind = fc.constantFrom<SectionDescription['behind']>(
      { kind: 'insulation' },
      { kind: 'room', resistance_m2K_per_W: 0.2, air_K: 290 },
    );
    const watts = fc.double({ min: 1, max: 30, noNaN: true });
    const depth = fc.double({ min: 0.01, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(air, behind, watts, depth, (cavityAir, behindIt, w, cavityDepth_m) => {
        const section = { ...even, cavityAir, behind: behindIt, cavityDepth_m };
        const [byHand, byField] = [hand(section, w), field(section, w)];
        const rise = byHand.strip_K - 290;
        expect(Math.abs(byField.temperatures.strip.mean_K - byHand.strip_K)).toBeLessThan(1e-3 * rise);
        expect(Math.abs(byField.temperatures.frontFaceMean_K - byHand.frontInnerFace_K)).toBeLessThan(
          1e-3 * rise,
        );
        expect(Math.abs(byField.watts_W_per_m.behind - byHand.toBehind_W_per_m)).toBeLessThan(1e-3 * w);
      }),
      { seed: 41, numRuns: 15 },
    );
  });
});

describe('the hand method where something varies across', () => {
  it('is too cool under a narrow strip without spreading, and near with it', () => {
    // The heat of a 10 mm strip has to spread through 9 mm of timber first; even temperatures miss that.
    const [byHand, byField] = [hand(panel, 7), field(panel, 7)];
    const withoutSpreading = byHand.strip_K - byHand.spreading_K;
    expect(withoutSpreading).toBeLessThan(byField.temperatures.strip.mean_K - 10);
    expect(Math.abs(byHand.strip_K - byField.temperatures.strip.mean_K)).toBeLessThan(10);
  });

  it('is too warm at the front, because it has no slot that lets heat out', () => {
    // By hand all 7 W/m cross the front; in the field a share leaves by jambs and slot.
    const [byHand, byField] = [hand(panel, 7), field(panel, 7)];
    expect(byHand.toRoom_W_per_m).toBeCloseTo(7, 6);
    expect(byField.watts_W_per_m.front).toBeLessThan(5.2);
    expect(byHand.frontInnerFace_K).toBeGreaterThan(byField.temperatures.frontFaceMean_K + 1);
  });

  it('keeps its balance, and more watts are never cooler', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), fc.constantFrom(null, carrier), (w, metal) => {
        const section = { ...panel, strip: { ...panel.strip, carrier: metal } };
        const [less, more] = [hand(section, w), hand(section, w + 1)];
        expect(Math.abs(more.balance)).toBeLessThan(1e-6);
        expect(more.strip_K).toBeGreaterThan(less.strip_K);
        expect(more.roomFace_K).toBeGreaterThan(less.roomFace_K);
      }),
      { seed: 42, numRuns: 40 },
    );
  });

  it('puts the heat of a strip on the front into the front', () => {
    const onFront = { ...panel, strip: { ...panel.strip, mount: 'front' as const, offset_m: 0.03 } };
    expect(hand(onFront, 7).backingFace_K).toBeLessThan(hand(panel, 7).backingFace_K);
  });

  it('is refused what cannot be built', () => {
    const outcome = solveHandSection({ ...panel, slotWidth_m: 0.2 }, { strip_W_per_m: 7 });
    expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toEqual(['slot-wider-than-pitch']);
    expect(() => solveHandSection({ ...panel, pitch_m: Number.NaN }, { strip_W_per_m: 7 })).toThrow(
      RangeError,
    );
  });
});
