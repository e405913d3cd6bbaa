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

const wallLayer = z.strictObject({
  name: text,
  thickness_mm: num,
  timberShare: num,
  resistance_m2K_per_W: num.describe('its bridge side by side with it'),
  source: text,
});

const behind = z.strictObject({
  resistance_m2K_per_W: num.describe(
    'from the back of the backing to the air beyond: mean of the two limits',
  ),
  upper_m2K_per_W: num,
  lower_m2K_per_W: num,
  U_W_per_m2K: num.describe('of the wall by itself, as if the piece were not before it'),
  film_m2K_per_W: num.describe('surface resistance on the far side, counted in'),
  beyond: z.enum(['room', 'outside']),
  beyond_degC: num,
  layers: z.array(wallLayer).describe('from the back of the backing'),
});

/** The section heat and light are asked of. */
export const section = z.strictObject({
  slotWidth_mm: num
    .optional()
    .describe('where slots have several widths: of those whose strip is warmest, which the section is of'),
  pitch_mm: num.describe(
    'after which it repeats: the closest neighbours, square across; for a slot with none beside it the width of the panel, 1000 at most',
  ),
  edge_mm: num
    .nullable()
    .describe(
      'where the panel ends, from the middle of the slot across, negative to the left; null where no slot is nearer to an edge than half the pitch',
    ),
  layers: z.array(layer).describe('of the build-up, from the wall'),
  depth_mm: num,
  available_mm: num,
  behind: behind
    .nullable()
    .describe('the wall behind the backing by ISO 6946; null where it is taken as insulation'),
  profile: z
    .array(profilePart)
    .nullable()
    .describe('the profile as it lies in the section, with the strip in it; null where there is none'),
});

export type Section = z.infer<typeof section>;
export type ProfilePart = z.infer<typeof profilePart>;
