import type { ProductToKeep } from '../../server/contract/products.ts';
import { cableCatalogue } from '../../src/index.ts';

/** A cable to keep among a workshop's own products. */
export const someCable = (name: string): Extract<ProductToKeep, { kind: 'cable' }> => {
  const { id: _, ...data } = structuredClone(cableCatalogue[3]!);
  const about = { currency: 'EUR', stock: 50, source: 'list of the wholesaler', dated: '2026-03-31' };
  return { kind: 'cable', ...about, data: { ...data, name } };
};
