import type { OwnProduct, ProductKind } from '../../src/job/own-product.ts';
import { mostChannels, type ProductField, productFields } from '../../src/job/product-fields.ts';
import { type DecimalMark, readCell, shifted } from './numbers.ts';

/** Heading of a column: what it holds, with its unit. */
export const headingOf = ({ label, unit }: Pick<ProductField, 'label' | 'unit'>): string =>
  unit === '' ? label : `${label} (${unit})`;

/** The first column: which product a row is, so that a table can be brought back. */
export const idHeading = 'Id';
/** Values for empty cells come from this entry of the catalogue. */
export const typicalHeading = 'Typical values from';
/** Written beside rows that were not taken; not read. */
export const reasonHeading = 'Why it was not taken';

/** Headings of the table of a kind, in their order. */
export const headingsOf = (kind: ProductKind): string[] => [
  idHeading,
  ...productFields(kind).map(headingOf),
  typicalHeading,
];

const placesOf: Readonly<Partial<Record<ProductField['kind'], number>>> = { ratio: 2, money: -2 };

/** A number of a product as it stands in its cell: ratios in percent, money in whole units of its currency. */
function numberText(value: number, kind: ProductField['kind']): string {
  const plain = String(value);
  return /e/.test(plain) ? plain : shifted(plain, placesOf[kind] ?? 0);
}

const isRecord = (x: unknown): x is Readonly<Record<string, unknown>> => typeof x === 'object' && x !== null;

/** What a product holds at a path; undefined where it goes nowhere. */
export const at = (product: unknown, path: ProductField['path']): unknown =>
  path.reduce<unknown>((value, step) => (isRecord(value) ? value[step] : undefined), product);

interface PriceByCores {
  readonly cores: number;
  readonly price_cents_per_m: number;
}

/** A value of a product as it stands in its cell. */
export function cellOf(product: OwnProduct, { path, kind }: ProductField): string {
  const value = at(product, path);
  if (value === undefined || value === null) return '';
  if (kind === 'counts') return (value as number[]).join(' ');
  if (kind === 'prices')
    return (value as PriceByCores[])
      .map(({ cores, price_cents_per_m }) => `${cores}: ${numberText(price_cents_per_m, 'money')}`)
      .join('; ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? numberText(value, kind) : String(value);
}

/** What a cell means: a value, or the sentence that says why it means nothing. */
export type CellRead = { readonly value: unknown } | { readonly sentence: string };

function readNumber(cell: string, field: ProductField, decimal: DecimalMark): CellRead {
  const bare = cell.trim().replace(/^\p{Sc}\s*|\s*\p{Sc}$/u, '');
  const own = field.unit === '' ? '' : field.unit.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const plain = own === '' ? bare : bare.replace(new RegExp(`\\s*${own}$`), '');
  const read = readCell(plain, decimal);
  const isAmount = field.kind === 'money';
  if ('plain' in read) return { value: Number(shifted(read.plain, -(placesOf[field.kind] ?? 0))) };
  if (read.why === 'unclear')
    return {
      sentence: `“${cell}” may be a whole number with a mark between thousands or a part after it: write it without one for thousands, and with one more figure for a part.`,
    };
  const like = isAmount ? 'an amount such as 24.90' : 'a number';
  return { sentence: `“${cell}” is not ${like}${field.unit === '' ? '' : ` in ${field.unit}`}.` };
}

function readChoice(cell: string, { words, label }: ProductField): CellRead {
  const folded = (text: unknown): string => String(text).trim().toLowerCase();
  const word = words.find((each) => folded(each) === folded(cell));
  if (word !== undefined) return { value: word };
  return { sentence: `${label} is one of: ${words.join(', ')}; not “${cell}”.` };
}

function readYesNo(cell: string): CellRead {
  if (/^(yes|y|true|1)$/i.test(cell.trim())) return { value: true };
  if (/^(no|n|false|0)$/i.test(cell.trim())) return { value: false };
  return { sentence: `“${cell}” is neither yes nor no.` };
}

function readCounts(cell: string): CellRead {
  const parts = cell.split(/[^\d]+/).filter((part) => part !== '');
  if (parts.length > 0) return { value: parts.map(Number) };
  return { sentence: `“${cell}” holds no numbers: write them such as 2 3 5.` };
}

function readPrices(cell: string, field: ProductField, decimal: DecimalMark): CellRead {
  const parts = cell.split(/[;\n]+/).filter((part) => part.trim() !== '');
  const read = parts.map((part) => {
    const [, cores = '', amount = ''] = /^\s*(\d+)\s*(?:cores?)?\s*[:=]\s*(.+)$/i.exec(part) ?? [];
    const price = readNumber(amount, { ...field, kind: 'money' }, decimal);
    return 'value' in price && cores !== '' ? { cores: Number(cores), price_cents_per_m: price.value } : null;
  });
  if (!read.includes(null)) return { value: read };
  return {
    sentence: `“${cell}” is not numbers of cores with their prices: write them such as 3: 1.40; 5: 2.10.`,
  };
}

/** Reads a cell that is not empty as the value of a field. */
export function readValue(cell: string, field: ProductField, decimal: DecimalMark): CellRead {
  switch (field.kind) {
    case 'text':
      return { value: cell.trim() };
    case 'choice':
      return readChoice(cell, field);
    case 'yes-no':
      return readYesNo(cell);
    case 'counts':
      return readCounts(cell);
    case 'prices':
      return readPrices(cell, field, decimal);
    default:
      return readNumber(cell, field, decimal);
  }
}

/** The channel a field belongs to, from 0; null for what is no channel's. */
export const channelOf = ({ path }: ProductField): number | null =>
  path[1] === 'channels' && typeof path[2] === 'number' && path[2] < mostChannels ? path[2] : null;
