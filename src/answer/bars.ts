import * as z from 'zod';
import { num, text } from './values.ts';

const piece = z.strictObject({
  slot: text.describe('the slot it goes into'),
  length_mm: num,
});

/** Bars of a profile or a cover as they are cut: what is bought in lengths. */
export const barCut = z.strictObject({
  item: z.enum(['profile', 'cover']),
  name: text,
  bar_mm: num.describe('length of a bar as it is bought'),
  kerf_mm: num.describe('what each saw cut takes'),
  bars: z.array(
    z.strictObject({
      id: text,
      pieces: z.array(piece),
      left_mm: num.describe('what is left of it after the last cut'),
    }),
  ),
  jointCount: num.describe('places where two pieces meet in a slot that is longer than a bar'),
  isLeast: z.boolean().describe('whether no fewer bars serve these pieces'),
  method: text,
});

export type BarCut = z.infer<typeof barCut>;
