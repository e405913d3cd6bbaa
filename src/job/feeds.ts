import * as z from 'zod';
import { choice, count, quantity } from './quantity.ts';
import { mostSlots, slotNumber } from './slots.ts';

const arrangements = ['start', 'finish', 'both', 'between', 'crossed', 'chosen'] as const;

const feedCount = count({
  label: 'Feed points between the ends',
  min: 1,
  max: 20,
  why: 'each is a joint somebody has to solder',
});

/** Where a run is fed that is fed at chosen cut lines; the set-out says which of them it has. */
const cutLines = z
  .array(
    count({
      label: 'Cut line',
      min: 0,
      max: 10000,
      why: 'cut lines are counted in cut units from the start of the strip, which is 0',
    }),
  )
  .max(20, { error: 'A run is fed at 20 chosen cut lines at most: each is a joint somebody has to solder.' })
  .default([])
  .meta({ title: 'Cut lines to feed at' });

const feeding = {
  arrangement: choice('Feed arrangement', arrangements),
  betweenCount: feedCount,
  cutLines,
};

/** How runs are fed, and slots that are fed otherwise. */
export const feeds = z.strictObject({
  ...feeding,
  exceptions: z.array(z.strictObject({ slot: slotNumber, ...feeding })).max(mostSlots),
  terminal_mohm: quantity({
    label: 'Contact resistance of a terminal, per conductor',
    unit: 'mΩ',
    min: 0,
    max: 1000,
    why: 'a soldered pad is below 1 mΩ, a clip-on connector 5 to 50 mΩ',
  }),
  joint_mohm: quantity({
    label: 'Contact resistance of a strip joint, per rail',
    unit: 'mΩ',
    min: 0,
    max: 1000,
    why: 'a soldered joint is below 1 mΩ, a clip-on connector 5 to 50 mΩ',
  }),
});

export type Arrangement = (typeof arrangements)[number];
