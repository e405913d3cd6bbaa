import type { CableData } from '../../src/job/cable.ts';
import { entriesOf } from '../../src/job/catalogues.ts';
import { fieldName } from '../../src/job/field-name.ts';
import {
  type OwnProduct,
  type OwnProductOf,
  ownProducts,
  type ProductKind,
} from '../../src/job/own-product.ts';
import { mostChannels, type ProductField, productFields } from '../../src/job/product-fields.ts';
import { profileCoverCatalogue } from '../../src/job/profile-catalogue.ts';
import {
  amountText,
  centsOfAmount,
  entryText,
  ratioOfPercent,
  ratiosAsPercent,
  readEntryNumber,
} from '../format.ts';
import { corePricesText, readCorePrices } from './core-prices.ts';
import { valueAt, withValue } from './paths.ts';
import { readWholes } from './slot-list.ts';

/** What is typed into the form of a product, by the names of its fields. */
export type ProductTexts = Readonly<Record<string, string>>;

/** A product without its id, which the workshop gives. */
export type Unnamed = { [Kind in ProductKind]: Omit<OwnProductOf<Kind>, 'id'> }[ProductKind];

/** The name of a field in the form: `data.channels[1].watts_per_m`. */
export const nameOf = ({ path }: Pick<ProductField, 'path'>): string => fieldName(path);

function textOf(value: unknown, { kind }: ProductField): string {
  if (value === null || value === undefined) return '';
  if (kind === 'counts') return (value as number[]).join(' ');
  if (kind === 'prices') return corePricesText(value as CableData['pricesByCores']);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'number') return String(value);
  return kind === 'money' ? amountText(value) : entryText(value, kind === 'ratio');
}

/** A product as it stands in its form. */
export const textsOf = (product: OwnProduct | Unnamed): ProductTexts =>
  Object.fromEntries(
    productFields(product.kind).map((field) => [nameOf(field), textOf(valueAt(product, field.path), field)]),
  );

/** The entries of the catalogue a product may begin from. */
export const typicalEntries = (
  kind: ProductKind,
): readonly { readonly id: string; readonly name: string }[] =>
  kind === 'cover' ? profileCoverCatalogue : entriesOf({ products: [] }, kind);

/** A product to begin from: a typical entry, to be given a name and what its data sheet says. */
export function fromTypical(kind: ProductKind, id: string): ProductTexts {
  const entry = typicalEntries(kind).find((each) => each.id === id) ?? typicalEntries(kind)[0]!;
  const data = kind === 'cover' ? { ...entry, look: entry.id } : entry;
  const about = { currency: '', stock: null, source: '', dated: '' };
  return textsOf({ kind, ...about, data } as unknown as Unnamed);
}

/** How many channels the form of a strip shows: those that something was typed of, one at least. */
export function channelCount(texts: ProductTexts): number {
  const said = Object.entries(texts)
    .filter(([, text]) => text.trim() !== '')
    .map(([name]) => Number(/^data\.channels\[(\d+)\]/.exec(name)?.[1] ?? 0));
  return Math.min(mostChannels, Math.max(1, ...said));
}

/** Not understood; no field takes it, so that the schema words the refusal. */
const nothing = Symbol('not understood');

function meant(text: string, field: ProductField): unknown {
  const { kind, unit, words } = field;
  if (field.isOptional && text.trim() === '') return undefined;
  if (kind === 'text') return text.trim();
  if (kind === 'choice') return words.find((word) => String(word) === text) ?? nothing;
  if (kind === 'yes-no') return text === 'yes';
  if (kind === 'prices') {
    const read = readCorePrices(text);
    return read.leftOver.length === 0 ? read.values : nothing;
  }
  if (text.trim() === '') return field.isNullable ? null : nothing;
  if (kind === 'counts') {
    const read = readWholes(text);
    return read.leftOver.length === 0 ? read.values : nothing;
  }
  const number = readEntryNumber(text, unit);
  if (number === undefined) return nothing;
  if (kind === 'money') return centsOfAmount(number);
  return kind === 'ratio' ? ratioOfPercent(number) : number;
}

function refusal(message: string, { kind, label }: ProductField): string {
  if (kind === 'money') return `${label} must be an amount such as 24.90.`;
  if (kind === 'prices') return 'Write prices such as 3: 1.40; 5: 2.10, each number of cores with its own.';
  return kind === 'ratio' ? ratiosAsPercent(message) : message;
}

/** What the texts of a form come to: a product, or a sentence for each field that keeps it from being one. */
export type FormRead =
  | { readonly ok: true; readonly product: Unnamed }
  | { readonly ok: false; readonly problems: ReadonlyMap<string, string> };

/** Fields of channels that the product does not have are left out. */
export const fieldsShown = (kind: ProductKind, channels: number): readonly ProductField[] =>
  productFields(kind).filter(
    ({ path }) => path[1] !== 'channels' || (typeof path[2] === 'number' && path[2] < channels),
  );

/** Reads a form. */
export function readForm(kind: ProductKind, texts: ProductTexts, channels = channelCount(texts)): FormRead {
  const fields = fieldsShown(kind, channels);
  const given = fields.reduce<unknown>(
    (product, field) => withValue(product, field.path, meant(texts[nameOf(field)] ?? '', field)),
    { kind, data: kind === 'strip' ? { channels: [] } : {} },
  );
  const result = ownProducts[kind].omit({ id: true }).safeParse(given);
  const problems = new Map<string, string>();
  for (const { path, message } of result.error?.issues ?? []) {
    const field = fields.find((each) => each.path.every((step, i) => step === path[i]));
    if (field && !problems.has(nameOf(field))) problems.set(nameOf(field), refusal(message, field));
  }
  if ((texts['data.name'] ?? '').trim() === '') problems.set('data.name', 'Give the product a name.');
  if (problems.size > 0 || !result.success) return { ok: false, problems };
  return { ok: true, product: result.data as Unnamed };
}
