import * as z from 'zod';
import { num } from './values.ts';

/** How a device stands in its place. */
export const caseKeys = {
  x_mm: num.describe("of its lower left corner, from the panel's"),
  y_mm: num,
  across_mm: num,
  up_mm: num,
  deep_mm: num,
  faces: z
    .enum(['left', 'right', 'up', 'down'])
    .describe('the side its outgoing terminals are on; the one asked for, where they face out of the wall'),
  out_x_mm: num.describe('of the middle of that side; of the case where they face out of the wall'),
  out_y_mm: num,
};

const caseAt = z.strictObject(caseKeys);

export type CaseAt = z.infer<typeof caseAt>;
