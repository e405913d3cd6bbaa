import * as z from 'zod';
import { num, text } from './values.ts';

const layer = z.strictObject({
  id: z.enum(['backing', 'cavity', 'front']),
  name: text,
  thickness_mm: num,
});

/** The section heat and light are asked of. */
export const section = z.strictObject({
  pitch_mm: num.describe(
    'after which it repeats: the closest neighbours, square across; for a slot with none beside it the width of the panel, 1000 at most',
  ),
  layers: z.array(layer).describe('of the build-up, from the wall'),
  depth_mm: num,
  available_mm: num,
});

export type Section = z.infer<typeof section>;
