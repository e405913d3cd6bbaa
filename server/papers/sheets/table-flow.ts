import { type Extents, placed } from '../ink/mark.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import { shortParts } from './short-sheets.ts';
import type { Table } from './table.ts';
import { type TablePart, tableParts } from './table-sheets.ts';

/** Air between two tables on one sheet, mm. */
const between_mm = 4.5;

interface Filling {
  readonly titles: string[];
  readonly parts: TablePart[];
  used: number;
}

/** A long table begins below another where at least this share of the body is free, and one that fits a sheet where this is. */
const worthBeginning = 0.22;
const worthParting = 0.4;

const partsOn = (table: Table, body: Extents): TablePart[] =>
  (table.isShort ? shortParts(table, body, body.y1 - body.y0) : undefined) ?? tableParts(table, body);

/** The parts of a table, the first of them made for the room that is left on a sheet, or undefined for a new sheet. */
function partsBelow(table: Table, alone: readonly TablePart[], body: Extents, used: number) {
  const left = body.y1 - body.y0 - used - between_mm;
  if (alone.length === 1 && alone[0]!.height <= left) return alone;
  const short = table.isShort ? shortParts(table, body, left) : undefined;
  if (short) return short;
  const worth = alone.length === 1 ? worthParting : worthBeginning;
  if (left < worth * (body.y1 - body.y0)) return undefined;
  const parts = tableParts(table, body, left);
  return parts.length <= alone.length + 1 && parts[0]!.height <= left ? parts : undefined;
}

/**
 * Tables on sheets, in order: a table goes below the one before when the whole of it fits there, or when it needs
 * several sheets anyway and much of this one is free; else it begins a new sheet. Tables without rows are left out.
 */
export function tableDrafts(tables: readonly Table[], format: Format): Draft[] {
  const body = bodyOf(format, 'list');
  const sheets: Filling[] = [];
  for (const table of tables.filter(({ rows, caption }) => rows.length > 0 || caption)) {
    const alone = partsOn(table, body);
    const last = sheets.at(-1);
    const below = last && partsBelow(table, alone, body, last.used);
    if (below) {
      last.titles.push(table.title);
      last.parts.push(below[0]!);
      last.used += between_mm + below[0]!.height;
    }
    const further = below ? below.slice(1) : alone;
    sheets.push(...further.map((part) => ({ titles: [part.title], parts: [part], used: part.height })));
  }
  return sheets.map(({ titles, parts }) => {
    let down = 0;
    const marks = parts.flatMap((part) => {
      const at = placed(part.marks, 1, [0, -down]);
      down += part.height + between_mm;
      return at;
    });
    return { titles: [...new Set(titles)], perPaper: 0, marks, carries: 'list' };
  });
}
