import * as z from 'zod';
import { num, text } from './values.ts';

const layer = z.strictObject({
  id: z.enum(['backing', 'cavity', 'front']),
  name: text,
  thickness_mm: num,
});

const profilePart = z.strictObject({
  part: z.enum(['base', 'wall', 'cover', 'strip']),
  x0_mm: num.describe('from the middle of the slot across'),
  x1_mm: num,
  y0_mm: num.describe('from the room face inwards'),
  y1_mm: num,
});

/** The section heat and light are asked of. */
export const section = z.strictObject({
  pitch_mm: num.describe(
    'after which it repeats: the closest neighbours, square across; for a slot with none beside it the width of the panel, 1000 at most',
  ),
  layers: z.array(layer).describe('of the build-up, from the wall'),
  depth_mm: num,
  available_mm: num,
  profile: z
    .array(profilePart)
    .nullable()
    .describe('the profile as it lies in the section, with the strip in it; null where there is none'),
});

export type Section = z.infer<typeof section>;
export type ProfilePart = z.infer<typeof profilePart>;
