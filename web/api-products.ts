import type { Imported, KeptProduct, KeptProducts, ProductToKeep } from '../server/contract/products.ts';
import type { ProductKind } from '../src/job/own-product.ts';
import { asJson, ask, posted, type Reply } from './api.ts';

const pathOf = (id: string): string => `/api/products/${encodeURIComponent(id)}`;

export const askProducts = (): Promise<Reply<KeptProducts>> => ask('/api/products', {}, asJson<KeptProducts>);

export const keepProduct = (product: ProductToKeep): Promise<Reply<KeptProduct>> =>
  ask('/api/products', posted(product), asJson<KeptProduct>);

/** Changes a product in place of the version named; refused with 412 when that is no longer the latest. */
export const changeProduct = (
  id: string,
  etag: string,
  product: ProductToKeep,
): Promise<Reply<KeptProduct>> => {
  const { headers, ...init } = posted(product);
  return ask(
    pathOf(id),
    { ...init, method: 'PUT', headers: { ...headers, 'if-match': etag } },
    asJson<KeptProduct>,
  );
};

export const deleteProduct = (id: string, etag: string): Promise<Reply<KeptProduct>> =>
  ask(pathOf(id), { method: 'DELETE', headers: { 'if-match': etag } }, asJson<KeptProduct>);

/** A table of a kind: empty, or with every product. */
export const askTable = (kind: ProductKind, what: 'template' | 'products'): Promise<Reply<Blob>> =>
  ask(`/api/products/tables/${kind}/${what}.csv`, {}, (response) => response.blob());

/** Brings the text of a table in. */
export const bringTable = (kind: ProductKind, text: string, mayReplace: boolean): Promise<Reply<Imported>> =>
  ask(
    `/api/products/tables/${kind}?replace=${mayReplace ? 'yes' : 'no'}`,
    { method: 'POST', headers: { 'content-type': 'text/plain' }, body: text },
    asJson<Imported>,
  );
