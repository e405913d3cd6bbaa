import * as z from 'zod';
import { conductors } from './cables.ts';
import { ids, num, text } from './values.ts';

const slotLine = z.strictObject({
  id: text,
  number: num.describe(
    'its place in the list of the job, from 1, by which zones and feed exceptions name it',
  ),
  panel: text.nullable().describe('mark of the panel it lies in; null in a wall without panels'),
  x0_mm: num,
  y0_mm: num,
  x1_mm: num,
  y1_mm: num,
  length_mm: num,
  width_mm: num,
});

const neighbour = z.strictObject({
  slot: text,
  beside: text.describe('the next slot, square across'),
  side: z.enum(['left', 'right']).describe('of the slot, seen from its start to its finish'),
  from_mm: num.describe('along the slot from its start'),
  to_mm: num,
  fromDistance_mm: num.describe(
    'square across from centre line to centre line, at the beginning of the stretch',
  ),
  toDistance_mm: num.describe('the same at its end'),
});

const piece = z.strictObject({ id: text, run: text, unitCount: num, length_mm: num, reel: text });

const feedPoint = z.strictObject({
  id: text,
  run: text,
  cutLine: num.describe('0 at the start, the unit count at the finish'),
  conductors,
  at: z.enum(['start', 'finish', 'between']),
  x_mm: num,
  y_mm: num,
});

const run = z.strictObject({
  id: text,
  slot: text,
  zone: text.nullable().describe('name of the zone it is dimmed in; null for none'),
  unitCount: num,
  strip_mm: num,
  darkStart_mm: num,
  darkFinish_mm: num,
  x0_mm: num.describe('where the strip starts'),
  y0_mm: num,
  x1_mm: num,
  y1_mm: num,
  pieces: z.array(piece),
  jointLines: z.array(num).describe('cut lines where two pieces are joined'),
  feedPoints: z.array(feedPoint),
});

const reel = z.strictObject({
  id: text,
  length_mm: num,
  fromStock: z.boolean().describe('whether it is an offcut that was there, which costs nothing'),
  pieces: ids,
  used_mm: num,
  left_mm: num,
});

/** Slots, runs, pieces and reels: what is cut where. */
export const setOut = z.strictObject({
  slots: z
    .array(slotLine)
    .describe('in the order one meets them along the wall, whichever way they were listed'),
  neighbours: z
    .array(neighbour)
    .describe(
      'who lies beside whom: every stretch of every slot, seen from both; nobody is compared across a corner of the wall',
    ),
  runs: z.array(run).describe('in the order of the slots'),
  reels: z.array(reel),
  reelMethod: text.describe('how the reels were found and what that is worth'),
  strip_m: num,
  jointCount: num,
});

export type SetOut = z.infer<typeof setOut>;
export type SlotLine = z.infer<typeof slotLine>;
export type Neighbour = z.infer<typeof neighbour>;
export type Run = z.infer<typeof run>;
export type Piece = z.infer<typeof piece>;
export type Reel = z.infer<typeof reel>;
export type FeedPoint = z.infer<typeof feedPoint>;
