import { join } from 'node:path';
import { z } from 'zod';
import { type OwnProduct, ownProduct } from '../../src/job/own-product.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import type { KeptProduct, ProductToKeep } from '../contract/products.ts';
import { isThere } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { makeFolder, productsFolder, writeOver } from './job-folder.ts';
import { slugOf } from './slug.ts';
import { etagOf, readStored } from './stored-file.ts';
import type { Kept, Version, Workshop } from './workshop.ts';

const productsFile = 'products.json';
const format = { name: 'slotwatt-products', version: 1 } as const;

const document = z.strictObject({
  format: z.strictObject({ name: z.literal(format.name), version: z.literal(format.version) }),
  products: z.array(ownProduct),
});

/** More than a workshop stocks; some 6 MB. */
export const mostProducts = 4000;

const folderOf = ({ root }: Workshop): string => join(root, productsFolder);

const unreadable = (reason: string): StoreIssue =>
  storeIssue(
    'products-unreadable',
    `The workshop’s own products cannot be read, so nothing of them was changed. ${reason}`,
  );

const damaged = `The file "${productsFolder}/${productsFile}" was changed or damaged, or comes from a later Slotwatt: take it from your backup, or put it elsewhere and bring your products in from a table.`;

const full = storeIssue(
  'products-full',
  `A workshop keeps at most ${mostProducts} own products: delete some that are not sold any more.`,
);

const noSuch = (id: string): StoreIssue =>
  storeIssue(
    'no-such-product',
    `There is no own product "${id}" here: it may have been deleted. Take one from the list.`,
  );

const versionMissing = storeIssue(
  'version-missing',
  'Say which version of the product you saw: send its etag as the If-Match header, so that nobody’s work is overwritten.',
);

const changed = ({ data: { name } }: OwnProduct): StoreIssue =>
  storeIssue(
    'changed-meanwhile',
    `“${name}” was changed by somebody else after you opened it. Nothing was overwritten: look at what is there now, and make your change again.`,
  );

/** The version of a product: whatever changes in it changes the version. */
const kept = (product: OwnProduct): KeptProduct => ({ product, etag: etagOf(JSON.stringify(product)) });

/** The workshop's own products, in the order they were kept. Refuses a file that cannot be read. */
export async function productsOf(workshop: Workshop): Kept<readonly OwnProduct[]> {
  const folder = folderOf(workshop);
  const stored = await readStored(workshop.disk, { folder, name: productsFile });
  if (stored.kind === 'absent') return found([]);
  if (stored.kind === 'trouble') return refused(unreadable(stored.sentence));
  try {
    const read = document.safeParse(JSON.parse(stored.file.text));
    return read.success ? found(read.data.products) : refused(unreadable(damaged));
  } catch {
    return refused(unreadable(damaged));
  }
}

/** The same, each with its version. */
export async function listProducts(workshop: Workshop): Kept<KeptProduct[]> {
  const products = await productsOf(workshop);
  return products.ok ? found(products.value.map(kept)) : products;
}

async function write(workshop: Workshop, products: readonly OwnProduct[]): Promise<void> {
  const folder = folderOf(workshop);
  if (!(await isThere(workshop.disk, folder))) await makeFolder(workshop.disk, folder);
  // One product a line: a change is one line where two states of the file are compared.
  const lines = products.map((product) => JSON.stringify(product)).join(',\n');
  const text = `{"format":${JSON.stringify(format)},"products":[\n${lines}\n]}\n`;
  await writeOver(workshop.disk, folder, [{ name: productsFile, text }]);
}

/** What a change leaves, and what it is answered with. */
export interface Change<Value> {
  readonly products: readonly OwnProduct[];
  readonly value: Value;
}

/**
 * Changes the own products in one step, while nobody else can: they are on the disk, all or none, when the promise
 * resolves. Refuses a file that cannot be read, and more products than a workshop keeps.
 */
export function changeProducts<Value>(
  workshop: Workshop,
  task: (products: readonly OwnProduct[]) => Outcome<Change<Value>, StoreIssue>,
): Kept<Value> {
  return workshop.inTurn(productsFolder, async () => {
    const before = await productsOf(workshop);
    if (!before.ok) return before;
    const change = task(before.value);
    if (!change.ok) return change;
    const { products, value } = change.value;
    if (products.length > mostProducts && products.length > before.value.length) return refused(full);
    if (products !== before.value) await write(workshop, products);
    return found(value);
  });
}

/** The first free id made from a name: own-strip, own-strip-2. */
export function freeId(taken: ReadonlySet<string>, name: string): string {
  const base = `own-${slugOf(name, 'product')}`;
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (!taken.has(id)) return id;
  }
}

/** A product with an id, its keys in the order in which they are kept. */
export const withId = (product: ProductToKeep, id: string): OwnProduct =>
  ownProduct.parse({ ...product, id });

/** Keeps a new product under an id made from its name. Refuses as `changeProducts` does. */
export function addProduct(workshop: Workshop, product: ProductToKeep): Kept<KeptProduct> {
  return changeProducts(workshop, (products) => {
    const taken = new Set(products.map(({ id }) => id));
    const fresh = withId(product, freeId(taken, product.data.name));
    return found({ products: [...products, fresh], value: kept(fresh) });
  });
}

interface At {
  readonly id: string;
  readonly version: Version;
}

/** Runs a change on the version the caller saw. */
function onVersion<Value>(
  workshop: Workshop,
  { id, version }: At,
  task: (products: readonly OwnProduct[], at: number) => Outcome<Change<Value>, StoreIssue>,
): Kept<Value> {
  return changeProducts(workshop, (products) => {
    const at = products.findIndex((product) => product.id === id);
    if (at < 0) return refused(noSuch(id));
    const tags = (version ?? '').split(',').map((tag) => tag.trim());
    // An asterisk would match whatever is there, which is what the header is meant to prevent.
    if (version === undefined || tags.includes('*')) return refused(versionMissing);
    if (!tags.includes(kept(products[at]!).etag)) return refused(changed(products[at]!));
    return task(products, at);
  });
}

/** Changes a product; its kind and id stay. Refuses as `changeProducts` does, an unknown one, and one changed meanwhile. */
export function changeProduct(workshop: Workshop, where: At, product: ProductToKeep): Kept<KeptProduct> {
  return onVersion(workshop, where, (products, at) => {
    const { kind } = products[at]!;
    if (kind !== product.kind)
      return refused(
        storeIssue(
          'other-kind',
          `“${product.data.name}” is a ${kind} and stays one: keep a new product.`,
          'kind',
        ),
      );
    const now = withId(product, where.id);
    return found({ products: products.with(at, now), value: kept(now) });
  });
}

/** Deletes a product; what was deleted is the answer, so that it can be kept again. Refuses as `changeProduct` does. */
export function removeProduct(workshop: Workshop, where: At): Kept<KeptProduct> {
  return onVersion(workshop, where, (products, at) =>
    found({ products: products.toSpliced(at, 1), value: kept(products[at]!) }),
  );
}
