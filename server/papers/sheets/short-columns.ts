import { leading, leastEm_mm, textWidth, wrapped } from '../ink/lettering.ts';
import type { Table, TableColumn } from './table.ts';

/** Lettering of short tables: capitals of 1.82 mm. */
export const shortEm_mm = leastEm_mm;
/** Air beside and above what is written in a cell, mm. */
export const besides_mm = 0.6;
export const above_mm = 0.3;
/** Air between two stretches of a table side by side, mm. */
export const betweenStretches_mm = 5;
/** Least height of a row that is written in by hand. */
const handRow_mm = 4.8;

/** A column with its width and its head, level or standing upright. */
export interface ShortColumn {
  readonly width: number;
  readonly head: readonly string[];
  readonly isUpright: boolean;
}

/** A short table in its columns. */
export interface ShortFitting {
  readonly columns: readonly ShortColumn[];
  readonly width: number;
  readonly rowHeight: number;
  /** Of all heads, and of the headings over several columns. */
  readonly headHeight: number;
  readonly groupHeight: number;
}

const pitch_mm = shortEm_mm * leading;

const widest = (texts: readonly string[], bold: boolean): number =>
  texts.reduce((most, text) => Math.max(most, textWidth(text, shortEm_mm, bold)), 0);

const headText = ({ label, unit }: TableColumn): string => (unit === '' ? label : `${label}, ${unit}`);

/** A head may make its column this much wider before it stands upright, and take so many lines, mm. */
const spare_mm = 0.7;
/** A head of so few letters never stands upright. */
const fewLetters = 4;
const mostLines = 3;

/** An upright head longer than this is broken in two where its column is nearly wide enough, mm. */
const longUpright_mm = 15;

function uprightLines(text: string, inner: number): string[] {
  const face = { em: shortEm_mm, bold: true };
  const length = textWidth(text, shortEm_mm, true);
  if (length <= longUpright_mm || inner + 1 < 2 * pitch_mm - besides_mm) return [text];
  const halves = [0.5, 0.6, 0.7, 0.8].map((share) => wrapped(text, share * length, face));
  return halves.find((lines) => lines.length <= 2) ?? [text];
}

function columnOf(column: TableColumn, cells: readonly string[]): ShortColumn {
  const inner = Math.max(widest(cells, false), column.write_mm - 2 * besides_mm);
  const text = headText(column);
  const spare = text.length <= fewLetters ? Infinity : spare_mm;
  const room = Math.max(inner, Math.min(widest(text.split(/\s+/), true), inner + spare)) + 0.05;
  const face = { em: shortEm_mm, bold: true };
  const level = wrapped(text, room, face);
  const isLevel = widest(text.split(/\s+/), true) <= room && level.length <= mostLines;
  if (isLevel) return { width: room + 2 * besides_mm, head: level, isUpright: false };
  const upright = uprightLines(text, inner);
  const width = Math.max(inner, upright.length * pitch_mm - besides_mm) + 0.05;
  return { width: width + 2 * besides_mm, head: upright, isUpright: true };
}

const headHeightOf = ({ head, isUpright }: ShortColumn): number =>
  isUpright ? widest(head, true) + 2 * besides_mm : head.length * pitch_mm + 2 * above_mm;

const known = new WeakMap<Table, ShortFitting>();

/** The columns of a short table, each as wide as its widest cell; undefined where they do not fit beside one another. */
export function shortFitting(table: Table, width: number): ShortFitting | undefined {
  const fit = known.get(table) ?? fittingOf(table);
  known.set(table, fit);
  return fit.width > width ? undefined : fit;
}

function fittingOf(table: Table): ShortFitting {
  const columns = table.columns.map((column, i) =>
    columnOf(
      column,
      table.rows.map((row) => row[i] ?? ''),
    ),
  );
  const whole = columns.reduce((sum, column) => sum + column.width, 0);
  const isByHand = table.columns.some(({ write_mm }) => write_mm > 0);
  const isGrouped = table.columns.some(({ group }) => group !== '');
  return {
    columns,
    width: whole,
    rowHeight: isByHand ? handRow_mm : pitch_mm + 2 * above_mm,
    headHeight: Math.max(...columns.map(headHeightOf)),
    groupHeight: isGrouped ? pitch_mm + 2 * above_mm : 0,
  };
}
