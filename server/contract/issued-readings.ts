import * as z from 'zod';
import { overRange } from '../../src/answer/values.ts';
import { longestPerson } from './person.ts';

/** What is measured at a row of the test sheet, with its unit, as in `WrittenRow`; or ticked off: a step, a link taken out. */
export const measuredQuantities = [
  'loop_ohm',
  'noLoad_V',
  'loaded_V',
  'current_A',
  'done',
  'linkOut',
] as const;

/** What is written into a box. */
export const readingValue = z.union([z.number().min(0).max(1e6), overRange]);

const isTick = (quantity: string): boolean => quantity === 'done' || quantity === 'linkOut';

const box = {
  row: z.string().min(1).max(60).describe('reference of the row, from the first column of the test sheet'),
  quantity: z.enum(measuredQuantities),
  value: readingValue
    .nullable()
    .describe(
      'what the meter showed, in the unit of the quantity, or OL for an open loop; 1 for a tick; null for a box that was emptied',
    ),
};

/** A box of the test sheet as it stands. */
const issuedReading = z
  .strictObject({
    ...box,
    version: z.int().min(1).describe('how often the box was written'),
    by: z.string().describe('who wrote it; empty where nobody said'),
    at: z.string().describe('date and time, UTC, ISO 8601'),
  })
  .meta({ id: 'IssuedReading', title: 'Reading of an issued revision' });

/** What was measured on an issued revision: every box that was ever written. */
export const issuedReadings = z
  .strictObject({ readings: z.array(issuedReading) })
  .meta({ id: 'IssuedReadings', title: 'Readings of an issued revision' });

/** Boxes somebody fills in, each with the version of it that was on the page. */
export const readingsWritten = z
  .strictObject({
    readings: z
      .array(
        z
          .strictObject({
            ...box,
            version: z.int().min(0).describe('version of the box that was seen; 0 for one never written'),
            taken: z
              .strictObject({ by: z.string().max(longestPerson), at: z.iso.datetime() })
              .optional()
              .describe('who took it and when, where it comes out of a saved file; left out: who asks, now'),
          })
          .refine(({ quantity, value }) => value === null || value === 1 || !isTick(quantity), {
            error: 'A step or a link that is out has a tick: give 1, or null for none.',
          })
          .refine(({ quantity, value }) => value !== 'OL' || quantity === 'loop_ohm', {
            error:
              'OL is what an ohmmeter shows of an open loop: give it for loop_ohm, and a number for volts and amps.',
          }),
      )
      .max(5000, { error: 'readings holds more boxes than any test sheet: send those of one sheet.' }),
  })
  .meta({ id: 'ReadingsWritten', title: 'Readings to be kept' });

/** What came of it: boxes somebody else wrote meanwhile keep what they hold, and are named with it. */
export const readingsKept = z
  .strictObject({
    readings: z.array(issuedReading),
    conflicts: z
      .array(z.strictObject({ ...box, theirs: issuedReading }))
      .describe('values that were not kept, each beside the one that stands'),
  })
  .meta({ id: 'ReadingsKept', title: 'Readings kept' });

export type IssuedReading = z.infer<typeof issuedReading>;
export type ReadingToKeep = z.infer<typeof readingsWritten>['readings'][number];
export type ReadingsKept = z.infer<typeof readingsKept>;
export type IssuedReadings = z.infer<typeof issuedReadings>;
