import { describe, expect, it } from 'vitest';
import type { LitSection } from '../../src/light/section.ts';
import { countPhotons } from './photons.ts';
import { lightOf, opal, plainSection, thickFront } from './sections.ts';

const strip = plainSection.strip;
const sections: Record<string, LitSection> = {
  'worked cavity': plainSection,
  'worked cavity with a sheet': { ...plainSection, sheet: opal },
  endless: { ...plainSection, endless: true },
  'endless, shallow, off-centre slot, sheet and thick front': {
    ...plainSection,
    ...{ endless: true, width_m: 0.12, depth_m: 0.022, slotOffset_m: 0.02, sheet: opal, reveal: thickFront },
  },
  'endless and open through a thick front, strip on the front': {
    ...plainSection,
    ...{ endless: true, width_m: 0.1, slotOffset_m: -0.01, reveal: thickFront },
    strip: { ...strip, mount: 'front', offset_m: 0.03 },
  },
  'off-centre slot and strip, thick front': {
    ...plainSection,
    ...{
      width_m: 0.08,
      slotOffset_m: 0.015,
      reveal: thickFront,
      reflectance: { back: 0.85, sides: 0.4, front: 0.3 },
    },
    strip: { ...strip, offset_m: -0.02 },
  },
  'indirect strip on the front': {
    ...plainSection,
    ...{ width_m: 0.09, slotOffset_m: -0.01 },
    strip: { ...strip, mount: 'front', offset_m: 0.03 },
  },
  'strip on the side, narrow beam': {
    ...plainSection,
    ...{ reveal: thickFront },
    strip: { ...strip, mount: 'side', offset_m: -0.008, halfAngle_deg: 40 },
  },
  'narrow beam, deep, sheet and thick front': {
    ...plainSection,
    ...{
      depth_m: 0.07,
      sheet: { transmittance: 0.6, reflectance: 0.3 },
      reveal: { depth_m: 0.03, reflectance: 0.7 },
    },
    strip: { ...strip, halfAngle_deg: 50 },
  },
};

describe('radiosity against counted photons', () => {
  it.each(Object.entries(sections))('%s', (_, section) => {
    const computed = lightOf(section);
    const counted = countPhotons(section, 400_000, 20_240_607);
    const flux = section.strip.flux_lm_per_m;
    const plane = (computed.slotPlane.mean_lx * section.slotWidth_m) / flux;
    const back = computed.absorbed_lm_per_m.back / flux;
    expect(Math.abs(computed.outShare - counted.out)).toBeLessThan(3 * counted.outError);
    expect(Math.abs(plane - counted.slotPlane)).toBeLessThan(3 * counted.slotPlaneError);
    expect(Math.abs(back - counted.back)).toBeLessThan(3 * counted.backError);
  });
});
