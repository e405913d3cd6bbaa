import * as z from 'zod';
import { quantity } from './quantity.ts';
import { room } from './room.ts';

/** How bright a slot is to look. */
export const wantedBrightness = quantity({
  label: 'Wanted brightness of a slot',
  unit: 'cd/m²',
  min: 1,
  max: 5000,
  why: 'a candle-lit wall is near 1, a bright window near 5,000',
});

/** How bright the wall is to look, and from where it is looked at. */
export const light = z.strictObject({
  wanted_cd_per_m2: wantedBrightness,
  viewing_mm: quantity({
    label: 'Viewing distance',
    unit: 'mm',
    min: 200,
    max: 20000,
    why: 'from close inspection to the far side of a hall',
  }),
  floor_mm: quantity({
    label: 'Bottom of the panel above the floor',
    unit: 'mm',
    min: 0,
    max: 6000,
    why: 'it decides what a standing or a sitting eye sees of the LEDs',
  }),
  /** The room before the wall and the light wanted in it; nothing is asked of it where it is left out. */
  room: room.nullable().default(null),
});
