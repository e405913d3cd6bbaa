import { describe, expect, it } from 'vitest';
import { harmonicAmplitude } from '../../src/light/lamp-row.ts';
import type { LitProfile } from '../../src/light/profile.ts';
import type { LitSection } from '../../src/light/section.ts';
import { sectionIssues } from '../../src/light/section-rules.ts';
import { bareLampRange } from '../../src/light/sight-line.ts';
import { openingShare, solveSection } from '../../src/light/solved-section.ts';
import { countInProfile } from './profile-photons.ts';
import { lightOf, mirrored, opal, plainSection, thickFront } from './sections.ts';

const white: LitProfile = {
  ...{ inside_m: 0.012, width_m: 0.014, wallHeight_m: 0.008, height_m: 0.0105 },
  ...{ baseReflectance: 0.8, wallReflectance: 0.7, outsideReflectance: 0.6 },
  cover: { transmittance: 0.55, reflectance: 0.35, straight: 0 },
};
const clear = { ...white, cover: { transmittance: 0.85, reflectance: 0.08, straight: 1 } };
const frosted = { ...white, cover: { transmittance: 0.8, reflectance: 0.1, straight: 0.3 } };
const open = { ...white, cover: null, height_m: 0.0095 };
const { strip } = plainSection;
const backed = (profile: LitProfile): LitSection => ({ ...plainSection, profile });
const recessed = (profile: LitProfile): LitSection => ({
  ...backed(profile),
  strip: { ...strip, mount: 'recessed' },
});
const beside = (profile: LitProfile): LitSection => ({
  ...backed(profile),
  strip: { ...strip, mount: 'side', offset_m: 0.004 },
});

const sections: Record<string, LitSection> = {
  'opal on the back': backed(white),
  'opal on the back, off the middle, slot off the middle': {
    ...backed(white),
    ...{ slotOffset_m: 0.01, reveal: thickFront },
    strip: { ...strip, offset_m: -0.012 },
  },
  'opal on the back, slot closed by a sheet': { ...backed(white), sheet: opal, reveal: thickFront },
  'clear on the back': backed(clear),
  'frosted on the back, narrow beam': { ...backed(frosted), strip: { ...strip, halfAngle_deg: 45 } },
  'open on the back': { ...backed(open), reveal: thickFront },
  'open on the back, no battens': { ...backed(open), endless: true, width_m: 0.1 },
  'frosted on the back, no battens, off the middle': {
    ...backed(frosted),
    ...{ endless: true, width_m: 0.09, depth_m: 0.025 },
    strip: { ...strip, offset_m: 0.02 },
  },
  'opal at the side': beside(white),
  'clear at the side': beside(clear),
  'open at the side': { ...beside(open), reveal: thickFront },
  'opal in the slot': recessed(white),
  'frosted in the slot': recessed(frosted),
  'open in the slot': recessed(open),
};

const photons = 300_000;

describe('a profile against counted photons', () => {
  it.each(Object.entries(sections))('%s: what leaves and what stays', (_, section) => {
    const light = lightOf(section);
    const counted = countInProfile(section, photons, 20_261_130);
    const flux = section.strip.flux_lm_per_m;
    const { absorbed_lm_per_m: kept } = light;
    const pairs = [
      ['out', light.outShare],
      ['profile', kept.profile / flux],
      ['cover', kept.cover / flux],
      ['back', kept.back / flux],
      ['front', kept.front / flux],
    ] as const;
    expect(light.balanceResidual).toBeLessThan(1e-9);
    expect(counted.share('lost' as 'out').value).toBe(0);
    for (const [name, computed] of pairs) {
      const { value, error } = counted.share(name);
      expect([name, Math.abs(computed - value) <= Math.max(3.5 * error, 1e-4)]).toEqual([name, true]);
    }
  });

  it.each([
    ['opal', white],
    ['opal, dark walls', { ...white, wallReflectance: 0.1, baseReflectance: 0.3 }],
    ['low and wide', { ...white, inside_m: 0.02, width_m: 0.022, wallHeight_m: 0.006 }],
  ])('%s: ripple along the middle of the cover', (_, profile) => {
    const section = recessed(profile);
    const [first] = lightOf(section).profile!.coverRipple!.amplitudes;
    const { value, error } = countInProfile(section, photons, 7).harmonic;
    expect(Math.abs(first! - value)).toBeLessThan(3 * error + 0.005 * value);
  });
});

/** Walls that take all the light: what is left are closed forms. */
const black: LitProfile = {
  ...white,
  ...{ baseReflectance: 0, wallReflectance: 0, outsideReflectance: 0 },
  cover: { transmittance: 0.5, reflectance: 0, straight: 0 },
};

describe('a profile that reflects nothing', () => {
  it('lets out what falls straight on its cover', () => {
    // (a/2)/sqrt(h^2 + a^2/4) = 6/sqrt(64 + 36) = 0.6 of the light of lamps with intensity by the cosine, half of it passes.
    const light = lightOf(recessed(black));
    expect(light.profile!.leavingShare).toBeCloseTo(0.3, 9);
    expect(light.outShare).toBeCloseTo(0.3, 9);
    // 1000 lm/m * 0.3 over pi * 0.012 m: 7957.7 cd/m2.
    expect(light.profile!.cover_cd_per_m2).toBeCloseTo(7957.747, 2);
    expect(light.seen_cd_per_m2).toBeCloseTo(7957.747, 2);
    expect(light.absorbed_lm_per_m.profile).toBeCloseTo(400, 6);
    expect(light.absorbed_lm_per_m.cover).toBeCloseTo(300, 6);
  });

  it('shows the ripple of its lamps on the cover', () => {
    // A_n = 2(1 + k)exp(-k), k = 2*pi*n*h/d with h 8 mm and d 1/60 m: k1 = 3.0159, A1 = 0.3935, A2 = 0.0338, A3 = 0.0024.
    const amplitudes = [1, 2, 3, 4].map((n) => harmonicAmplitude(1, 2 * Math.PI * n * 0.008 * 60));
    expect(amplitudes[0]).toBeCloseTo(0.3935, 3);
    const most = 1 + amplitudes.reduce((sum, a) => sum + a, 0);
    const least = 1 + amplitudes.reduce((sum, a, i) => sum + (i % 2 === 0 ? -a : a), 0);
    const { coverRipple } = lightOf(recessed(black)).profile!;
    expect(coverRipple!.michelson).toBeCloseTo((most - least) / (most + least), 3);
  });
});

describe('what a cover does', () => {
  it('passes as much as arrives on it, whichever way', () => {
    const spread = lightOf(
      recessed({ ...white, cover: { transmittance: 0.8, reflectance: 0.1, straight: 0 } }),
    );
    const straight = lightOf(
      recessed({ ...white, cover: { transmittance: 0.8, reflectance: 0.1, straight: 1 } }),
    );
    expect(spread.outShare).toBeCloseTo(straight.outShare, 9);
    expect(spread.profile!.coverRipple).not.toBeNull();
    expect(straight.profile!.coverRipple).toBeNull();
  });

  it('that passes all straight is no cover', () => {
    const glass = { ...open, cover: { transmittance: 1, reflectance: 0, straight: 1 } };
    expect(lightOf(backed(glass)).outShare).toBeCloseTo(lightOf(backed(open)).outShare, 12);
  });

  it('is cut off at the walls where light goes straight', () => {
    // atan(6/8) = 36.87 degrees.
    expect(lightOf(recessed(clear)).profile!.cutOff_deg).toBeCloseTo(36.8699, 3);
    expect(lightOf(recessed(white)).profile!.cutOff_deg).toBeNull();
  });

  it('throws light of the cavity back and lets it in again', () => {
    const inTheCavity = lightOf(backed(white));
    const dark = lightOf({ ...backed(white), reflectance: { back: 0, sides: 0, front: 0 } });
    expect(inTheCavity.profile!.cover_cd_per_m2).toBeGreaterThan(dark.profile!.cover_cd_per_m2);
    // In a black cavity what leaves the cover is what leaves it in the slot, but for its own rims.
    expect(dark.profile!.cover_cd_per_m2).toBeCloseTo(
      (1000 * dark.profile!.leavingShare) / (Math.PI * 0.012),
      6,
    );
  });
});

describe('symmetry and sight', () => {
  it('is its mirror image', () => {
    const section = { ...backed(frosted), slotOffset_m: 0.006, strip: { ...strip, offset_m: -0.01 } };
    const [one, other] = [lightOf(section), lightOf(mirrored(section))];
    expect(one.outShare).toBeCloseTo(other.outShare, 12);
    expect(one.seen_cd_per_m2).toBeCloseTo(other.seen_cd_per_m2, 8);
  });

  it('does not change with finer facets', () => {
    const out = (fineness: number) => openingShare(solveSection(backed(frosted), fineness));
    expect(Math.abs(out(1) / out(2) - 1)).toBeLessThan(0.002);
  });

  it('shows bare lamps only past walls and slot', () => {
    expect(bareLampRange(backed(white), 2)).toBeNull();
    // Lamp 8 mm behind a mouth of 12 mm: at 2 m before the face of a slot at the cover's plane (6/8)*(2 + 0.008) = 1.506 m.
    const seen = bareLampRange(recessed(clear), 2)!;
    expect(seen.to_m).toBeCloseTo(1.506, 6);
    expect(seen.from_m).toBeCloseTo(-1.506, 6);
    // At the side, in the middle of the depth, the mouth 10.5 mm off it: a line past the rim nearer the front rises 6 in 8; the lamp is
    // 2.5 mm from the side and 20 mm behind the slot, so that it passes the slot's plane 26.7 mm further: 29.2 mm, in the slot's 15 to 45.
    const side = bareLampRange({ ...backed(clear), strip: { ...strip, mount: 'side' } }, 2)!;
    // Eye 2.02 m off: at least 2.02*8/6 = 2.6933 m to the right of the lamp, which is 27.5 mm to the left of the slot's middle.
    expect(side.from_m).toBeCloseTo(2.02 * (8 / 6) + 0.0025 - 0.03, 6);
  });
});

describe('profiles that cannot be lit', () => {
  const codes = (section: LitSection) => sectionIssues(section).map(({ code }) => code);
  it.each<[string, LitSection, string]>([
    ['higher than the cavity', { ...backed(white), depth_m: 0.0105 }, 'profile-outside-section'],
    [
      'beyond the side',
      { ...backed(white), strip: { ...strip, offset_m: 0.024 } },
      'profile-outside-section',
    ],
    [
      'a cover that makes light',
      backed({ ...white, cover: { transmittance: 0.7, reflectance: 0.4, straight: 0 } }),
      'cover-gains-light',
    ],
    ['at a side that is not there', { ...beside(white), endless: true }, 'side-mount-without-side'],
  ])('%s', (_, section, code) => {
    expect(codes(section)).toEqual([code]);
  });
});
