import type { CableData } from '../../src/job/cable.ts';
import { amountText, centsOfAmount, readNumber } from '../format.ts';
import type { PastedList } from './slot-list.ts';

type CorePrice = CableData['pricesByCores'][number];

function readPrice(row: string): CorePrice | undefined {
  const [, cores = '', amount = ''] =
    /^(\d+)\s*(?:cores?)?\s*[:=\s]\s*\p{Sc}?\s*(\S+?)\s*\p{Sc}?$/iu.exec(row) ?? [];
  const number = readNumber(amount);
  return number === undefined
    ? undefined
    : { cores: Number(cores), price_cents_per_m: centsOfAmount(number) };
}

/** Reads prices of a metre by number of cores, such as `3: 1.40; 5: 2.10`. */
export function readCorePrices(text: string): PastedList<CorePrice> {
  const rows = text
    .split(/[;\n]+/)
    .map((row) => row.trim())
    .filter((row) => row !== '');
  const read = rows.map((row) => ({ row, price: readPrice(row) }));
  return {
    values: read.flatMap(({ price }) => price ?? []),
    leftOver: read.filter(({ price }) => !price).map(({ row }) => row),
  };
}

/** The same as they stand in their field. */
export const corePricesText = (prices: readonly CorePrice[]): string =>
  prices.map(({ cores, price_cents_per_m }) => `${cores}: ${amountText(price_cents_per_m)}`).join('; ');
