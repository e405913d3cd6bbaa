import * as z from 'zod';
import { num, text } from './values.ts';

const clearance = z.strictObject({
  to: z.enum(['strip', 'profile', 'cover', 'cable', 'backing']),
  clear_mm: num.describe(
    'between it and the thing, in the section; below 0 by how far they run into each other',
  ),
});

const hungThing = z.strictObject({
  name: text,
  slot: text.nullable().describe('null where no slot has its number'),
  slides: z.boolean(),
  x0_mm: num.describe('one end of what it takes of the slot; of all it may reach where it slides'),
  y0_mm: num,
  x1_mm: num,
  y1_mm: num,
  width_mm: num.describe('along the slot'),
  reach_mm: num.describe('behind the face'),
  past_mm: num.describe('by how far it goes beyond an end of its slot; 0 where it keeps inside'),
  clearances: z.array(clearance).describe('to what lies behind it wherever it may be, the closest first'),
  dark_mm: num
    .nullable()
    .describe(
      'length of the slot that gets less than four fifths of its light; null where the law does not hold',
    ),
  shade: text.describe('what that rests on, or why it is not known'),
});

/** What hangs in the slots, and what it does to what lies behind. */
export const hung = z.array(hungThing);

export type HungAnswer = z.infer<typeof hung>;
export type HungThingAnswer = HungAnswer[number];
