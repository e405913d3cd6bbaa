import { leading, wrapped } from '../ink/lettering.ts';
import { type Extents, lettering, type Mark } from '../ink/mark.ts';
import { shortEm_mm as em, type ShortFitting, shortFitting } from './short-columns.ts';
import { shortMarks } from './short-marks.ts';
import { headingOf, type Table } from './table.ts';
import type { TablePart } from './table-sheets.ts';

const heading_mm = 3.4;
const headingRoom_mm = 6;
/** Air between two stretches side by side, mm. */
const between_mm = 5;
/** Fewer rows than this do not stand alone. */
const fewest = 3;

const pitch_mm = em * leading;

/** What stands above the rows. */
interface Top {
  readonly marks: readonly Mark[];
  readonly height: number;
}

function topOf(table: Table, body: Extents, isFirst: boolean): Top {
  const text = isFirst ? headingOf(table) : `${headingOf(table)}, continued`;
  const lines = isFirst
    ? (table.caption ?? []).flatMap((each) => wrapped(each, body.x1 - body.x0, { em }))
    : [];
  const under = body.y1 - headingRoom_mm;
  const marks = [
    lettering({ layer: 'LETTERING', at: [body.x0, body.y1 - heading_mm], text, em: heading_mm, bold: true }),
    ...lines.map((line, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, under - (i + 0.75) * pitch_mm], text: line, em }),
    ),
  ];
  return { marks, height: headingRoom_mm + (lines.length === 0 ? 0 : lines.length * pitch_mm + 1) };
}

/** Rows one below another in a stretch, the stretches as even as they can be. */
function stretchesOf(rows: readonly number[], most: number, beside: number): number[][] {
  const count = Math.min(beside, Math.max(1, Math.ceil(rows.length / fewest)), rows.length);
  const each = Math.min(most, Math.ceil(rows.length / count));
  const stretches: number[][] = [];
  for (let from = 0; from < rows.length; from += each) stretches.push(rows.slice(from, from + each));
  return stretches.slice(0, beside);
}

interface Begun {
  readonly part: TablePart;
  readonly left: readonly number[];
}

/** As many rows as a height holds, or undefined where hardly any would stand there. */
function partOf(table: Table, fit: ShortFitting, rows: readonly number[], body: Extents, height: number) {
  const isFirst = rows[0] === 0;
  const top = topOf(table, body, isFirst);
  const head = fit.groupHeight + fit.headHeight;
  const most = Math.floor((height - top.height - head + 1e-9) / fit.rowHeight);
  if (most < Math.min(fewest, rows.length)) return undefined;
  const beside = Math.floor((body.x1 - body.x0 + between_mm) / (fit.width + between_mm));
  const stretches = stretchesOf(rows, most, beside);
  const longest = Math.max(...stretches.map((each) => each.length));
  const from = body.y1 - top.height;
  const part: TablePart = {
    title: table.title,
    marks: [
      ...top.marks,
      ...stretches.flatMap((each, i) =>
        shortMarks(table, fit, each, body.x0 + i * (fit.width + between_mm), from),
      ),
    ],
    height: top.height + head + longest * fit.rowHeight,
  };
  return { part, left: rows.slice(stretches.flat().length) } satisfies Begun;
}

/**
 * A short table as sheets: what its rows share stands once above them, its heads repeat, and it goes on beside itself
 * as often as the sheet is wide, the stretches alike in length. Undefined where its columns do not fit a sheet, or
 * where too little of it would stand in the room on the first.
 *
 * @param first height of the room for it on the first sheet, mm
 */
export function shortParts(table: Table, body: Extents, first: number): TablePart[] | undefined {
  const fit = shortFitting(table, body.x1 - body.x0);
  if (!fit) return undefined;
  const parts: TablePart[] = [];
  let rows: readonly number[] = table.rows.map((_, i) => i);
  if (rows.length === 0) {
    const { marks, height } = topOf(table, body, true);
    return height <= first ? [{ title: table.title, marks, height }] : undefined;
  }
  while (rows.length > 0) {
    const begun = partOf(table, fit, rows, body, parts.length === 0 ? first : body.y1 - body.y0);
    if (!begun) return undefined;
    parts.push(begun.part);
    rows = begun.left;
  }
  return parts;
}
