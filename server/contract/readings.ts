import * as z from 'zod';
import { judgedReadings, writtenRow } from '../../src/answer/asked.ts';
import { jobDocument } from './job.ts';

/** A job and what was measured on it. */
export const readingsOfJob = z
  .strictObject({
    job: jobDocument,
    readings: z
      .array(writtenRow, { error: 'readings must be a list of rows of the test sheet; it may be empty.' })
      .max(5000, { error: 'readings holds more rows than any test sheet: send those of one job.' }),
  })
  .meta({ id: 'ReadingsOfJob', title: 'A job and what was measured on it' });

/** Every reading judged, and what they say together. */
export const judged = judgedReadings.meta({
  id: 'JudgedReadings',
  title: 'Readings judged',
  description:
    'Every box of the test sheet with its band, what was measured and how it is judged, and the finding: as predicted, a place and the ohms there, a run that draws nothing, or that the readings do not tell.',
});
