import * as z from 'zod';
import { num, range, text } from './values.ts';

const lumens = z.strictObject({
  full_lm: num,
  working_lm: num.describe('at the working levels of its zone'),
});

const illuminance = z.strictObject({
  direct_lx: num.describe('straight from the slots, new'),
  bounced_lx: num.describe('reflected by the room, as even over all its faces, new'),
  maintained_lx: num.describe('both times the maintenance factor'),
  band_lx: range.describe('the maintained one over the tolerances'),
});

const point = z.strictObject({
  name: text,
  plane: z.enum(['level', 'facing wall']).describe('level: it looks up; else it looks at the lit wall'),
  distance_mm: num.describe('from the lit wall'),
  height_mm: num.describe('above the floor'),
  along_mm: num.describe('from the left edge of the panel'),
  working: illuminance,
  full: illuminance,
  wanted_lx: num.nullable(),
});

/** What the wall gives the room: lumens, and lux where they are asked for. */
export const roomLight = z.strictObject({
  slots: z.array(lumens.extend({ slot: text })).describe('light that leaves each slot, at the volts solved'),
  wall: lumens,
  tolerance: range.describe(
    'light that leaves over its figure: strip, finishes and sheets at one end at once',
  ),
  points: z.array(point).describe('in the order of the job; empty where no room is given'),
  method: text,
  doubts: z
    .array(text)
    .describe('why the lux may be further off than their band; empty where nothing says so'),
});

export type RoomLight = z.infer<typeof roomLight>;
export type RoomPointLight = z.infer<typeof point>;
