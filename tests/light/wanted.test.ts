import { describe, expect, it } from 'vitest';
import { luminousEfficacyOfRadiation_lm_per_W } from '../../src/constants.ts';
import { dotVerdict } from '../../src/light/dots.ts';
import { leastDepthHidingDots, leastLampsHidingDots } from '../../src/light/hidden-dots.ts';
import type { LitSection } from '../../src/light/section.ts';
import { stripChoices, type Wish, wantedStrip } from '../../src/light/wanted.ts';
import { lightOf, opal, plainSection, thickFront } from './sections.ts';

const closed: LitSection = { ...plainSection, sheet: opal };
const indirect: LitSection = {
  ...plainSection,
  strip: { ...plainSection.strip, mount: 'front', offset_m: 0.022 },
};
const wish: Wish = { section: closed, wanted_cd_per_m2: 200, lowestLight: 0.9, watts_per_m: 10 };

function answer(question: Wish) {
  const outcome = wantedStrip(question);
  if (!outcome.ok) throw new Error(outcome.issues[0]?.sentence);
  return outcome.value;
}

describe('the wanted brightness', () => {
  it.each([closed, indirect, { ...closed, endless: true, reveal: thickFront }])(
    'comes out when the answer is put in',
    (section) => {
      const wanted = answer({ ...wish, section });
      const strip = { ...section.strip, flux_lm_per_m: wanted.flux_lm_per_m };
      expect(lightOf({ ...section, strip }).seen_cd_per_m2 * wish.lowestLight).toBeCloseTo(200, 8);
    },
  );

  it('needs 49 lm/m in the worked cavity (printed in the reference notes)', () => {
    expect(answer({ ...wish, lowestLight: 1 }).flux_lm_per_m).toBeCloseTo(49, 0);
  });

  it('takes heat and watts in the same proportion, and counts the light that leaves as no heat', () => {
    const wanted = answer(wish);
    const light = lightOf(closed);
    expect(wanted.given.heat_W_per_m).toBeCloseTo(
      10 - light.out_lm_per_m / luminousEfficacyOfRadiation_lm_per_W,
      9,
    );
    expect(wanted.heat_W_per_m / wanted.given.heat_W_per_m).toBeCloseTo(wanted.level, 12);
    expect(wanted.watts_per_m + wanted.savedWatts_per_m).toBeCloseTo(10, 12);
    expect(wanted.heat_W_per_m + wanted.savedHeat_W_per_m).toBeCloseTo(wanted.given.heat_W_per_m, 12);
    // A strip that is too weak saves less than nothing of either.
    const brighter = answer({ ...wish, wanted_cd_per_m2: 200 / (0.5 * wanted.level) });
    expect(brighter.level).toBeCloseTo(2, 9);
    expect(brighter.savedHeat_W_per_m).toBeCloseTo(-wanted.given.heat_W_per_m, 9);
  });

  it.each([
    ['no luminance', { wanted_cd_per_m2: 0 }],
    ['no watts', { watts_per_m: 0 }],
    ['no lumens', { section: { ...closed, strip: { ...closed.strip, flux_lm_per_m: 0 } } }],
    ['a dark run', { lowestLight: 0 }],
    ['a run brighter than a warm strip is', { lowestLight: 1.51 }],
    ['a run of which nothing is known', { lowestLight: Number.NaN }],
  ])('is not asked of %s', (_, change) => {
    expect(() => wantedStrip({ ...wish, ...change })).toThrow(RangeError);
  });

  it('goes by the darkest place: at half as much again it needs two thirds of what it needs at 1', () => {
    const [bright, plain] = [1.5, 1].map((lowestLight) => answer({ ...wish, lowestLight }));
    expect(bright!.flux_lm_per_m / plain!.flux_lm_per_m).toBeCloseTo(2 / 3, 12);
  });

  it('is refused where the eye meets something black', () => {
    const section = { ...indirect, reflectance: { ...indirect.reflectance, back: 0 } };
    const outcome = wantedStrip({ ...wish, section });
    expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toEqual(['no-light-seen']);
  });

  it('is refused with the section', () => {
    const outcome = wantedStrip({ ...wish, section: { ...closed, slotWidth_m: 1 } });
    expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toEqual(['slot-outside-section']);
  });
});

describe('strips of a catalogue', () => {
  const catalogue = [
    { id: 'strong', flux_lm_per_m: 1500, watts_per_m: 14 },
    { id: 'weak', flux_lm_per_m: 150, watts_per_m: 2 },
    { id: 'weaker', flux_lm_per_m: 100, watts_per_m: 1 },
    { id: 'middle', flux_lm_per_m: 500, watts_per_m: 5 },
  ];
  it('come with those that do first, the smallest driver leading', () => {
    const choices = stripChoices(catalogue, 300);
    expect(choices.map((c) => c.id)).toEqual(['middle', 'strong', 'weak', 'weaker']);
    expect(choices[0]).toEqual({
      id: 'middle',
      enough: true,
      level: 0.6,
      watts_per_m: 3,
      fullWatts_per_m: 5,
    });
    expect(choices[2]?.enough).toBe(false);
  });
});

describe('hiding the dots', () => {
  const view = { viewingDistance_m: 2, luminance_cd_per_m2: 200 };
  const wordOf = (section: LitSection): string => {
    const { michelson } = lightOf(section).seenRipple;
    return dotVerdict({ michelson, lampPitch_m: section.strip.lampPitch_m, ...view }).word;
  };
  const dense: LitSection[] = [
    closed,
    indirect,
    { ...closed, strip: { ...closed.strip, lampPitch_m: 1 / 30, halfAngle_deg: 50 } },
    { ...closed, endless: true, width_m: 0.12, reveal: thickFront },
  ];

  it.each(dense)('takes the least depth: a millimetre less shows, more does not', (section) => {
    const outcome = leastDepthHidingDots(section, view);
    if (!outcome.ok) throw new Error(outcome.issues[0]?.sentence);
    const { depth_m } = outcome.value;
    expect(wordOf({ ...section, depth_m })).toBe('hidden');
    expect(wordOf({ ...section, depth_m: depth_m - 0.001 })).not.toBe('hidden');
    for (const more of [0.002, 0.01, 0.05])
      expect(wordOf({ ...section, depth_m: depth_m + more })).toBe('hidden');
  });

  it.each(dense)('takes the least lamps: one less shows, more do not', (section) => {
    const outcome = leastLampsHidingDots(section, view);
    if (!outcome.ok) throw new Error(outcome.issues[0]?.sentence);
    const lamps = outcome.value.lamps_per_m;
    const spaced = (count: number): LitSection => ({
      ...section,
      strip: { ...section.strip, lampPitch_m: 1 / count },
    });
    expect(wordOf(spaced(lamps))).toBe('hidden');
    expect(wordOf(spaced(lamps - 1))).not.toBe('hidden');
    for (const factor of [1.1, 1.5, 3]) expect(wordOf(spaced(Math.ceil(lamps * factor)))).toBe('hidden');
  });

  it('is refused where the lamps themselves are in view', () => {
    for (const outcome of [
      leastDepthHidingDots(plainSection, view),
      leastLampsHidingDots(plainSection, view),
    ]) {
      expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toEqual(['bare-lamps-in-view']);
    }
  });

  it('is refused where no depth or spacing does', () => {
    const sparse = { ...closed, strip: { ...closed.strip, lampPitch_m: 0.5 } };
    const flat = { ...closed, depth_m: 0.0008 };
    const [byDepth, byLamps] = [leastDepthHidingDots(sparse, view), leastLampsHidingDots(flat, view)];
    expect(byDepth.ok ? '' : byDepth.issues[0]?.code).toBe('dots-at-every-depth');
    expect(byLamps.ok ? '' : byLamps.issues[0]?.code).toBe('dots-at-every-pitch');
  });
});
