import type { Imported, KeptProduct } from '../../server/contract/products.ts';
import type { OwnProduct, ProductKind } from '../../src/job/own-product.ts';
import { productFields } from '../../src/job/product-fields.ts';
import type { Reply } from '../api.ts';
import {
  askProducts,
  askTable,
  bringTable,
  changeProduct,
  deleteProduct,
  keepProduct,
} from '../api-products.ts';
import { amountText, counted } from '../format.ts';
import { saveFile } from './files.ts';
import { nameOf, textsOf, type Unnamed } from './product-form.ts';
import type { Store } from './store.ts';
import { tell, tellRefusal } from './workshop.ts';

/** What the workshop calls several of a kind, and one. */
export const kindNames: Readonly<Record<ProductKind, readonly [one: string, many: string]>> = {
  strip: ['strip', 'Strips'],
  driver: ['driver', 'Drivers'],
  dimmer: ['dimmer', 'Dimmers'],
  cable: ['cable', 'Cables'],
  profile: ['profile', 'Profiles'],
  cover: ['cover', 'Covers of profiles'],
};

/** Whose the data of a product is, of when, and its price. */
export function sourceText({ source, dated, currency, data }: OwnProduct): string {
  const cents = 'price_cents_per_m' in data ? data.price_cents_per_m : data.price_cents;
  const price = cents === null ? '' : ` Price ${amountText(cents)} ${currency}`.trimEnd();
  return `Data: ${source || 'source not given'}, ${dated || 'not dated'}.${price === '' ? '' : `${price}.`}`;
}

/** A value of an own product that is otherwise in the workshop than in the copy of a job. */
export interface Changed {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

/** What is otherwise, value by value; how many are in stock is the workshop’s alone. */
export function changedSince(copy: OwnProduct, theirs: OwnProduct): Changed[] {
  const [before, after] = [textsOf(copy), textsOf(theirs)];
  return productFields(copy.kind)
    .filter(({ path }) => path[0] !== 'stock')
    .flatMap((field) => {
      const [was, is] = [before[nameOf(field)] ?? '', after[nameOf(field)] ?? ''];
      const written = (text: string): string => (text === '' ? '' : `${text} ${field.unit}`.trim());
      return was === is ? [] : [{ label: field.label, before: written(was), after: written(is) }];
    });
}

/** Keeps the copy of a job among the workshop’s own products. */
export async function keepCopy(store: Store, { id: _, ...copy }: OwnProduct): Promise<void> {
  await keepOwn(store, copy as Unnamed, undefined);
}

/** Asks for the workshop’s own products; what cannot be had stays as it was. */
export async function refreshProducts(store: Store): Promise<void> {
  const reply = await askProducts();
  if (reply.kind === 'answer')
    store.set({ ownProducts: { products: reply.value.products, trouble: undefined, isKnown: true } });
  else if (reply.kind !== 'withdrawn')
    store.set({ ownProducts: { ...store.get().ownProducts, trouble: reply.detail } });
}

async function afterwards<Value>(
  store: Store,
  reply: Reply<Value>,
  refusal: string,
): Promise<Value | undefined> {
  await refreshProducts(store);
  if (reply.kind === 'answer') return reply.value;
  tellRefusal(store, refusal, reply);
  return undefined;
}

/** Keeps a product: a new one, or one in place of the version that was seen. Says whether it was done. */
export async function keepOwn(
  store: Store,
  product: Unnamed,
  seen: KeptProduct | undefined,
): Promise<boolean> {
  const reply = seen ? await changeProduct(seen.product.id, seen.etag, product) : await keepProduct(product);
  const kept = await afterwards(store, reply, `“${product.data.name}” was not kept.`);
  if (kept) store.set({ notice: undefined });
  return kept !== undefined;
}

/** Deletes a product, and offers to bring it back. */
export async function deleteOwn(store: Store, { product, etag }: KeptProduct): Promise<void> {
  const { name } = product.data;
  const gone = await afterwards(store, await deleteProduct(product.id, etag), `“${name}” was not deleted.`);
  if (!gone) return;
  const { id: _, ...again } = gone.product;
  const act = async (): Promise<void> => {
    store.set({ notice: undefined });
    await keepOwn(store, again as Unnamed, undefined);
  };
  tell(store, {
    title: `“${name}” is no longer among the workshop’s own products.`,
    sentences: ['Jobs that use it keep their copies.'],
    remedies: [{ text: 'Bring it back', act: () => void act() }],
  });
}

/** Hands a table to the browser to save: an empty one to be filled in, or all products of the kind. */
export async function saveTable(
  store: Store,
  kind: ProductKind,
  what: 'template' | 'products',
): Promise<void> {
  const reply = await askTable(kind, what);
  const name = what === 'template' ? `${kind}-template.csv` : `${kind}-products.csv`;
  if (reply.kind === 'answer') saveFile(name, reply.value);
  else tellRefusal(store, 'The table could not be had.', reply);
}

/** Spreadsheets on Windows still save tables in the alphabet of the country; whatever is no UTF-8 is read as that. */
async function textOfFile(file: File): Promise<string> {
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

const largest_bytes = 2_000_000;

/** Brings a table in, and says why where that cannot be done at all. */
export async function bringFile(
  store: Store,
  kind: ProductKind,
  { file, mayReplace }: { readonly file: File; readonly mayReplace: boolean },
): Promise<Imported | undefined> {
  if (file.size > largest_bytes) {
    tell(store, {
      title: `“${file.name}” was not brought in.`,
      sentences: ['It is larger than 2 MB: split it into several tables.'],
    });
    return undefined;
  }
  const reply = await bringTable(kind, await textOfFile(file), mayReplace);
  return afterwards(store, reply, `“${file.name}” was not brought in.`);
}

/** What became of a table, in a line. */
export function importText({ added, replaced, same, problemCount }: Imported): string {
  const parts = [
    added.length > 0 ? `${counted(added.length, 'product')} added` : '',
    replaced.length > 0 ? `${counted(replaced.length, 'product')} replaced` : '',
    same > 0 ? `${counted(same, 'product')} as it was` : '',
  ].filter((text) => text !== '');
  const done = parts.length === 0 ? 'Nothing was taken' : parts.join(', ');
  return `${done}. ${problemCount === 0 ? 'Every row was taken.' : `${counted(problemCount, 'problem')} to look at.`}`;
}
