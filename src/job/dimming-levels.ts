import * as z from 'zod';
import { quantity } from './quantity.ts';

/** One level for each channel of the strip. */
export const workingLevels = z
  .array(
    quantity({
      label: 'Working level',
      unit: '',
      min: 0,
      max: 1,
      why: 'a ratio of full, at which the wanted brightness is judged',
    }),
  )
  .min(1, { error: 'Give one level for each channel of the strip.' })
  .max(4, { error: 'A strip has at most four channels.' });

/** What the dimmer must still reach. */
export const lowestLevel = quantity({
  label: 'Lowest level',
  unit: '',
  min: 0.0001,
  max: 1,
  why: 'a ratio of full, which the dimmer must still reach without flicker',
});
