import * as z from 'zod';
import { dimmerData } from './dimmer.ts';
import { lowestLevel, workingLevels } from './dimming-levels.ts';
import { choice, line, quantity } from './quantity.ts';
import { zone } from './zone.ts';

/** How the light is dimmed, what it is sized for, and which slots are dimmed together. Control `none` is no part of this job. */
export const dimming = z.strictObject({
  control: choice('Dimmed by', ['none', 'driver', 'dimmer']).default('none'),
  /** Between driver and strip; null where none is. */
  dimmer: z
    .strictObject({ entry: line('Dimmer from the catalogue', 60), data: dimmerData.partial() })
    .nullable()
    .default(null),
  /** Null for every channel full at once. */
  mixingLimit: quantity({
    label: 'Largest sum of the levels of all channels',
    unit: '',
    min: 1,
    max: 4,
    why: 'a ratio: one channel full is 1; all of them full at once is their number',
  })
    .nullable()
    .default(null),
  levels: workingLevels,
  /** What the dimmer must still reach; null for the lowest of the working levels. */
  lowest: lowestLevel.nullable().default(null),
  sizeFor: choice('Sized for', ['all on', 'levels']),
  pwm_Hz: quantity({
    label: 'Dimming frequency',
    unit: 'Hz',
    min: 50,
    max: 100000,
    why: 'dimmers switch at 100 Hz to 30 kHz',
  }).nullable(),
  zones: z.array(zone).max(40),
  /** What slots in no zone are called. */
  restName: line('Name of the slots in no zone', 30).default(''),
});
