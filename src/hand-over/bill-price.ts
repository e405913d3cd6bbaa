import type { Price, PricedItem } from '../answer/price.ts';
import { money } from '../words.ts';

/** A row of the bill as far as its price goes. */
export interface PriceableRow {
  readonly item: string;
  readonly description: string;
  readonly quantity: number;
  readonly unit: string;
  readonly spare: number;
  /** Of one unit; null where nobody gave one. */
  readonly each_cents: number | null;
}

function priced({ item, description, quantity, spare, unit, each_cents }: PriceableRow): PricedItem {
  const ordered = quantity + spare;
  const price_cents = each_cents === null ? null : Math.round(ordered * each_cents);
  return { item, description, ordered, unit, each_cents, price_cents };
}

/**
 * What a bill comes to: `price = round(each * (quantity + spare))` row by row, in whole cents, and the sum of those known.
 * @param note what the job says its prices are
 * Check: `tests/hand-over/bill-price.test.ts`.
 */
export function priceOfBill(rows: readonly PriceableRow[], note: string): Price {
  const items = rows.map(priced);
  const known = items.flatMap(({ price_cents }) => price_cents ?? []);
  return {
    items,
    known_cents: known.length === 0 ? null : known.reduce((sum, cents) => sum + cents, 0),
    missing: [...new Set(items.filter(({ price_cents }) => price_cents === null).map(({ item }) => item))],
    note,
  };
}

/** What is to be printed with the bill about its prices. */
export function priceNotes({ known_cents, missing, note }: Price): string[] {
  const what = note === '' ? [] : [`Prices: ${note}`];
  if (known_cents === null)
    return [
      'No prices are given, and entries of the catalogue have none: enter those of your suppliers with strip, drivers, cables and dimmer, or list them.',
      ...what,
    ];
  const without =
    missing.length === 0
      ? 'Every row has a price.'
      : `Not in it, since no price is given: ${missing.map((item) => item.toLowerCase()).join(', ')}.`;
  return [`All prices given come to ${money(known_cents)}, spares included. ${without}`, ...what];
}
