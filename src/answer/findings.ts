import * as z from 'zod';
import { conditionId } from './conditions.ts';
import { statuses } from './finding-status.ts';
import { num, text } from './values.ts';
import { working } from './workings.ts';

export const place = z.strictObject({
  slot: text.optional(),
  run: text.optional(),
  driver: text.optional(),
  cable: text.optional(),
  feedPoint: text.optional(),
  field: text.optional().describe('path into the job document'),
});

const remedy = z.strictObject({
  sentence: text.describe('one thing to change'),
  field: text
    .nullable()
    .describe('path into the job document of what it changes; null where nothing in it does'),
});

/** Every check: what was found, against which limit, and what to change. */
export const finding = z.strictObject({
  id: text,
  question: z.enum(['set-out', 'circuit', 'drivers', 'heat', 'light', 'cables', 'depth']),
  status: z.enum(statuses),
  place,
  title: text,
  value: num.nullable(),
  limit: num.nullable(),
  margin: num.nullable().describe('positive while there is room'),
  unit: text,
  basis: text.describe('what the limit rests on'),
  sentence: text.describe('what it means'),
  passesUnder: z
    .array(conditionId)
    .optional()
    .describe('conditions but for which it would pass, and which alone make it a warning'),
  working: working
    .optional()
    .describe(
      'how value and limit were come by; left out where there is nothing to work out, such as of a count',
    ),
  remedies: z.array(remedy).describe('what to change, the best first; empty where nothing is asked for'),
});

export type Finding = z.infer<typeof finding>;
export type Remedy = z.infer<typeof remedy>;
