import * as z from 'zod';
import { choice, count, line, quantity } from './quantity.ts';

/** Products a price can be listed for. */
export const pricedProducts = ['strip', 'driver', 'cable', 'dimmer'] as const;

export type PricedProduct = (typeof pricedProducts)[number];

/** A price in whole cents of whichever currency the job is reckoned in; the catalogue knows none. */
export const price_cents = (label: string) =>
  count({ label, min: 0, max: 10000000, why: 'whole cents, up to a hundred thousand' });

/** What a metre costs, which may be a part of a cent. */
export const price_cents_per_m = quantity({
  label: 'Price of a metre, in cents',
  unit: '',
  min: 0,
  max: 100000,
  isWrittenPlain: true,
  why: 'cents, up to a thousand a metre',
});

const listed = z.strictObject({
  product: choice('Product of a price', pricedProducts),
  entry: line('Entry of a price', 60),
  price_cents: price_cents('Price in cents'),
});

/**
 * The workshop's own prices of catalogue entries: of a reel, a driver, a metre of cable, a dimmer. A price entered with a
 * product in use goes before the one listed.
 */
export const prices = z
  .strictObject({
    note: line('What the prices are', 120),
    list: z.array(listed).max(80, { error: 'A job lists at most 80 prices.' }),
  })
  .default({ note: '', list: [] });

/** What the list says an entry costs, or null. */
export const listedPrice_cents = (
  { list }: z.infer<typeof prices>,
  product: PricedProduct,
  entry: string,
): number | null => list.find((one) => one.product === product && one.entry === entry)?.price_cents ?? null;
