import { cavityLight, type SlotLight } from '../../src/light/cavity.ts';
import type { LitSection } from '../../src/light/section.ts';

/** The worked cavity: 60 wide, 40 deep, slot 30, strip in the middle of the back, everything 0.8. */
export const plainSection: LitSection = {
  width_m: 0.06,
  endless: false,
  depth_m: 0.04,
  slotWidth_m: 0.03,
  slotOffset_m: 0,
  strip: { mount: 'back', offset_m: 0, flux_lm_per_m: 1000, lampPitch_m: 1 / 60, halfAngle_deg: 60 },
  reflectance: { back: 0.8, sides: 0.8, front: 0.8 },
  sheet: null,
  reveal: { depth_m: 0, reflectance: 0.5 },
};

export const opal = { transmittance: 0.55, reflectance: 0.35 };
export const thickFront = { depth_m: 0.018, reflectance: 0.45 };

/** The answer of a section that must have one. */
export function lightOf(section: LitSection): SlotLight {
  const answer = cavityLight(section);
  if (!answer.ok) throw new Error(answer.issues.map((issue) => issue.sentence).join(' '));
  return answer.value;
}

/** The same section seen in a mirror (a strip on the left side has no mirror image to ask for). */
export function mirrored(section: LitSection): LitSection {
  return {
    ...section,
    slotOffset_m: -section.slotOffset_m,
    strip: { ...section.strip, offset_m: -section.strip.offset_m },
  };
}
