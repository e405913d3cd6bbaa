import { CsvError, parse } from 'csv-parse/sync';
import type { z } from 'zod';
import { entriesOf } from '../../src/job/catalogues.ts';
import { ownProducts, type ProductKind, productKinds } from '../../src/job/own-product.ts';
import { type ProductField, productFields } from '../../src/job/product-fields.ts';
import { profileCoverCatalogue } from '../../src/job/profile-catalogue.ts';
import { type Imported, type ProductToKeep, productId } from '../contract/products.ts';
import {
  at,
  type CellRead,
  channelOf,
  headingOf,
  idHeading,
  readValue,
  reasonHeading,
  typicalHeading,
} from './cells.ts';
import { unguarded } from './guard.ts';
import { type DecimalMark, decimalMark } from './numbers.ts';

export type Problem = Imported['problems'][number];

/** A row of a table with the product it holds, or why it holds none. */
export interface RowRead {
  /** From 1, which is the heading. */
  readonly row: number;
  /** As they came. */
  readonly cells: readonly string[];
  /** Empty where the row names none. */
  readonly id: string;
  readonly product: ProductToKeep | null;
  readonly problems: readonly Problem[];
}

/** A table as it was read; without rows where its heading is of no use. */
export interface TableRead {
  readonly headings: readonly string[];
  readonly rows: readonly RowRead[];
  readonly problems: readonly Problem[];
}

/** A thousand times a hundred cells: no table of products is larger. */
export const mostRows = 5000;

/** What separates cells: the mark that the heading has most of outside quotation marks. */
function separatorOf(text: string): string {
  const [heading = ''] = text.replaceAll(/"[^"]*"/g, '').split(/\r?\n|\r/);
  const marks = [',', ';', '\t'].map((mark) => ({ mark, count: heading.split(mark).length }));
  return marks.reduce((a, b) => (b.count > a.count ? b : a)).mark;
}

const folded = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll(/[\s\u202f]+/g, ' ')
    .trim();

/** A heading without the unit in brackets at its end, and that unit. */
function partsOf(heading: string): { readonly label: string; readonly unit: string } {
  const [, label = heading, unit = ''] = /^(.*?)\s*\(([^()]*(?:\([^()]*\))?[^()]*)\)\s*$/.exec(heading) ?? [];
  return { label: folded(label), unit: folded(unit) };
}

/** What stands in a column: a value of the product, its id, typical values, or nothing to be read. */
type Column = ProductField | 'id' | 'typical' | 'reason';

const unitsAlike: Readonly<Record<string, string>> = {
  ...{ ohm: 'Ω', mohm: 'mΩ', 'mohm/m': 'mΩ/m', 'ohm/km': 'Ω/km', us: 'µs', mm2: 'mm²', percent: '%' },
  ...{ degc: '°c', μs: 'µs' },
};
const sameUnit = (a: string, b: string): boolean => {
  const plain = (unit: string): string => folded(unitsAlike[folded(unit)] ?? unit);
  return plain(a) === plain(b);
};

const given: Readonly<Record<string, Column>> = {
  [folded(idHeading)]: 'id',
  [folded(typicalHeading)]: 'typical',
  [folded(reasonHeading)]: 'reason',
};

/** The column of a heading, or why it is none. */
function columnOf(heading: string, fields: readonly ProductField[]): Column | string {
  const known = given[folded(heading)];
  if (known) return known;
  const whole = fields.find((field) => folded(headingOf(field)) === folded(heading));
  if (whole) return whole;
  const { label, unit } = partsOf(heading);
  const field = fields.find((each) => folded(each.label) === label);
  if (!field) return `No column is called “${heading}”: take the headings of the template.`;
  if (unit === '' || sameUnit(unit, field.unit)) return field;
  return field.unit === ''
    ? `“${field.label}” has no unit, and the heading says “${unit}”: take the heading of the template.`
    : `“${field.label}” is in ${field.unit}, and the heading says “${unit}”: turn the figures into ${field.unit}.`;
}

interface Columns {
  readonly columns: readonly (Column | null)[];
  readonly problems: readonly Problem[];
}

function columnsOf(headings: readonly string[], kind: ProductKind): Columns {
  const fields = productFields(kind);
  const problems: Problem[] = [];
  const seen = new Set<Column>();
  const columns = headings.map((heading): Column | null => {
    if (heading.trim() === '') return null;
    const column = columnOf(heading, fields);
    const isColumn = typeof column === 'object' || ['id', 'typical', 'reason'].includes(column);
    const sentence = isColumn ? `The heading “${heading}” stands there twice: keep one column.` : column;
    if (isColumn && !seen.has(column as Column)) {
      seen.add(column as Column);
      return column as Column;
    }
    problems.push({ row: 1, column: heading, sentence: String(sentence) });
    return null;
  });
  return { columns, problems };
}

const isNumeric = ({ kind }: ProductField): boolean => ['number', 'ratio', 'money'].includes(kind);

/** How the numbers of the table are written. Between commas a comma is none of a number. */
function markOf(records: readonly string[][], columns: Columns['columns'], separator: string): DecimalMark {
  if (separator === ',') return '.';
  const numeric = columns.flatMap((column, i) =>
    typeof column === 'object' && column && isNumeric(column) ? [i] : [],
  );
  return decimalMark(records.flatMap((record) => numeric.map((i) => record[i] ?? '')));
}

const typicalOf = (kind: ProductKind): readonly { readonly id: string; readonly name: string }[] =>
  kind === 'cover'
    ? profileCoverCatalogue.map((entry) => ({ ...entry, look: entry.id }))
    : entriesOf({ products: [] }, kind);

/** The sentence of a value out of its bounds as the table writes it, or that of the schema. */
function refusal(message: string, field: ProductField): string {
  const { kind, label, unit, min, max } = field;
  if (kind === 'money' && max !== null) return `${label} is an amount such as 24.90, up to ${max / 100}.`;
  if (kind !== 'ratio' || min === null || max === null) return message;
  const percent = (ratio: number): string => `${Number((100 * ratio).toPrecision(6))}`;
  return `${label} must lie between ${percent(min)} and ${percent(max)} ${unit}.`;
}

/** Puts a value into a product that is being made. */
function put(product: Record<string, unknown>, path: ProductField['path'], value: unknown): void {
  const last = path.length - 1;
  let holder = product as Record<string | number, unknown>;
  for (const [k, step] of path.slice(0, last).entries()) {
    holder[step] ??= typeof path[k + 1] === 'number' ? [] : {};
    holder = holder[step] as Record<string | number, unknown>;
  }
  holder[path[last]!] = value;
}

interface RowAsked {
  readonly kind: ProductKind;
  readonly columns: Columns['columns'];
  readonly decimal: DecimalMark;
}

/** What an empty cell means without an entry of the catalogue; undefined where it has to be given. */
function emptyValue({ path, kind, isNullable }: ProductField): unknown {
  if (isNullable) return null;
  if (kind === 'prices') return [];
  return kind === 'text' && path.length === 1 ? '' : undefined;
}

/** One sentence for all cells that are empty and may not be. */
function sayMissing({ say }: RowBeing, fields: readonly ProductField[]): void {
  const [first, ...more] = fields;
  if (!first) return;
  const others = more.length > 3 ? [...more.slice(0, 2), { label: `${more.length - 2} more` }] : more;
  const names = [first, ...others].map(({ label }) => label);
  const listed =
    names.length === 1 ? `${names[0]} is` : `${names.slice(0, -1).join(', ')} and ${names.at(-1)} are`;
  say(
    more.length === 0 ? headingOf(first) : null,
    `${listed} empty: fill ${more.length === 0 ? 'it' : 'them'} in, or name under “${typicalHeading}” an entry of the catalogue whose values hold for what is empty.`,
  );
}

const isName = ({ path }: ProductField): boolean => path[1] === 'name';

/** A row while it is read. */
interface RowBeing {
  readonly cellAt: (column: Column) => string;
  readonly say: (column: string | null, sentence: string) => void;
}

function typicalIn({ cellAt, say }: RowBeing, kind: ProductKind): object | undefined {
  const name = cellAt('typical').trim();
  if (name === '') return undefined;
  const typical = typicalOf(kind).find((entry) =>
    [entry.id, entry.name].some((word) => folded(word) === folded(name)),
  );
  if (!typical)
    say(
      typicalHeading,
      `No ${kind} of the catalogue is called “${name}”: take a name from the lists of the form, or leave the cell empty.`,
    );
  return typical;
}

/** The fields a row fills: of channels beyond the first only those it says something of, or the typical ones. */
function fieldsIn({ cellAt }: RowBeing, kind: ProductKind, typical: object | undefined): ProductField[] {
  const fields = productFields(kind);
  const said = new Set(fields.filter((field) => cellAt(field).trim() !== '').map(channelOf));
  return fields.filter((field) => {
    const channel = channelOf(field);
    if (channel === null || channel === 0 || said.has(channel)) return true;
    return !said.has(0) && at({ data: typical }, field.path) !== undefined;
  });
}

/** What the cells of a row make, before it is checked. */
function made(being: RowBeing, { kind, decimal }: RowAsked): Record<string, unknown> {
  const { cellAt, say } = being;
  const typical = typicalIn(being, kind);
  const product: Record<string, unknown> = { kind };
  const missing: ProductField[] = [];
  for (const field of fieldsIn(being, kind, typical)) {
    const cell = cellAt(field);
    const fromTypical = isName(field) ? undefined : at({ data: typical }, field.path);
    const empty = fromTypical ?? emptyValue(field);
    const read: CellRead | undefined =
      cell.trim() !== ''
        ? readValue(cell, field, decimal)
        : empty === undefined
          ? undefined
          : { value: empty };
    if (cell.trim() === '' && field.isOptional && empty === null) continue;
    if (read === undefined) missing.push(field);
    else if ('value' in read) put(product, field.path, read.value);
    else say(headingOf(field), read.sentence);
  }
  if (typical || cellAt('typical').trim() === '') sayMissing(being, missing);
  return product;
}

const toKeep = Object.fromEntries(
  productKinds.map((kind) => [kind, ownProducts[kind].omit({ id: true })]),
) as unknown as Readonly<Record<ProductKind, z.ZodType<ProductToKeep>>>;

/** The product of a row, its bounds looked at; undefined where one does not hold. */
function checked(product: object, { say }: RowBeing, kind: ProductKind): ProductToKeep | undefined {
  const result = toKeep[kind].safeParse(product);
  for (const { path, message } of result.error?.issues ?? []) {
    const field = productFields(kind).find((each) => each.path.every((step, i) => step === path[i]));
    say(field ? headingOf(field) : null, field ? refusal(message, field) : message);
  }
  if (result.data?.data.name.trim() === '')
    say(headingOf(productFields(kind).find(isName)!), 'The product has no name: give it one.');
  return result.data;
}

/** One row as a product, or everything that keeps it from being one. */
function readRow(asked: RowAsked, cells: readonly string[], row: number): RowRead {
  const { kind, columns } = asked;
  const problems: Problem[] = [];
  const being: RowBeing = {
    cellAt: (column) => unguarded(cells[columns.indexOf(column)] ?? ''),
    say: (column, sentence) => void problems.push({ row, column, sentence }),
  };
  if (cells.slice(columns.length).some((cell) => cell.trim() !== '')) being.say(null, moreCells);
  const product = made(being, asked);
  const id = being.cellAt('id').trim();
  if (id !== '' && !productId.safeParse(id).success)
    being.say(idHeading, `“${id}” is no id that this program gave: leave the cell empty for a new product.`);
  const whole = problems.length === 0 ? checked(product, being, kind) : undefined;
  return { row, cells, id, product: problems.length === 0 ? (whole ?? null) : null, problems };
}

const moreCells =
  'The row has more cells than the heading: a mark that separates cells may stand inside a text, which then needs quotation marks.';

const noTable = (sentence: string): TableRead => ({
  headings: [],
  rows: [],
  problems: [{ row: 1, column: null, sentence }],
});

/** Records of a CSV text, or the row where it is none, and why. */
function recordsOf(text: string, delimiter: string): string[][] | Problem {
  try {
    return parse(text, {
      bom: true,
      delimiter,
      relax_column_count: true,
      skip_empty_lines: false,
    }) as string[][];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const row = Number(error.lines ?? 1);
    return {
      row: Math.max(1, row),
      column: null,
      sentence:
        'A quotation mark is open, or stands in the middle of a cell: from this line on the table cannot be read. Put cells with quotation marks into quotation marks, and write those inside twice.',
    };
  }
}

/**
 * Reads a table of products of one kind: commas, semicolons or tabs between cells, decimal points or commas, columns in any
 * order, units in headings checked. Good rows are products; of each bad one every problem is told by its column. Empty rows are
 * passed over.
 */
export function readTable(text: string, kind: ProductKind): TableRead {
  const separator = separatorOf(text.replace(/^\uFEFF/, ''));
  const records = recordsOf(text, separator);
  if (!Array.isArray(records)) return { headings: [], rows: [], problems: [records] };
  const [headings = [], ...rest] = records;
  if (headings.every((heading) => heading.trim() === ''))
    return noTable('The table is empty: its first row has to be the headings of the template.');
  if (rest.length > mostRows)
    return noTable(`The table has ${rest.length} rows, and at most ${mostRows} are taken at once: split it.`);
  const { columns, problems } = columnsOf(headings, kind);
  if (problems.length > 0) return { headings, rows: [], problems };
  const decimal = markOf(rest, columns, separator);
  const rows = rest.flatMap((cells, i) =>
    cells.every((cell) => cell.trim() === '') ? [] : [readRow({ kind, columns, decimal }, cells, i + 2)],
  );
  return { headings, rows, problems: [] };
}
