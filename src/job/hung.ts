import * as z from 'zod';
import { line, quantity } from './quantity.ts';
import { slotNumber } from './slots.ts';

/** What passes a slot from the room: a hook, a peg, a bracket. */
export const hungThing = z.strictObject({
  name: line('What hangs in the slot', 30),
  slot: slotNumber,
  place_mm: quantity({
    label: 'Its middle from the start of the slot',
    unit: 'mm',
    min: 0,
    max: 20000,
    why: 'slots are up to 20 m long; left out, it may slide to any place of its slot',
  })
    .nullable()
    .default(null),
  width_mm: quantity({
    label: 'Its width along the slot',
    unit: 'mm',
    min: 1,
    max: 2000,
    why: 'from a wire hook to a shelf bracket; across, it is taken to fill the slot',
  }),
  reach_mm: quantity({
    label: 'Its reach behind the face',
    unit: 'mm',
    min: 0,
    max: 500,
    why: 'what holds it behind the front counts as well',
  }),
});

export type HungThing = z.infer<typeof hungThing>;

/** The most things a job hangs in its slots. */
const mostHung = 60;

export const hung = z
  .array(hungThing)
  .max(mostHung, { error: `A job hangs at most ${mostHung} things in its slots.` })
  .default([]);

/** A peg to begin from, free to slide. */
export const newHungThing = (name: string, slot: number): HungThing => ({
  ...{ name, slot, place_mm: null, width_mm: 12, reach_mm: 16 },
});
