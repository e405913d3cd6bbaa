import { cableCatalogue } from '../../src/job/cable-catalogue.ts';
import { dimmerCatalogue } from '../../src/job/dimmer-catalogue.ts';
import { driverCatalogue } from '../../src/job/driver-catalogue.ts';
import type { Job } from '../../src/job/job.ts';
import { type PricedProduct, pricedProducts } from '../../src/job/prices.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { amountText, centsOfAmount, readNumber } from '../format.ts';
import type { PastedList } from './slot-list.ts';

type ListedPrice = Job['prices']['list'][number];

const catalogues: Readonly<Record<PricedProduct, readonly { readonly id: string; readonly name: string }[]>> =
  { strip: stripCatalogue, driver: driverCatalogue, cable: cableCatalogue, dimmer: dimmerCatalogue };

/** A name without blanks and capitals, and with the letter people type for the sign of times. */
const folded = (name: string): string => name.toLowerCase().replaceAll('\u00d7', 'x').replace(/\s/g, '');

/** The entry of that name in the lists of the form, or of that key in the document. */
const entryNamed = (product: PricedProduct, words: string): string | undefined =>
  catalogues[product].find(({ id, name }) => [id, name].some((one) => folded(one) === folded(words)))?.id;

function readRow(row: string): ListedPrice | undefined {
  const [, first = '', words = '', amount = ''] =
    /^([a-z]+)[\s;:,]+(.+?)[\s;:,]+\p{Sc}?\s*(\S+?)\s*\p{Sc}?$/iu.exec(row) ?? [];
  const product = pricedProducts.find((one) => one === first.toLowerCase());
  const number = readNumber(amount);
  const entry = product && entryNamed(product, words);
  if (!product || !entry || number === undefined) return undefined;
  return { product, entry, price_cents: centsOfAmount(number) };
}

/** Reads a list of prices: product, its name as in the lists of the form, and an amount such as 24.90, one a line. */
export function readPrices(text: string): PastedList<ListedPrice> {
  const rows = text
    .split(/\r?\n/)
    .map((row) => row.trim())
    .filter((row) => row !== '');
  const read = rows.map((row) => ({ row, price: readRow(row) }));
  return {
    values: read.flatMap(({ price }) => price ?? []),
    leftOver: read.filter(({ price }) => !price).map(({ row }) => row),
  };
}

const nameOf = ({ product, entry }: ListedPrice): string =>
  catalogues[product].find(({ id }) => id === entry)?.name ?? entry;

/** Listed prices as they stand in their field, one a line: `driver  24 V 75 W driver  24.90`. */
export const pricesText = (list: readonly ListedPrice[]): string =>
  list.map((one) => `${one.product}  ${nameOf(one)}  ${amountText(one.price_cents)}`).join('\n');
