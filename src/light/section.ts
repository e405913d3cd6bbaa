import { type LitProfile, type Point, placedProfile } from './profile.ts';

/**
 * Where strip sits: on the back facing the slot, on the inner face of the front (indirect), on the left side, or in a profile
 * that fills the slot, whose cover is then all there is to light and to see.
 */
export type StripMount = 'back' | 'front' | 'side' | 'recessed';

/** A light strip in the section. */
export interface LitStrip {
  readonly mount: StripMount;
  /** From the middle of the face it sits on: to the right on back and front, towards the front on a side. */
  readonly offset_m: number;
  readonly flux_lm_per_m: number;
  readonly lampPitch_m: number;
  /** Angle from the axis at which a lamp's intensity is half: 60 for the common 120 degree lamp. */
  readonly halfAngle_deg: number;
}

/** Diffuse reflectances of the cavity's faces, 0 to 1. */
export interface Reflectances {
  readonly back: number;
  readonly sides: number;
  readonly front: number;
}

/** A sheet across the slot, flush with the rear of the front; both values for diffuse light. */
export interface Sheet {
  readonly transmittance: number;
  readonly reflectance: number;
  /** Whether it spreads light fully, so that the eye meets the sheet itself; taken as so where it is left out. */
  readonly spreadsFully?: boolean;
}

/**
 * The section of a lit cavity, seen along the run: x to the right from the left edge, y from the back to the
 * front. Everything is taken to run on for ever along the third direction.
 */
export interface LitSection {
  /** Between battens, or from slot to slot where nothing divides the cavity. */
  readonly width_m: number;
  /** No battens: the section repeats on both sides at its width. */
  readonly endless: boolean;
  /** From the back to the rear of the front. */
  readonly depth_m: number;
  readonly slotWidth_m: number;
  /** Middle of the slot to the right of the middle of the section. */
  readonly slotOffset_m: number;
  readonly strip: LitStrip;
  /** The profile the strip lies in; none where it is left out. */
  readonly profile?: LitProfile;
  readonly reflectance: Reflectances;
  readonly sheet: Sheet | null;
  /** The sides of the slot itself, as deep as the front is thick; depth 0 for a thin front. */
  readonly reveal: { readonly depth_m: number; readonly reflectance: number };
}

/** Whether an eye meets a sheet that spreads the light; else it looks through the slot at what is behind. */
export function meetsSheet({ sheet, strip }: Pick<LitSection, 'sheet' | 'strip'>): boolean {
  return sheet !== null && sheet.spreadsFully !== false && strip.mount !== 'recessed';
}

/** Left and right edge of the slot, or of the mouth of the profile in it. */
export function slotEdges(section: LitSection): { readonly left_m: number; readonly right_m: number } {
  const placed = section.strip.mount === 'recessed' ? placedProfile(section) : null;
  if (placed !== null) return { left_m: placed.inner.x0, right_m: placed.inner.x1 };
  const middle = section.width_m / 2 + section.slotOffset_m;
  return { left_m: middle - section.slotWidth_m / 2, right_m: middle + section.slotWidth_m / 2 };
}

/** Where the lamps are and which way they face. */
export function lampFrame(section: LitSection): { readonly at: Point; readonly facing: Point } {
  const { mount, offset_m } = section.strip;
  const placed = placedProfile(section);
  if (placed !== null) {
    const { at, middle_m, mouth_m, profile } = placed;
    const facing = mount === 'side' ? { x: 1, y: 0 } : { x: 0, y: 1 };
    return { at: at(middle_m, mouth_m - profile.wallHeight_m), facing };
  }
  if (mount === 'back') return { at: { x: section.width_m / 2 + offset_m, y: 0 }, facing: { x: 0, y: 1 } };
  if (mount === 'front')
    return { at: { x: section.width_m / 2 + offset_m, y: section.depth_m }, facing: { x: 0, y: -1 } };
  return { at: { x: 0, y: section.depth_m / 2 + offset_m }, facing: { x: 1, y: 0 } };
}
