import { describe, expect, it } from 'vitest';
import { cavityLight } from '../../src/light/cavity.ts';
import { lightBand } from '../../src/light/light-band.ts';
import type { LitSection } from '../../src/light/section.ts';
import { lightOf, opal, plainSection, thickFront } from './sections.ts';

describe('the band of light', () => {
  it('is what the section gives with all its doubts at one end, to half a percent', () => {
    const section: LitSection = { ...plainSection, sheet: opal, reveal: thickFront };
    const usual = lightOf(section);
    // Opal passes 0.55 and sends back 0.35: 0.495 and 0.35 at the dark end, 0.605 and 0.35 at the bright one.
    const end = (flux: number, share: number, transmittance: number): LitSection => ({
      ...section,
      strip: { ...section.strip, flux_lm_per_m: flux },
      reflectance: { back: 0.8 + share, sides: 0.8 + share, front: 0.8 + share },
      reveal: { ...thickFront, reflectance: thickFront.reflectance + share },
      sheet: { transmittance, reflectance: 0.35 },
    });
    const dark = lightOf(end(900, -0.05, 0.495));
    const bright = lightOf(end(1100, 0.05, 0.605));
    const { leaving, seen } = lightBand(section);
    const off = [
      leaving.least / (dark.out_lm_per_m / usual.out_lm_per_m),
      leaving.greatest / (bright.out_lm_per_m / usual.out_lm_per_m),
      seen.least / (dark.seen_cd_per_m2 / usual.seen_cd_per_m2),
      seen.greatest / (bright.seen_cd_per_m2 / usual.seen_cd_per_m2),
    ];
    for (const ratio of off) expect(Math.abs(ratio - 1)).toBeLessThan(0.005);
  });

  it('keeps shares within what there is: nothing from black faces, no sheet that passes more than all', () => {
    const black: LitSection = {
      ...plainSection,
      reflectance: { back: 0, sides: 0, front: 0 },
      sheet: { transmittance: 0.95, reflectance: 0.05 },
    };
    const { leaving } = lightBand(black);
    // A sheet of 0.95 passes all of it at the bright end and sends nothing back; straight light is all there is
    // but for faces 5 % bright: 1.1/0.95 = 1.158 and a little more.
    expect(leaving.greatest).toBeGreaterThan(1.1 / 0.95);
    expect(leaving.greatest).toBeLessThan(1.17);
    expect(leaving.least).toBeCloseTo(0.9 * 0.9, 3);
    expect(cavityLight(black).ok).toBe(true);
  });

  it('is one where nothing is seen', () => {
    const unseen: LitSection = { ...plainSection, reflectance: { back: 0, sides: 0, front: 0 } };
    expect(lightBand(unseen).seen).toEqual({ least: 1, greatest: 1 });
  });
});
