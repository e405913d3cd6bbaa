import * as z from 'zod';
import { choice, count, quantity } from './quantity.ts';

const slotWidth = quantity({
  label: 'Slot width',
  unit: 'mm',
  min: 2,
  max: 200,
  why: 'a saw kerf is 2 mm; beyond 200 mm it is a window, not a slot',
});

const margin = (side: string) =>
  quantity({
    label: `${side} margin`,
    unit: 'mm',
    min: 0,
    max: 20000,
    why: 'margins are measured inward from the edge of the panel',
  });

const pitch = quantity({
  label: 'Slot pitch',
  unit: 'mm',
  min: 5,
  max: 5000,
  why: 'centre to centre of neighbouring slots',
});

const coordinate = (label: string) =>
  quantity({
    label,
    unit: 'mm',
    min: 0,
    max: 30000,
    why: "coordinates are measured from the panel's lower left corner",
  });

/** The most slots a job may have; a wall of this many is beyond one set of papers. */
export const mostSlots = 400;

/** A slot by its number, where feeds and zones name it. */
export const slotNumber = count({
  label: 'Slot number',
  min: 1,
  max: mostSlots,
  why: 'slots are numbered from 1, left to right or bottom to top',
});

const spacing = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('pitch'), pitch_mm: pitch }),
  z.strictObject({
    by: z.literal('count'),
    count: count({
      label: 'Number of slots',
      min: 1,
      max: mostSlots,
      why: 'one set of papers holds no more',
    }),
  }),
]);

/** Evenly spaced straight slots between margins. Upright slots start at the foot, level ones at the left. */
const generated = z.strictObject({
  from: z.literal('generator'),
  axis: choice('Slot direction', ['upright', 'level']),
  width_mm: slotWidth,
  left_mm: margin('Left'),
  right_mm: margin('Right'),
  foot_mm: margin('Foot'),
  head_mm: margin('Head'),
  spacing,
});

/** Upright slots from a pasted list of lengths, left to right. */
const listed = z.strictObject({
  from: z.literal('lengths'),
  width_mm: slotWidth,
  first_mm: coordinate('Centre of the first slot from the left edge'),
  pitch_mm: pitch,
  level_mm: coordinate('Height of the line the slots stand on or hang from'),
  align: choice('Slots aligned at', ['foot', 'middle', 'head']),
  lengths_mm: z
    .array(
      quantity({
        label: 'Slot length',
        unit: 'mm',
        min: 10,
        max: 20000,
        why: 'a slot must hold a piece of strip',
      }),
    )
    .min(1, { error: 'The list of slot lengths is empty: paste at least one length in mm.' })
    .max(mostSlots, { error: `A job holds at most ${mostSlots} slots: split the wall into several jobs.` }),
});

const segment = z.strictObject({
  x0_mm: coordinate('Start of a slot, from the left'),
  y0_mm: coordinate('Start of a slot, from the bottom'),
  x1_mm: coordinate('Finish of a slot, from the left'),
  y1_mm: coordinate('Finish of a slot, from the bottom'),
  /** Left out, that of all slots. */
  width_mm: quantity({
    label: 'Width of this slot',
    unit: 'mm',
    min: 2,
    max: 200,
    why: 'left out, it is as wide as the slots are otherwise; a saw kerf is 2 mm, beyond 200 mm it is a window',
  }).optional(),
});

/** Slots as straight centre lines at any angle, from a drawing or a table. */
const drawn = z.strictObject({
  from: z.literal('segments'),
  width_mm: slotWidth,
  segments: z
    .array(segment)
    .min(1, {
      error: 'There is no slot yet: write at least one, as four numbers in mm, or read a drawing in.',
    })
    .max(mostSlots, { error: `A job holds at most ${mostSlots} slots: split the wall into several jobs.` }),
});

/** Where the slots are: the joiner's drawing, given in one of three ways. */
export const slots = z.discriminatedUnion('from', [generated, listed, drawn], {
  error: 'Slots must come from "generator", "lengths" or "segments".',
});

export type Slots = z.infer<typeof slots>;
export type Segment = z.infer<typeof segment>;
