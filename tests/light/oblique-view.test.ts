import { describe, expect, it } from 'vitest';
import { obliqueView } from '../../src/light/oblique-view.ts';
import type { LitSection } from '../../src/light/section.ts';
import { bareLampRange } from '../../src/light/sight-line.ts';
import { openingShare, seenLuminance_cd_per_m2, solveSection } from '../../src/light/solved-section.ts';
import { mirrored, opal, plainSection, thickFront } from './sections.ts';

const indirect: LitSection = {
  ...plainSection,
  slotWidth_m: 0.02,
  strip: { ...plainSection.strip, mount: 'front', offset_m: 0.022 },
};

const seen = (section: LitSection, angle_deg: number) => obliqueView(solveSection(section), angle_deg);

describe('a slot seen from the side', () => {
  it.each([
    ['open', plainSection],
    ['covered', { ...plainSection, sheet: opal, reveal: thickFront }],
    ['off the middle', { ...plainSection, slotOffset_m: 0.01, reveal: thickFront }],
    ['behind clear acrylic', { ...plainSection, sheet: { ...opal, spreadsFully: false } }],
    ['indirect', indirect],
    ['endless', { ...indirect, endless: true, width_m: 0.08 }],
  ])('is straight ahead what is seen straight ahead: %s', (_, section) => {
    const solved = solveSection(section);
    const { luminance_cd_per_m2, pastReveal } = obliqueView(solved, 0);
    expect(luminance_cd_per_m2 / seenLuminance_cd_per_m2(solved)).toBeCloseTo(1, 2);
    expect(pastReveal).toBe(1);
  });

  // Radiance that does not change along the slot carries M = pi/2 * integral of L cos(a) da, pi*L where L is even.
  it.each([
    ['covered, thin front', { ...plainSection, sheet: opal }],
    ['covered, thick front', { ...plainSection, sheet: opal, reveal: thickFront }],
    ['indirect', indirect],
    ['indirect, thick front', { ...indirect, reveal: thickFront }],
    ['indirect, endless', { ...indirect, endless: true, width_m: 0.08 }],
    [
      'indirect, endless and deep',
      { ...indirect, endless: true, depth_m: 0.1, reveal: { ...thickFront, depth_m: 0.006 } },
    ],
  ])('sends out over all angles the light that leaves it: %s', (_, section) => {
    const solved = solveSection(section);
    const n = 180;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const angle = ((i + 0.5) / n - 0.5) * Math.PI;
      const { luminance_cd_per_m2 } = obliqueView(solved, (angle * 180) / Math.PI);
      sum += (luminance_cd_per_m2 * Math.cos(angle) * Math.PI) / n;
    }
    const out_lm_per_m = openingShare(solved) * section.strip.flux_lm_per_m;
    expect(((Math.PI / 2) * sum * section.slotWidth_m) / out_lm_per_m).toBeCloseTo(1, 2);
  });

  it('is the mirror image of its mirror image', () => {
    const section = { ...indirect, reveal: thickFront };
    for (const angle of [-60, -30, 30, 60]) {
      const [one, other] = [seen(section, angle), seen(mirrored(section), -angle)];
      expect(other.luminance_cd_per_m2).toBeCloseTo(one.luminance_cd_per_m2, 6);
      expect(other.pastReveal).toBeCloseTo(one.pastReveal, 12);
    }
  });

  it('looks past the sides as far as they leave it: 30 mm wide and 18 mm deep', () => {
    // At 30 degrees 18*tan(30) = 10.39 of 30 mm end on the side: 65 % are left. At 60 degrees 31.2 of 30: none.
    const section = { ...plainSection, sheet: opal, reveal: thickFront };
    expect(seen(section, 30).pastReveal).toBeCloseTo(0.65, 1);
    expect(seen(section, 60).pastReveal).toBe(0);
  });

  it('shows lamps where an eye there sees them, and none behind opal or on the inner face of the front', () => {
    const section = { ...plainSection, reveal: thickFront, strip: { ...plainSection.strip, offset_m: 0.01 } };
    const range = bareLampRange(section, 1000)!;
    for (let angle = -80; angle <= 80; angle += 2.3) {
      const across = 1000 * Math.tan((angle * Math.PI) / 180);
      expect(seen(section, angle).showsLamps).toBe(across > range.from_m && across < range.to_m);
    }
    expect(seen({ ...section, sheet: opal }, 0).showsLamps).toBe(false);
    expect(seen(indirect, 30).showsLamps).toBe(false);
  });

  it('shows the lamps of the next slot too where nothing divides the cavity', () => {
    // Slots 60 mm apart, 30 mm wide, 40 mm deep: the lamp of the next lies 60 mm aside, atan(60/40) = 56 degrees.
    expect(seen({ ...plainSection, endless: true }, 56).showsLamps).toBe(true);
    expect(seen(plainSection, 56).showsLamps).toBe(false);
  });

  it('shows lamps on the side of the cavity to the eye they shine towards, and to none on the other side', () => {
    // Lamps at x = 0, 20 mm behind the front, facing x: at 45 degrees their line comes out 20 mm along, in the slot from 15 to 45.
    const side: LitSection = { ...plainSection, strip: { ...plainSection.strip, mount: 'side' } };
    expect(seen(side, 45).showsLamps).toBe(true);
    expect(seen(side, -45).showsLamps).toBe(false);
    // Those of the next slot lie at 60 mm; their line to the other side comes out at 40 mm, but they shine away from it.
    expect(seen({ ...side, endless: true }, 45).showsLamps).toBe(true);
    expect(seen({ ...side, endless: true }, -45).showsLamps).toBe(false);
  });
});
