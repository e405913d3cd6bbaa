import * as z from 'zod';
import { num, text } from './values.ts';

const priced = z.strictObject({
  item: text,
  description: text,
  ordered: num.describe('quantity to order, spares included'),
  unit: text,
  each_cents: num.nullable().describe('of one unit; null where no price is given'),
  price_cents: num.nullable().describe('of all that is to order, to the cent'),
});

/** What the bill comes to, as far as prices are given. */
export const price = z.strictObject({
  items: z.array(priced).describe('every row of the bill, in its order'),
  known_cents: num.nullable().describe('all prices that are known together; null where none is'),
  missing: z.array(text).describe('items without a price, each once'),
  note: text.describe('what the job says its prices are, such as invented; empty for nothing'),
});

export type PricedItem = z.infer<typeof priced>;
export type Price = z.infer<typeof price>;
