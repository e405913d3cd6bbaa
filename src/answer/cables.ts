import * as z from 'zod';
import { ids, num, text } from './values.ts';

export const conductors = z.enum(['both', 'positive', 'return']);

const point = z.strictObject({ x_mm: num, y_mm: num });

const cableEnd = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('output'), id: text.describe('of the driver output') }),
    z.strictObject({ kind: z.literal('tap'), id: text.describe('of the tap on a trunk or a ring') }),
    z.strictObject({
      kind: z.literal('pad'),
      run: text,
      cutLine: num,
      feedPoint: text.nullable().describe('null where the cable leaves a run for the next'),
    }),
  ])
  .describe('what an end of a cable is made off to');

/** The cables: from where to where, which way, what they carry and what protects them. */
export const cable = z.strictObject({
  id: text,
  name: text,
  from: cableEnd,
  to: cableEnd,
  conductors,
  serves: ids.describe('feed points that draw through this cable'),
  route: z.array(point),
  way_mm: num.describe('along the cable way'),
  length_mm: num.describe('with tails and allowance'),
  conductorCount: num,
  current_A: num,
  drop_V: num,
  loss_W: num,
  capacity_A: num.describe('after ambient and grouping factors'),
  fuse_A: num.nullable(),
  fuseOpens: z
    .boolean()
    .describe('the rated current of the driver is enough to open the fuse; false without one'),
  protectedBy: z.enum(['fuse', 'driver', 'nothing']),
  farShort_A: num.describe('current of a short at the far end of what this cable feeds'),
  farShortNoticed: z.boolean().describe('the fuse opens or the driver reaches its limit'),
  loop_ohm: num.describe('both conductors at 20 degC'),
});

export type CableEnd = z.infer<typeof cableEnd>;
export type Cable = z.infer<typeof cable>;
