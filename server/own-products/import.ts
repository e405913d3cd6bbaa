import type { OwnProduct, ProductKind } from '../../src/job/own-product.ts';
import type { Imported } from '../contract/products.ts';
import { type Change, freeId, withId } from '../store/products.ts';
import { reasonHeading } from './cells.ts';
import { type Problem, type RowRead, readTable, type TableRead } from './read-table.ts';
import { written } from './table.ts';

/** As many problems as are told one by one. */
const mostProblems = 500;

const isAlike = (a: OwnProduct, b: OwnProduct): boolean => JSON.stringify(a) === JSON.stringify(b);

const idKey = (kind: string, id: string): string => `${kind} id ${id}`;
const nameKey = ({
  kind,
  data: { name },
}: Pick<OwnProduct, 'kind'> & { readonly data: { readonly name: string } }): string =>
  `${kind} name ${name.trim().toLowerCase()}`;

/** Products while rows are put to them, and what became of each. */
interface Merging {
  readonly products: OwnProduct[];
  readonly ids: Set<string>;
  /** Where products stand, by kind and id and by kind and name. */
  readonly places: Map<string, number>;
  readonly added: string[];
  readonly replaced: string[];
  same: number;
}

/** Notes where a product stands; of several of one name the first counts. */
function note({ places }: Pick<Merging, 'places'>, product: OwnProduct, place: number): void {
  places.set(idKey(product.kind, product.id), place);
  if (!places.has(nameKey(product))) places.set(nameKey(product), place);
}

/** The product a row is about: the one of its id, or else of its kind and name. */
const placeOf = ({ places }: Merging, { id, product }: RowRead): number | undefined =>
  places.get(idKey(product!.kind, id)) ?? places.get(nameKey(product!));

const otherValues = (name: string): string =>
  `“${name}” is here already with other values, and stays as it is: bring the table in once more and let it replace them, or give the row another name.`;

/** Puts one good row to the products; the sentence says why it was not taken. */
function merge(merging: Merging, read: RowRead, mayReplace: boolean): string | undefined {
  const product = read.product!;
  const place = placeOf(merging, read);
  if (place === undefined) {
    const id = read.id !== '' && !merging.ids.has(read.id) ? read.id : freeId(merging.ids, product.data.name);
    const fresh = withId(product, id);
    note(merging, fresh, merging.products.push(fresh) - 1);
    merging.ids.add(id);
    merging.added.push(product.data.name);
    return undefined;
  }
  const before = merging.products[place]!;
  const now = withId(product, before.id);
  if (isAlike(before, now)) merging.same++;
  else if (!mayReplace) return otherValues(product.data.name);
  else {
    merging.products[place] = now;
    note(merging, now, place);
    merging.replaced.push(product.data.name);
  }
  return undefined;
}

/** Rows that were not taken, as they came, with the reason beside each. */
function notTaken({ headings, rows }: TableRead, problems: readonly Problem[]): string | null {
  const why = new Map<number, string[]>();
  for (const { row, column, sentence } of problems)
    why.set(row, [...(why.get(row) ?? []), column === null ? sentence : `${column}: ${sentence}`]);
  const left = rows.filter(({ row }) => why.has(row));
  if (left.length === 0) return null;
  const reasonAt = headings.indexOf(reasonHeading);
  const width = reasonAt < 0 ? headings.length : reasonAt;
  const cellsOf = (cells: readonly string[]): string[] =>
    Array.from({ length: width }, (_, i) => cells[i] ?? '').concat(
      cells.slice(reasonAt < 0 ? width : reasonAt + 1),
    );
  return written([
    [...headings.slice(0, width), ...headings.slice(width + 1), reasonHeading],
    ...left.map(({ row, cells }) => [...cellsOf(cells), why.get(row)!.join(' ')]),
  ]);
}

/**
 * Brings a table of products of one kind in: good rows are added, or are the same as what is there; one that has other values
 * than what is there replaces it only where that is asked for. Every bad row is told and given back with the reason, so that
 * nothing of the table is lost.
 */
export function bringIn(
  before: readonly OwnProduct[],
  text: string,
  { kind, mayReplace }: { readonly kind: ProductKind; readonly mayReplace: boolean },
): Change<Imported> {
  const table = readTable(text, kind);
  const merging: Merging = {
    products: [...before],
    ids: new Set(before.map(({ id }) => id)),
    places: new Map(),
    ...{ added: [], replaced: [], same: 0 },
  };
  for (const [place, product] of before.entries()) note(merging, product, place);
  const problems = [...table.problems];
  for (const read of table.rows) {
    if (read.product === null) {
      problems.push(...read.problems);
      continue;
    }
    const sentence = merge(merging, read, mayReplace);
    if (sentence !== undefined) problems.push({ row: read.row, column: null, sentence });
  }
  const { products, added, replaced, same } = merging;
  const isChanged = added.length + replaced.length > 0;
  return {
    products: isChanged ? products : before,
    value: {
      ...{ added, replaced, same },
      problems: problems.slice(0, mostProblems),
      problemCount: problems.length,
      notTaken: notTaken(table, problems),
    },
  };
}
