import * as z from 'zod';
import { num, text } from './values.ts';

export const conditionId = z.enum(['dimmer-limit', 'mixing-limit']);

export const condition = z.strictObject({
  id: conditionId,
  holds: z.enum(['heat', 'everything']).describe('what holds only under it'),
  levels: z
    .array(num)
    .describe(
      'of each channel, which the dimmer must be unable to go above, the highest of any zone, or the worst mix; ratios of full',
    ),
  sentence: text.describe('what has to be so, and who sees to it'),
  short: text.describe('the same in a few words, to stand after "this holds"'),
});

export type Condition = z.infer<typeof condition>;
