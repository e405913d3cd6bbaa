import * as z from 'zod';
import { ids, num, text } from './values.ts';

const symbol = text.describe(
  'of a quantity of the same working; an underscore begins what is set below the line',
);

/** How a quantity follows from others of the same working. */
export const law = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('sum'), plus: ids, minus: ids }),
  z.strictObject({ is: z.literal('product'), times: ids, over: ids }),
  z
    .strictObject({ is: z.literal('power'), base: symbol, exponent: symbol })
    .describe('of a base of nothing or less: nothing'),
  z.strictObject({ is: z.literal('least'), of: ids }),
  z.strictObject({ is: z.literal('greatest'), of: ids }),
  z.strictObject({ is: z.literal('whole'), of: symbol }).describe('the whole number below'),
]);

const quantity = z.strictObject({
  symbol,
  meaning: text,
  value: num,
  unit: text,
  law: law.nullable().describe('null where it is entered, looked up, or read off a larger calculation'),
  source: text.nullable().describe('where a value without a law is from, or who states the law'),
});

const turn = z.strictObject({
  symbol,
  value: num.describe('at which the figure meets its limit, everything else in the working as it is'),
});

/** The working behind a finding: every quantity after those it follows from, so that it can be gone through line by line. */
export const working = z.strictObject({
  quantities: z.array(quantity),
  result: symbol.describe('of what was found'),
  limit: symbol.nullable().describe('of what it is held against'),
  must: z.enum(['not exceed', 'reach']).describe('what the result must do with the limit'),
  turns: z.array(turn).describe('what it would take to change the verdict, one quantity at a time'),
});

export type Law = z.infer<typeof law>;
export type Quantity = z.infer<typeof quantity>;
export type Working = z.infer<typeof working>;
