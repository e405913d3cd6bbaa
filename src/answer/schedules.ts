import * as z from 'zod';
import { num, text } from './values.ts';

const cell = z.union([z.string(), z.number(), z.null()]);

/** The tables handed over, as rows of unrounded values. */
export const schedule = z.strictObject({
  id: z.enum([
    'drivers',
    'dimming',
    'cables',
    'feed-points',
    'cutting-list',
    'reels',
    'panels',
    'bars',
    'bill',
    'test-sheet',
    'protection',
  ]),
  title: text,
  columns: z.array(
    z.strictObject({
      key: text,
      label: text,
      unit: text,
      digits: num.describe('decimals to show; the row holds the unrounded number'),
    }),
  ),
  rows: z.array(z.array(cell)),
  notes: z.array(text).describe('what the figures in it rest on, to be printed with it'),
});

export type Schedule = z.infer<typeof schedule>;
export type ScheduleCell = z.infer<typeof cell>;
