import { leading, wrapped } from '../ink/lettering.ts';
import { corners, filled, lettering, line, type Mark } from '../ink/mark.ts';
import { rowSign } from './row-sign.ts';
import type { Table } from './table.ts';
import { em_mm, type Fitting, handRow_mm, padding_mm } from './table-columns.ts';

/** A row broken into lines, or as much of it as a sheet holds. */
export interface Row {
  readonly lines: readonly (readonly string[])[];
  readonly height: number;
  readonly marked: boolean;
}

/** The rows of a table; one taller than the room goes on in another. */
export function rowsOf(table: Table, fit: Fitting, room: number): Row[] {
  const least = table.columns.some((column) => column.write_mm > 0) ? handRow_mm : 0;
  const pitch = em_mm * leading;
  const most = Math.max(1, Math.floor((room - 2 * padding_mm) / pitch));
  return table.rows.flatMap((row, number) => {
    const lines = fit.shown.map((i, k) =>
      wrapped(row[i] ?? '', fit.widths[k]! - 2 * padding_mm, { em: em_mm }),
    );
    const count = Math.max(1, ...lines.map((cell) => cell.length));
    return Array.from({ length: Math.ceil(count / most) }, (_, part): Row => {
      const cut = lines.map((cell) => cell.slice(part * most, (part + 1) * most));
      const height = Math.max(least, Math.min(most, count - part * most) * pitch + 2 * padding_mm);
      return { lines: cut, height, marked: table.marked.has(number) };
    });
  });
}

interface Head {
  readonly lines: readonly (readonly string[])[];
  readonly height: number;
  readonly groupHeight: number;
}

/** The heads of the columns shown, and the room they take. */
export function headOf(table: Table, fit: Fitting): Head {
  const columns = fit.shown.map((i) => table.columns[i]!);
  const lines = columns.map(({ label, unit }, k) => [
    ...wrapped(label, fit.widths[k]! - 2 * padding_mm, { em: em_mm, bold: true }),
    ...(unit === '' ? [] : [unit]),
  ]);
  const pitch = em_mm * leading;
  const groupHeight = columns.some((column) => column.group !== '') ? pitch + 2 * padding_mm : 0;
  return {
    lines,
    height: Math.max(...lines.map((cell) => cell.length)) * pitch + 2 * padding_mm + groupHeight,
    groupHeight,
  };
}

interface CellText {
  readonly lines: readonly string[];
  readonly x: number;
  readonly width: number;
  readonly top: number;
  readonly align: 'left' | 'right';
  readonly bold: boolean;
}

function cellMarks({ lines, x, width, top, align, bold }: CellText): Mark[] {
  const at = align === 'left' ? x + padding_mm : x + width - padding_mm;
  return lines.map((text, i) =>
    lettering({
      layer: 'LETTERING',
      at: [at, top - padding_mm - (i * leading + 0.93) * em_mm],
      text,
      em: em_mm,
      align,
      bold,
    }),
  );
}

const edges = (fit: Fitting, x0: number): number[] => {
  const at = [x0];
  for (const width of fit.widths) at.push(at.at(-1)! + width);
  return at;
};

function groupMarks(table: Table, fit: Fitting, x: readonly number[], top: number, bottom: number): Mark[] {
  const groups = fit.shown.map((i) => table.columns[i]!.group);
  return groups.flatMap((group, k) => {
    if (group === '' || groups[k - 1] === group) return [];
    const end = groups.lastIndexOf(group) + 1;
    const [x0, x1] = [x[k]!, x[end]!];
    return [
      line('RULES', [x0, bottom], [x1, bottom]),
      line('RULES', [x0, top], [x0, bottom]),
      line('RULES', [x1, top], [x1, bottom]),
      lettering({
        layer: 'LETTERING',
        at: [(x0 + x1) / 2, bottom + padding_mm + 0.25 * em_mm],
        text: group,
        em: em_mm,
        align: 'middle',
        bold: true,
      }),
    ];
  });
}

function headMarks(table: Table, fit: Fitting, head: Head, x: readonly number[], top: number): Mark[] {
  const bottom = top - head.height;
  return [
    filled('SHADE', ...corners({ x0: x[0]!, y0: bottom, x1: x.at(-1)!, y1: top })),
    ...groupMarks(table, fit, x, top, top - head.groupHeight),
    ...head.lines.flatMap((lines, k) =>
      cellMarks({
        lines,
        x: x[k]!,
        width: fit.widths[k]!,
        top: top - head.groupHeight,
        align: table.columns[fit.shown[k]!]!.align,
        bold: true,
      }),
    ),
    line('BREAKS', [x[0]!, top], [x.at(-1)!, top]),
    line('BREAKS', [x[0]!, bottom], [x.at(-1)!, bottom]),
  ];
}

function rowMarks(table: Table, fit: Fitting, row: Row, x: readonly number[], top: number): Mark[] {
  const bottom = top - row.height;
  const lineCount = Math.max(1, ...row.lines.map((lines) => lines.length));
  // A row that is higher than its text has it in the middle.
  const air = (row.height - 2 * padding_mm - lineCount * em_mm * leading) / 2;
  const sign = row.marked ? rowSign(x[0]!, bottom, table.revision) : [];
  return [
    ...row.lines.flatMap((lines, k) =>
      cellMarks({
        lines,
        x: x[k]!,
        width: fit.widths[k]!,
        top: top - air,
        align: table.columns[fit.shown[k]!]!.align,
        bold: false,
      }),
    ),
    ...sign,
    line('RULES', [x[0]!, bottom], [x.at(-1)!, bottom]),
  ];
}

/** One stretch of a table: its head and its rows, from a left edge and an upper edge. */
export function stretchMarks(
  table: Table,
  fit: Fitting,
  rows: readonly Row[],
  left: number,
  top: number,
): Mark[] {
  const head = headOf(table, fit);
  const x = edges(fit, left);
  let y = top - head.height;
  const marks = rows.flatMap((row) => {
    const drawn = rowMarks(table, fit, row, x, y);
    y -= row.height;
    return drawn;
  });
  const below = top - head.groupHeight;
  return [
    ...headMarks(table, fit, head, x, top),
    ...marks,
    ...x.map((at, k) => line('RULES', [at, k === 0 || k === x.length - 1 ? top : below], [at, y])),
  ];
}
