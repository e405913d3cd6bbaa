import type { Issue } from '../outcome.ts';

type Refusal<Code extends string, Quantities extends Record<string, number>> = Issue & {
  readonly code: Code;
  readonly quantities: Readonly<Quantities>;
};

/** Every "no" the light questions can answer with. */
export type LightIssue =
  | Refusal<'slot-outside-section', { left_m: number; right_m: number; width_m: number }>
  | Refusal<'strip-outside-face', { offset_m: number; face_m: number }>
  | Refusal<'strip-in-slot', { offset_m: number; slotOffset_m: number; slotWidth_m: number }>
  | Refusal<'side-mount-without-side', { width_m: number }>
  | Refusal<'sheet-gains-light', { transmittance: number; reflectance: number }>
  | Refusal<
      'profile-outside-section',
      { x0_m: number; x1_m: number; y0_m: number; y1_m: number; width_m: number; depth_m: number }
    >
  | Refusal<'cover-gains-light', { transmittance: number; reflectance: number }>
  | Refusal<'no-light-seen', { seen_cd_per_m2: number }>
  | Refusal<'bare-lamps-in-view', { viewingDistance_m: number }>
  | Refusal<'dots-at-every-depth', { deepest_m: number; visibility: number }>
  | Refusal<'dots-at-every-pitch', { mostLamps_per_m: number; visibility: number }>;
