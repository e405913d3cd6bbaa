import { leading, wrapped } from '../ink/lettering.ts';
import { type Extents, lettering, type Mark } from '../ink/mark.ts';
import {
  betweenStretches_mm as between_mm,
  shortEm_mm as em,
  type ShortFitting,
  shortFitting,
} from './short-columns.ts';
import { shortMarks } from './short-marks.ts';
import { headingOf, type Table } from './table.ts';
import type { TablePart } from './table-sheets.ts';

const heading_mm = 3.4;
const headingRoom_mm = 6;
/** Fewer rows than this do not stand alone. */
const fewest = 3;

const pitch_mm = em * leading;

/** What stands above the rows, in lines. */
interface Top {
  readonly heading: readonly string[];
  readonly caption: readonly string[];
  readonly height: number;
}

function topOf(table: Table, width: number, isFirst: boolean): Top {
  const text = isFirst ? headingOf(table) : `${headingOf(table)}, continued`;
  const heading = wrapped(text, width, { em: heading_mm, bold: true });
  const caption = isFirst ? (table.caption ?? []).flatMap((each) => wrapped(each, width, { em })) : [];
  const further = (heading.length - 1) * heading_mm * leading;
  const below = caption.length === 0 ? 0 : caption.length * pitch_mm + 1;
  return { heading, caption, height: headingRoom_mm + further + below };
}

function topMarks({ heading, caption }: Top, { x0, y1 }: Extents): Mark[] {
  const under = y1 - headingRoom_mm - (heading.length - 1) * heading_mm * leading;
  return [
    ...heading.map((text, i) =>
      lettering({
        ...{ layer: 'LETTERING', text, em: heading_mm, bold: true },
        at: [x0, y1 - heading_mm - i * heading_mm * leading],
      }),
    ),
    ...caption.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [x0, under - (i + 0.75) * pitch_mm], text, em }),
    ),
  ];
}

/** Rows one below another in a stretch, the stretches as even as they can be. */
function stretchesOf(rows: readonly number[], most: number, beside: number): number[][] {
  const count = Math.min(beside, Math.max(1, Math.ceil(rows.length / fewest)), rows.length);
  const each = Math.min(most, Math.ceil(rows.length / count));
  const stretches: number[][] = [];
  for (let from = 0; from < rows.length; from += each) stretches.push(rows.slice(from, from + each));
  return stretches.slice(0, beside);
}

/** Rows in stretches below what stands above them. */
interface Setting {
  readonly top: Top;
  readonly stretches: readonly (readonly number[])[];
  readonly height: number;
}

/** As many rows as a height holds, or undefined where hardly any would stand there. */
function settingOf(table: Table, fit: ShortFitting, rows: readonly number[], width: number, height: number) {
  const top = topOf(table, width, (rows[0] ?? 0) === 0);
  const head = fit.groupHeight + fit.headHeight;
  if (rows.length === 0) return top.height <= height ? { top, stretches: [], height: top.height } : undefined;
  const most = Math.floor((height - top.height - head + 1e-9) / fit.rowHeight);
  if (most < Math.min(fewest, rows.length)) return undefined;
  const beside = Math.floor((width + between_mm + 1e-9) / (fit.width + between_mm));
  const stretches = stretchesOf(rows, most, beside);
  const longest = Math.max(...stretches.map((each) => each.length));
  return { top, stretches, height: top.height + head + longest * fit.rowHeight } satisfies Setting;
}

function partOf(
  table: Table,
  fit: ShortFitting,
  { top, stretches, height }: Setting,
  body: Extents,
): TablePart {
  const from = body.y1 - top.height;
  const marks = [
    ...topMarks(top, body),
    ...stretches.flatMap((each, i) =>
      shortMarks(table, fit, each, body.x0 + i * (fit.width + between_mm), from),
    ),
  ];
  return { title: table.title, marks, height };
}

const allRows = ({ rows }: Table): number[] => rows.map((_, i) => i);

/** Height of a short table as one piece of a width; undefined where it does not fit so or is taller than the room. */
export function shortHeight(table: Table, width: number, room: number): number | undefined {
  const fit = shortFitting(table, width);
  const setting = fit && settingOf(table, fit, allRows(table), width, room);
  return setting && setting.stretches.flat().length === table.rows.length ? setting.height : undefined;
}

/**
 * A short table as sheets: what its rows share stands once above them, its heads repeat, and it goes on beside itself
 * as often as the sheet is wide, the stretches alike in length. Undefined where its columns do not fit a sheet, or
 * where too little of it would stand in the room on the first.
 *
 * @param first height of the room for it on the first sheet, mm
 */
export function shortParts(table: Table, body: Extents, first: number): TablePart[] | undefined {
  const width = body.x1 - body.x0;
  const fit = shortFitting(table, width);
  if (!fit) return undefined;
  const parts: TablePart[] = [];
  let rows: readonly number[] = allRows(table);
  do {
    const room = parts.length === 0 ? first : body.y1 - body.y0;
    const setting = settingOf(table, fit, rows, width, room);
    if (!setting) return undefined;
    parts.push(partOf(table, fit, setting, body));
    rows = rows.slice(setting.stretches.flat().length);
  } while (rows.length > 0);
  return parts;
}
