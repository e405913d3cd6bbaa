import type { Layer } from '../ink/layers.ts';
import { leastEm_mm as em, leading, wrapped } from '../ink/lettering.ts';
import { corners, type Extents, lettering, type Mark, outline } from '../ink/mark.ts';
import { listHeadingRoom_mm as headingRoom_mm, listHeading } from './heading.ts';
import type { Table } from './table.ts';
import type { TablePart } from './table-sheets.ts';

/** Widest column of text that is still read with ease, about ninety letters, and the air between two, mm. */
const widest_mm = 130;
const between_mm = 7;
/** A paragraph stands so far in from its number, further where it is ticked off, and so far from the one before, mm. */
const indent_mm = 7;
const tickIndent_mm = 11.5;
const tick_mm = 3;
const apart_mm = 1.5;
/** Text is not begun in less room than this, mm. */
const leastRoom_mm = 30;

const pitch_mm = em * leading;

/** A line of a paragraph: what stands before it hangs in the margin. */
interface Line {
  readonly text: string;
  readonly layer: Layer;
  readonly bold: boolean;
  readonly hanging: string;
}

const plain = (text: string): Line => ({ text, layer: 'LETTERING', bold: false, hanging: '' });

const indentOf = ({ text }: Table): number =>
  text!.lead !== 'hanging' ? 0 : text!.isTicked ? tickIndent_mm : indent_mm;

/** What a row says after its text, each cell after the name of its column. */
function remarksOf({ columns }: Table, row: readonly string[], from: number): string {
  return columns
    .slice(from)
    .flatMap(({ label }, i) => (row[from + i] ? [`${label}: ${row[from + i]!.replace(/\.$/, '')}.`] : []))
    .join(' ');
}

/** A row as lines: its lead, its text, and in grey what is to be known beside it. */
function paragraphOf(table: Table, row: readonly string[], width: number): Line[] {
  const lead = table.text!.lead;
  const isHanging = lead === 'hanging';
  const at = isHanging ? 1 : lead;
  const room = width - indentOf(table);
  const broken = (text: string, bold = false): string[] => wrapped(text, room, { em, bold });
  const lines = [
    ...(isHanging
      ? []
      : broken(row.slice(0, lead).join('  ·  '), true).map((text) => ({ ...plain(text), bold: true }))),
    ...broken(row[at] ?? '').map(plain),
    ...broken(remarksOf(table, row, at + 1)).map((text): Line => ({ ...plain(text), layer: 'LABELS' })),
  ];
  return lines.map((each, i) => (isHanging && i === 0 ? { ...each, hanging: row[0] ?? '' } : each));
}

/** Paragraphs one below another in a column; none is broken. */
function columnsOf(paragraphs: readonly (readonly Line[])[], most: number, height: number): Line[][][] {
  const columns: Line[][][] = [[]];
  let used = 0;
  for (const lines of paragraphs) {
    const needed = lines.length * pitch_mm + apart_mm;
    if (used + needed > height + apart_mm + 1e-9 && used > 0) {
      if (columns.length === most) break;
      columns.push([]);
      used = 0;
    }
    columns.at(-1)!.push([...lines]);
    used += needed;
  }
  return columns;
}

const held = (columns: readonly (readonly unknown[])[]): number => columns.flat().length;

const heightOf = (column: readonly (readonly Line[])[]): number =>
  column.reduce((sum, lines) => sum + lines.length * pitch_mm + apart_mm, 0) - apart_mm;

/** All paragraphs that fit a height; where all do, in the least height that holds them. */
function filled(paragraphs: readonly (readonly Line[])[], most: number, height: number): Line[][][] {
  const whole = columnsOf(paragraphs, most, height);
  if (held(whole) < paragraphs.length) return whole;
  let least = pitch_mm;
  while (held(columnsOf(paragraphs, most, least)) < paragraphs.length) least += pitch_mm / 2;
  return columnsOf(paragraphs, most, Math.max(least, ...paragraphs.map((lines) => heightOf([lines]))));
}

function columnMarks(table: Table, column: readonly (readonly Line[])[], x: number, top: number): Mark[] {
  const indent = indentOf(table);
  let y = top;
  return column.flatMap((lines) => {
    const marks = lines.flatMap(({ text, layer, bold, hanging }, i): Mark[] => {
      const at = y - (i + 0.85) * pitch_mm;
      const number: Mark[] =
        hanging === '' ? [] : [lettering({ layer: 'LETTERING', at: [x, at], text: hanging, em, bold: true })];
      const box = { x0: x + indent - tick_mm - 2, y0: at - 0.4, x1: x + indent - 2, y1: at - 0.4 + tick_mm };
      if (hanging !== '' && table.text!.isTicked) number.push(outline('RULES', ...corners(box)));
      return [...number, lettering({ layer, at: [x + indent, at], text, em, bold })];
    });
    y -= lines.length * pitch_mm + apart_mm;
    return marks;
  });
}

/**
 * The rows of a table as paragraphs in columns, read down and then to the right; on the last sheet the columns are alike
 * in height.
 *
 * @param first height of the room on the first sheet, mm
 */
export function textParts(table: Table, body: Extents, first: number): TablePart[] | undefined {
  const width = body.x1 - body.x0;
  const most = Math.ceil((width + between_mm) / (widest_mm + between_mm));
  const step = (width + between_mm) / most;
  let left = table.rows.map((row) => paragraphOf(table, row, step - between_mm));
  const parts: TablePart[] = [];
  while (left.length > 0) {
    const room = (parts.length === 0 ? first : body.y1 - body.y0) - headingRoom_mm;
    if (parts.length === 0 && room < leastRoom_mm) return undefined;
    const columns = filled(left, most, room);
    const text = parts.length === 0 ? table.title : `${table.title}, continued`;
    parts.push({
      title: table.title,
      marks: [
        listHeading(text, body),
        ...columns.flatMap((column, i) =>
          columnMarks(table, column, body.x0 + i * step, body.y1 - headingRoom_mm),
        ),
      ],
      height: headingRoom_mm + Math.max(...columns.map(heightOf)),
    });
    left = left.slice(held(columns));
  }
  return parts;
}
