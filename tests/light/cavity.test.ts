import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cavityLight, slotLightOf } from '../../src/light/cavity.ts';
import type { LitSection, StripMount } from '../../src/light/section.ts';
import { solveSection } from '../../src/light/solved-section.ts';
import { lightOf, mirrored, opal, plainSection, thickFront } from './sections.ts';

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Sections a maker could build, every mount, with and without battens, sheet and a thick front. */
const sections: fc.Arbitrary<LitSection> = fc
  .record({
    width_m: share(0.04, 0.2),
    depth_m: share(0.008, 0.08),
    slotShare: share(0.1, 0.6),
    slotPlace: share(-0.95, 0.95),
    stripPlace: share(-0.9, 0.9),
    mount: fc.constantFrom<StripMount>('back', 'front', 'side'),
    endless: fc.boolean(),
    halfAngle_deg: share(35, 75),
    reflectance: fc.record({ back: share(0.02, 0.95), sides: share(0, 0.95), front: share(0, 0.95) }),
    sheet: fc.option(fc.record({ transmittance: share(0.2, 0.6), reflectance: share(0, 0.4) })),
    reveal: fc.record({ depth_m: fc.constantFrom(0, 0.003, 0.018), reflectance: share(0, 0.9) }),
  })
  .map((raw) => {
    const slotWidth_m = raw.slotShare * raw.width_m;
    const slotOffset_m = (raw.slotPlace * (raw.width_m - slotWidth_m)) / 2;
    const across_m = raw.mount === 'side' ? raw.depth_m : raw.width_m;
    return {
      ...raw,
      ...{ slotWidth_m, slotOffset_m, endless: raw.endless && raw.mount !== 'side' },
      strip: {
        ...{ mount: raw.mount, offset_m: (raw.stripPlace * across_m) / 2, halfAngle_deg: raw.halfAngle_deg },
        ...{ flux_lm_per_m: 800, lampPitch_m: 1 / 120 },
      },
    };
  })
  .filter((section) => cavityOk(section));

function cavityOk({ strip, slotOffset_m, slotWidth_m }: LitSection): boolean {
  return strip.mount !== 'front' || Math.abs(strip.offset_m - slotOffset_m) > slotWidth_m / 2;
}

/** The mean light only: what these properties are about. */
function meanOf(section: LitSection): { out: number; seen: number; plane: number; total: number } {
  const light = lightOf(section);
  const { back, sides, front, reveal, sheet } = light.absorbed_lm_per_m;
  const total = light.out_lm_per_m + back + sides + front + reveal + sheet;
  return { out: light.outShare, seen: light.seen_cd_per_m2, plane: light.slotPlane.mean_lx, total };
}

const settings = { seed: 550, numRuns: 40 };

describe('light of a section', () => {
  it('sends out and absorbs all that goes in', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const light = lightOf(section);
        expect(light.balanceResidual).toBeLessThan(1e-6);
        expect(meanOf(section).total / section.strip.flux_lm_per_m).toBeCloseTo(1, 6);
        expect(light.outShare).toBeGreaterThanOrEqual(0);
      }),
      settings,
    );
  });

  it('never grows darker where a face grows whiter', () => {
    fc.assert(
      fc.property(
        sections,
        fc.constantFrom('back', 'sides', 'front', 'reveal'),
        share(0, 1),
        (section, face, by) => {
          const whiter = (old: number): number => old + by * (0.97 - old);
          const changed: LitSection =
            face === 'reveal'
              ? { ...section, reveal: { ...section.reveal, reflectance: whiter(section.reveal.reflectance) } }
              : {
                  ...section,
                  reflectance: { ...section.reflectance, [face]: whiter(section.reflectance[face]) },
                };
          const [before, after] = [meanOf(section), meanOf(changed)];
          for (const key of ['out', 'seen', 'plane'] as const) {
            expect(after[key]).toBeGreaterThanOrEqual(before[key] * (1 - 1e-9));
          }
        },
      ),
      settings,
    );
  });

  it('is the same in a mirror', () => {
    fc.assert(
      fc.property(
        sections.filter((section) => section.strip.mount !== 'side'),
        (section) => {
          const [one, other] = [lightOf(section), lightOf(mirrored(section))];
          expect(Math.abs(other.outShare - one.outShare)).toBeLessThan(1e-9);
          expect(Math.abs(other.seen_cd_per_m2 - one.seen_cd_per_m2)).toBeLessThan(
            1e-6 * (1 + one.seen_cd_per_m2),
          );
          expect(Math.abs(other.absorbed_lm_per_m.back - one.absorbed_lm_per_m.back)).toBeLessThan(1e-6);
          expect(Math.abs(other.seenRipple.michelson - one.seenRipple.michelson)).toBeLessThan(1e-6);
        },
      ),
      settings,
    );
  });

  it('is in proportion to the flux', () => {
    const strip = { ...plainSection.strip, flux_lm_per_m: 250 };
    const [one, quarter] = [lightOf(plainSection), lightOf({ ...plainSection, strip })];
    expect(quarter.seen_cd_per_m2 * 4).toBeCloseTo(one.seen_cd_per_m2, 8);
    expect(quarter.outShare).toBe(one.outShare);
  });

  it('does not depend on how finely the section is cut', () => {
    const cases = [
      plainSection,
      { ...plainSection, sheet: opal, reveal: thickFront, slotOffset_m: 0.01 },
      { ...plainSection, endless: true, width_m: 0.15, depth_m: 0.012, reveal: thickFront },
    ];
    for (const section of cases) {
      const [coarse, fine] = [slotLightOf(solveSection(section)), slotLightOf(solveSection(section, 3))];
      expect(coarse.outShare / fine.outShare).toBeCloseTo(1, 3);
      expect(Math.abs(coarse.seen_cd_per_m2 / fine.seen_cd_per_m2 - 1)).toBeLessThan(0.005);
    }
  });

  it('forgets its neighbours where the sides are far away', () => {
    const wide = { ...plainSection, width_m: 1.2, reflectance: { back: 0.5, sides: 0.5, front: 0.5 } };
    expect(lightOf({ ...wide, endless: true }).outShare).toBeCloseTo(lightOf(wide).outShare, 3);
  });

  it('splits the slot plane into direct and reflected light', () => {
    const { slotPlane } = lightOf(plainSection);
    expect(slotPlane.direct_lx + slotPlane.reflected_lx).toBe(slotPlane.mean_lx);
    expect(
      lightOf({ ...plainSection, reflectance: { back: 0, sides: 0, front: 0 } }).slotPlane.reflected_lx,
    ).toBe(0);
  });
});

describe('remarks', () => {
  it('warn of bare lamps straight ahead, and only then', () => {
    const noteCount = (section: LitSection): number => {
      const answer = cavityLight(section);
      return answer.ok ? answer.notes.length : -1;
    };
    expect(noteCount(plainSection)).toBe(1);
    expect(noteCount({ ...plainSection, sheet: opal })).toBe(0);
    expect(noteCount({ ...plainSection, strip: { ...plainSection.strip, offset_m: 0.02 } })).toBe(0);
  });
});

describe('sections that cannot be worked out', () => {
  const refusal = (section: LitSection): string[] => {
    const answer = cavityLight(section);
    return answer.ok ? [] : answer.issues.map((issue) => issue.code);
  };
  it('are refused by name', () => {
    const { strip } = plainSection;
    expect(refusal({ ...plainSection, slotWidth_m: 0.07 })).toEqual(['slot-outside-section']);
    expect(refusal({ ...plainSection, slotOffset_m: 0.02 })).toEqual(['slot-outside-section']);
    expect(refusal({ ...plainSection, strip: { ...strip, offset_m: 0.03 } })).toEqual(['strip-outside-face']);
    expect(refusal({ ...plainSection, strip: { ...strip, mount: 'front' } })).toEqual(['strip-in-slot']);
    expect(refusal({ ...plainSection, endless: true, strip: { ...strip, mount: 'side' } })).toEqual([
      'side-mount-without-side',
    ]);
    expect(refusal({ ...plainSection, sheet: { transmittance: 0.8, reflectance: 0.3 } })).toEqual([
      'sheet-gains-light',
    ]);
  });
  it('throw where a caller was careless', () => {
    expect(() => cavityLight({ ...plainSection, depth_m: 0 })).toThrow(RangeError);
    expect(() => cavityLight({ ...plainSection, reflectance: { back: 1.2, sides: 0, front: 0 } })).toThrow(
      RangeError,
    );
  });
  it('throw where light would bounce for ever', () => {
    const white = { back: 1, sides: 1, front: 1 };
    const sheet = { transmittance: 0, reflectance: 1 };
    expect(() => cavityLight({ ...plainSection, reflectance: white, sheet })).toThrow(RangeError);
  });
});
