import { placed } from '../ink/mark.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import { type Table, type TablePart, tableParts } from './table.ts';

/** Air between two tables on one sheet, mm. */
const between_mm = 6;

interface Filling {
  readonly titles: string[];
  readonly parts: TablePart[];
  used: number;
}

/**
 * Tables on sheets, in order: a table goes below the one before when the whole of it fits there, else it begins a
 * new sheet. Tables without rows are left out.
 */
export function tableDrafts(tables: readonly Table[], format: Format): Draft[] {
  const body = bodyOf(format);
  const room = body.y1 - body.y0;
  const sheets: Filling[] = [];
  for (const table of tables.filter(({ rows }) => rows.length > 0)) {
    const parts = tableParts(table, body);
    const last = sheets.at(-1);
    if (last && parts.length === 1 && last.used + between_mm + parts[0]!.height <= room) {
      last.titles.push(table.title);
      last.parts.push(parts[0]!);
      last.used += between_mm + parts[0]!.height;
      continue;
    }
    sheets.push(...parts.map((part) => ({ titles: [part.title], parts: [part], used: part.height })));
  }
  return sheets.map(({ titles, parts }) => {
    let down = 0;
    const marks = parts.flatMap((part) => {
      const at = placed(part.marks, 1, [0, -down]);
      down += part.height + between_mm;
      return at;
    });
    return { titles, perPaper: 0, marks };
  });
}
