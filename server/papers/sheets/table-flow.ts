import { type Extents, type Mark, placed } from '../ink/mark.ts';
import { bodyOf, type Draft, type Format, titleRow_mm } from './sheet.ts';
import { lowestShelf } from './shelf.ts';
import { shortHeight, shortParts } from './short-sheets.ts';
import type { Table } from './table.ts';
import { type TablePart, tableParts } from './table-sheets.ts';
import { textParts } from './text-parts.ts';

/** Air between two tables on one sheet, one below or beside the other, mm. */
const between_mm = 4.5;
const beside_mm = 7;

/** Modules the width of a sheet is shared out in among tables beside one another, about so wide, mm. */
const module_mm = 12;
/** Most tables beside one another. */
const mostBeside = 5;
/** A table with long rows takes a third of the sheet at least, and this wide, mm. */
const leastWide_mm = 120;

/** A long table begins below another where at least this share of the body is free, and one that fits a sheet where this is. */
const worthBeginning = 0.22;
const worthParting = 0.4;

/** A drawing that leaves the lower part of its sheet to tables. */
export interface Begun {
  readonly draft: Draft;
  /** Height it takes of the body of a list, mm. */
  readonly used: number;
}

/** A part of a table where it stands: on which sheet, how far right and down. */
interface Placed {
  readonly sheet: number;
  readonly right: number;
  readonly down: number;
  readonly part: TablePart;
}

/** What stands so far: sheets begun, height used of the last, and the step that came to it. */
interface Stand {
  readonly sheets: number;
  readonly used: number;
  readonly before: Stand | null;
  readonly placed: () => readonly Placed[];
}

const isLess = (a: Stand, b: Stand | undefined): boolean =>
  b === undefined || a.sheets < b.sheets || (a.sheets === b.sheets && a.used < b.used - 1e-9);

function specialParts(table: Table, body: Extents, first: number): TablePart[] | undefined {
  if (table.text) return textParts(table, body, first);
  return table.isShort ? shortParts(table, body, first) : undefined;
}

const partsOn = (table: Table, body: Extents): TablePart[] =>
  specialParts(table, body, body.y1 - body.y0) ?? tableParts(table, body);

/** The parts of a table, the first of them made for the room that is left on a sheet, or undefined for a new sheet. */
function partsBelow(table: Table, alone: readonly TablePart[], body: Extents, left: number) {
  if (alone.length === 1 && alone[0]!.height <= left) return alone;
  const special = specialParts(table, body, left);
  if (special || table.text) return special;
  const worth = alone.length === 1 ? worthParting : worthBeginning;
  if (left < worth * (body.y1 - body.y0)) return undefined;
  const parts = tableParts(table, body, left);
  return parts.length <= alone.length + 1 && parts[0]!.height <= left ? parts : undefined;
}

/** Lays tables out on sheets of one format. */
interface Layout {
  readonly body: Extents;
  readonly tables: readonly Table[];
  /** Height of the room on a sheet. */
  readonly room: (sheet: number) => number;
  readonly modules: number;
  /** Heights of the tables on so many modules, Infinity where they do not fit. */
  readonly heights: readonly (readonly number[])[];
}

const width_mm = ({ body: { x0, x1 }, modules }: Pick<Layout, 'body' | 'modules'>, k: number): number =>
  ((x1 - x0 + beside_mm) / modules) * k - beside_mm;

const onModules = (layout: Pick<Layout, 'body' | 'modules'>, k: number): Extents => ({
  ...layout.body,
  x1: layout.body.x0 + width_mm(layout, k),
});

/** Height of a table on so many modules; a table of long rows stands beside another only on a wide sheet. */
function heightOn(table: Table, body: Extents, whole: number): number {
  const width = body.x1 - body.x0;
  if (table.text) return Number.POSITIVE_INFINITY;
  if (table.isShort) return shortHeight(table, width, body.y1 - body.y0) ?? Number.POSITIVE_INFINITY;
  if (width < leastWide_mm || width < whole / 3 || width > (2 * whole) / 3) return Number.POSITIVE_INFINITY;
  const parts = tableParts(table, body);
  return parts.length === 1 ? parts[0]!.height : Number.POSITIVE_INFINITY;
}

/** A table below what stands, over the whole width. */
function below(stand: Stand, table: Table, { body, room }: Layout): Stand {
  const alone = partsOn(table, body);
  const left = stand.sheets === 0 ? 0 : room(stand.sheets - 1) - stand.used - between_mm;
  const here = stand.sheets === 0 ? undefined : partsBelow(table, alone, body, left);
  const parts = here ?? alone;
  const first = here ? stand.sheets - 1 : stand.sheets;
  const down = here ? stand.used + between_mm : 0;
  return {
    sheets: first + parts.length,
    used: (parts.length === 1 ? down : 0) + parts.at(-1)!.height,
    before: stand,
    placed: () => parts.map((part, i) => ({ sheet: first + i, right: 0, down: i === 0 ? down : 0, part })),
  };
}

/** Tables beside one another below what stands, or undefined where they do not fit so. */
function besideOneAnother(stand: Stand, from: number, to: number, layout: Layout): Stand | undefined {
  const { body, tables, modules, heights, room } = layout;
  const shelf = lowestShelf(heights.slice(from, to), modules);
  if (!shelf) return undefined;
  const isHere = stand.sheets > 0 && stand.used + between_mm + shelf.height <= room(stand.sheets - 1) + 1e-9;
  const down = isHere ? stand.used + between_mm : 0;
  const sheet = isHere ? stand.sheets - 1 : stand.sheets;
  return {
    sheets: sheet + 1,
    used: down + shelf.height,
    before: stand,
    placed: () => {
      let k = 0;
      return tables.slice(from, to).map((table, i) => {
        const right = width_mm({ body, modules }, k) + (k === 0 ? 0 : beside_mm);
        k += shelf.modules[i]!;
        const part = partsOn(table, onModules(layout, shelf.modules[i]!))[0]!;
        return { sheet, right: k === shelf.modules[i]! ? 0 : right, down, part };
      });
    },
  };
}

/** The fewest sheets, and on the last the least height, that hold all tables in order; each step looks at every way to have come to it. */
function fewest(layout: Layout, begun: Begun | undefined): Stand {
  const stands: Stand[] = [{ sheets: begun ? 1 : 0, used: begun?.used ?? 0, before: null, placed: () => [] }];
  for (let i = 0; i < layout.tables.length; i++) {
    const next = below(stands[i]!, layout.tables[i]!, layout);
    if (isLess(next, stands[i + 1])) stands[i + 1] = next;
    for (let to = i + 2; to <= Math.min(layout.tables.length, i + mostBeside); to++) {
      const shelf = besideOneAnother(stands[i]!, i, to, layout);
      if (shelf && isLess(shelf, stands[to])) stands[to] = shelf;
    }
  }
  return stands.at(-1)!;
}

function draftsOf(end: Stand, begun: Begun | undefined): Draft[] {
  const parts: Placed[] = [];
  for (let stand: Stand | null = end; stand; stand = stand.before) parts.unshift(...stand.placed());
  return Array.from({ length: end.sheets }, (_, sheet): Draft => {
    const here = parts.filter((each) => each.sheet === sheet);
    const marks: Mark[] = here.flatMap(({ part, right, down }) => placed(part.marks, 1, [right, -down]));
    const titles = here.map(({ part }) => part.title);
    if (sheet > 0 || !begun) return { titles: [...new Set(titles)], perPaper: 0, marks, carries: 'list' };
    const { draft } = begun;
    return {
      ...draft,
      titles: [...new Set([...draft.titles, ...titles])],
      marks: [...draft.marks, ...marks],
    };
  });
}

/**
 * Tables on sheets, in order, on as few sheets as below one another and beside one another allow: a table goes below the
 * one before when the whole of it fits there, or when it needs several sheets anyway and much of this one is free; short
 * ones share the width. Tables without rows are left out.
 *
 * @param begun a drawing whose sheet the tables begin on
 */
export function tableDrafts(all: readonly Table[], format: Format, begun?: Begun): Draft[] {
  const body = bodyOf(format, 'list');
  const tables = all.filter(({ rows, caption }) => rows.length > 0 || caption);
  const whole = body.x1 - body.x0;
  const modules = Math.floor((whole + beside_mm) / module_mm);
  const heights = tables.map((table) =>
    Array.from({ length: modules + 1 }, (_, k) =>
      k === 0 ? Number.POSITIVE_INFINITY : heightOn(table, onModules({ body, modules }, k), whole),
    ),
  );
  const drawing_mm = begun?.draft.carries === 'list' ? 0 : titleRow_mm;
  const room = (sheet: number): number => body.y1 - body.y0 - (begun && sheet === 0 ? drawing_mm : 0);
  const end = fewest({ body, tables, room, modules, heights }, begun);
  return draftsOf(end, begun);
}
