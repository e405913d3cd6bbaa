import { stringify } from 'csv-stringify/sync';
import type { OwnProduct, ProductKind } from '../../src/job/own-product.ts';
import { productFields } from '../../src/job/product-fields.ts';
import { cellOf, headingsOf } from './cells.ts';
import { guarded } from './guard.ts';

/** Numbers stay bare, so that a spreadsheet reads them; a minus before one is no formula. */
const isNumber = (cell: string): boolean => /^-?\d+(\.\d+)?$/.test(cell);

/** Writes records as CSV after RFC 4180, as schedules are written: mark for UTF-8, CRLF, formulas guarded. */
export const written = (records: readonly (readonly string[])[]): string =>
  stringify(
    records.map((record) => record.map((cell) => (isNumber(cell) ? cell : guarded(cell)))),
    { bom: true, record_delimiter: 'windows', quoted_match: /[^\d.]/ },
  );

/** An empty table of a kind, to be filled in. */
export const template = (kind: ProductKind): string => written([headingsOf(kind)]);

/** Every product of a kind as a table that can be brought in again; those of other kinds are left out. */
export function tableOf(products: readonly OwnProduct[], kind: ProductKind): string {
  const fields = productFields(kind);
  const rows = products
    .filter((product) => product.kind === kind)
    .map((product) => [product.id, ...fields.map((field) => cellOf(product, field)), '']);
  return written([headingsOf(kind), ...rows]);
}
