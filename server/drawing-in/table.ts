import { coordinateColumns, widthColumn } from '../../src/job/coordinate-columns.ts';
import type { Segment } from '../../src/job/slots.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type DrawingIssue, drawingIssue } from './issues.ts';
import { holdable, type SlotsRead } from './slots-read.ts';

/** Cells of a row: at tabs or semicolons if it has any; else at spaces; else at commas. */
function cellsOf(row: string): { cells: string[]; decimal: ',' | '.' | 'either' } {
  const trimmed = row.trim();
  if (/[\t;]/.test(trimmed)) {
    // A spreadsheet may leave a separator at the end of a row.
    const cells = trimmed.split(/[\t;]/).map((cell) => cell.trim());
    return { cells: cells.at(-1) === '' ? cells.slice(0, -1) : cells, decimal: 'either' };
  }
  if (/,\s/.test(trimmed)) return { cells: trimmed.split(/,\s+/), decimal: '.' };
  if (/\s/.test(trimmed)) return { cells: trimmed.split(/\s+/), decimal: 'either' };
  return { cells: trimmed.split(','), decimal: '.' };
}

/** A plain decimal number; with a comma where that is how the row writes decimals. NaN for anything else. */
function numberOf(cell: string, decimal: ',' | '.' | 'either'): number {
  const text = cell.replace(/^−/, '-');
  const plain = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;
  if (plain.test(text)) return Number(text);
  const withPoint = text.replace(',', '.');
  return decimal !== '.' && plain.test(withPoint) ? Number(withPoint) : Number.NaN;
}

interface RowRead {
  readonly line: number;
  readonly kind: 'slot' | 'heading' | 'wrong';
  readonly numbers: readonly number[];
}

/** Columns of the coordinates, and of a slot's own width where the heading names one. */
type Columns = { readonly ends: readonly number[]; readonly width: number | undefined } | undefined;

/** The four coordinates of a row, and its width: in the columns that the heading names, where it names any. */
function readRow(row: string, line: number, columns: Columns): RowRead {
  const { cells, decimal } = cellsOf(row);
  const numbers = cells.map((cell) => numberOf(cell, decimal));
  const picked = columns ? columns.ends.map((column) => numbers[column] ?? Number.NaN) : numbers;
  const width = columns?.width;
  const own = width === undefined || (cells[width] ?? '') === '' ? [] : [numbers[width]!];
  if (picked.length === 4 && [...picked, ...own].every(Number.isFinite))
    return { line, kind: 'slot', numbers: [...picked, ...own] };
  const isHeading = numbers.every(Number.isNaN) && /\p{L}|^#/u.test(row.trim());
  return { line, kind: isHeading ? 'heading' : 'wrong', numbers };
}

/** Reads the rows in order; a heading holds for the rows below it. */
function readRows(lines: readonly string[]): RowRead[] {
  const rows: RowRead[] = [];
  let columns: Columns;
  for (const [i, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const row = readRow(line, i + 1, columns);
    if (row.kind === 'heading') {
      const { cells } = cellsOf(line);
      const ends = coordinateColumns(cells);
      columns = ends ? { ends, width: widthColumn(cells) } : columns;
    }
    rows.push(row);
  }
  return rows;
}

function rowIssue(row: RowRead, text: string): DrawingIssue {
  const shown = text.trim().slice(0, 60);
  const numberCount = row.numbers.filter(Number.isFinite).length;
  return drawingIssue(
    'table-row',
    `Row ${row.line}, "${shown}", is not four numbers: write x0 y0 x1 y1 in mm, between tabs or semicolons, with a point or a comma for decimals and nothing between thousands.`,
    { row: row.line, numberCount },
  );
}

function segmentOf({ numbers }: RowRead): Segment {
  const [x0_mm, y0_mm, x1_mm, y1_mm, width_mm] = numbers as [number, number, number, number, number?];
  return { x0_mm, y0_mm, x1_mm, y1_mm, ...(width_mm !== undefined && { width_mm }) };
}

const hasLength = (row: RowRead): boolean =>
  row.numbers[0] !== row.numbers[2] || row.numbers[1] !== row.numbers[3];

/**
 * Slots from a pasted table, one row for each: x0, y0, x1, y1 in mm from the panel's lower left corner, between
 * tabs, semicolons or spaces with a decimal point or comma, or between commas with a decimal point. A heading may
 * name further columns, such as a number, and one of the width of each slot. Headings and rows without length are left out and listed; any other row
 * that is not four numbers refuses the whole table.
 */
export function slotsFromTable(text: string): Outcome<SlotsRead, DrawingIssue> {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  const rows = readRows(lines);
  const wrong = rows.filter(({ kind }) => kind === 'wrong');
  if (wrong.length > 0) return refused(...wrong.map((row) => rowIssue(row, lines[row.line - 1]!)));
  const slots = rows.filter(({ kind }) => kind === 'slot');
  const kept = holdable(slots.filter(hasLength).map(segmentOf));
  if (!kept.ok) return kept;
  if (kept.value.length === 0) {
    const sentence = 'The table holds no slot: paste one row for each, x0 y0 x1 y1 in mm.';
    return refused(drawingIssue('table-row', sentence));
  }
  const leftOut = [
    ...rows.filter(({ kind }) => kind === 'heading').map((row) => ({ row, why: 'has no numbers' })),
    ...slots.filter((row) => !hasLength(row)).map((row) => ({ row, why: 'start and finish are the same' })),
  ];
  return found({
    layer: null,
    layers: [],
    unit: 'mm',
    segments: kept.value,
    width_mm: null,
    ignored: leftOut.map(({ row, why }) => ({ what: `row ${row.line}`, layer: '', why, count: 1 })),
    notes: [],
  });
}
