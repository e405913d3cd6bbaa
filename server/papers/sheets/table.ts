import { leading, textWidth, wrapped } from '../ink/lettering.ts';
import { corners, type Extents, filled, lettering, line, type Mark } from '../ink/mark.ts';
import { heading, headingRoom_mm } from './heading.ts';

/** A column of a table on paper. */
export interface TableColumn {
  readonly label: string;
  readonly unit: string;
  readonly align: 'left' | 'right';
  /** Room to write in by hand, mm; 0 for a column that is printed. */
  readonly write_mm: number;
  /** Heading over several neighbouring columns; empty for none. */
  readonly group: string;
}

/** Rows of text under columns; `marked` rows carry the sign of a change. */
export interface Table {
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly string[])[];
  readonly marked: ReadonlySet<number>;
}

/** A table whose columns have widths and whose cells are broken into lines. */
interface Fitting {
  readonly em: number;
  readonly widths: readonly number[];
  /** Numbers of the columns shown, the first always among them. */
  readonly shown: readonly number[];
  /** Least height of a row that is written in by hand, mm. */
  readonly handRow_mm: number;
}

const padding_mm = 0.9;
/** Least height of a row that is written in by hand, and how far it may shrink to save a sheet. */
const handRows_mm = [7, 6.6, 6.2] as const;
/** From comfortable to the least that is still read on a building site (1.7 mm capitals is 2.3 mm em). */
const ems_mm = [2.9, 2.7, 2.5, 2.3, 2.15] as const;

const words = (text: string): string[] => text.split(/\s+/);

/** Widths of a column's texts in ems, measured once: a width grows with its em. */
interface Measured {
  readonly label: number;
  readonly labelWord: number;
  readonly word: number;
  readonly cells: readonly number[];
  readonly write_mm: number;
}

const widest = (texts: readonly string[], bold: boolean): number =>
  texts.reduce((most, text) => Math.max(most, textWidth(text, 1, bold)), 0);

/** A word longer than this is cut rather than let a column grow, in ems. */
const longestWord = 14;

function measured(table: Table, index: number): Measured {
  const { label, unit, write_mm } = table.columns[index]!;
  const cells = table.rows.map((row) => row[index] ?? '');
  return {
    label: textWidth(label, 1, true),
    labelWord: widest([...words(label), unit], true),
    word: Math.min(widest([...new Set(cells.flatMap(words))], false), longestWord),
    cells: cells.map((cell) => textWidth(cell, 1)),
    write_mm,
  };
}

interface Wish {
  readonly least: number;
  readonly most: number;
}

/** Cells that fit their column to the last hundredth must not be broken by rounding. */
const ease_mm = 0.05;

function wishOf({ label, labelWord, word, cells, write_mm }: Measured, em: number): Wish {
  const least = Math.max(labelWord * em, word * em, write_mm - 2 * padding_mm);
  const most = Math.max(least, label * em * 0.7, ...cells.map((cell) => cell * em));
  return { least: least + 2 * padding_mm + ease_mm, most: most + 2 * padding_mm + ease_mm };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Least widths first; what is left over goes to the columns that would break their text, most to the longest. */
function shareOut(wishes: readonly Wish[], width: number): number[] | undefined {
  let widths = wishes.map((wish) => wish.least);
  let spare = width - sum(widths);
  if (spare < 0) return undefined;
  for (let round = 0; round < 6 && spare > 0.01; round++) {
    const open = wishes.map((wish, i) => Math.max(0, wish.most - widths[i]!));
    const whole = sum(open);
    if (whole < 1e-9) break;
    const share = Math.min(spare, whole) / whole;
    widths = widths.map((w, i) => w + share * open[i]!);
    spare = width - sum(widths);
  }
  return widths;
}

/** About how high the rows come out, mm. */
function height_mm(columns: readonly Measured[], widths: readonly number[], em: number): number {
  const rowCount = columns[0]?.cells.length ?? 0;
  let lines = 0;
  for (let row = 0; row < rowCount; row++) {
    lines += columns.reduce(
      (most, { cells }, i) => Math.max(most, Math.ceil((cells[row]! * em) / (widths[i]! - 2 * padding_mm))),
      1,
    );
  }
  return lines * em * leading + rowCount * 2 * padding_mm;
}

/** The largest lettering that costs no more than a fifth of the height the smallest would take. */
function fitting(columns: readonly Measured[], shown: readonly number[], width: number): Fitting | undefined {
  const here = shown.map((i) => columns[i]!);
  const options = ems_mm.flatMap((em) => {
    const widths = shareOut(
      here.map((column) => wishOf(column, em)),
      width,
    );
    return widths
      ? [{ em, widths, shown, handRow_mm: handRows_mm[0], height: height_mm(here, widths, em) }]
      : [];
  });
  const least = Math.min(...options.map(({ height, em }) => height / em));
  return options.find(({ height, em }) => height / em <= 1.2 * least);
}

/** The whole table at once if it fits the width, else in two or more parts that all begin with the first column. */
function fittings(table: Table, width: number): Fitting[] {
  const columns = table.columns.map((_, i) => measured(table, i));
  const rest = table.columns.map((_, i) => i).slice(1);
  for (let partCount = 1; partCount <= rest.length; partCount++) {
    const each = Math.ceil(rest.length / partCount);
    const parts = Array.from({ length: partCount }, (_, p) =>
      fitting(columns, [0, ...rest.slice(p * each, (p + 1) * each)], width),
    );
    if (parts.every((part) => part !== undefined)) return parts as Fitting[];
  }
  throw new RangeError(`no column of "${table.title}" fits a sheet`);
}

interface Row {
  readonly lines: readonly (readonly string[])[];
  readonly height: number;
  readonly marked: boolean;
}

function rowsOf(table: Table, fit: Fitting, room: number): Row[] {
  const least = table.columns.some((column) => column.write_mm > 0) ? fit.handRow_mm : 0;
  const pitch = fit.em * leading;
  const most = Math.max(1, Math.floor((room - 2 * padding_mm) / pitch));
  return table.rows.flatMap((row, number) => {
    const lines = fit.shown.map((i, k) =>
      wrapped(row[i] ?? '', fit.widths[k]! - 2 * padding_mm, { em: fit.em }),
    );
    const count = Math.max(1, ...lines.map((cell) => cell.length));
    // A row taller than a sheet goes on on the next.
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

function headOf(table: Table, fit: Fitting): Head {
  const columns = fit.shown.map((i) => table.columns[i]!);
  const lines = columns.map(({ label, unit }, k) => [
    ...wrapped(label, fit.widths[k]! - 2 * padding_mm, { em: fit.em, bold: true }),
    ...(unit === '' ? [] : [unit]),
  ]);
  const pitch = fit.em * leading;
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
  readonly em: number;
  readonly align: 'left' | 'right';
  readonly bold: boolean;
}

function cellMarks({ lines, x, width, top, em, align, bold }: CellText): Mark[] {
  const at = align === 'left' ? x + padding_mm : x + width - padding_mm;
  return lines.map((text, i) =>
    lettering({
      layer: 'LETTERING',
      at: [at, top - padding_mm - (i * leading + 0.93) * em],
      text,
      em,
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
        at: [(x0 + x1) / 2, bottom + padding_mm + 0.25 * fit.em],
        text: group,
        em: fit.em,
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
        em: fit.em,
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
  const air = (row.height - 2 * padding_mm - lineCount * fit.em * leading) / 2;
  const sign = row.marked
    ? [
        filled(
          'MARKED',
          [x[0]! - 2.2, bottom + 0.6],
          [x[0]! - 0.4, bottom + 0.6],
          [x[0]! - 1.3, bottom + 2.2],
        ),
      ]
    : [];
  return [
    ...row.lines.flatMap((lines, k) =>
      cellMarks({
        lines,
        x: x[k]!,
        width: fit.widths[k]!,
        top: top - air,
        em: fit.em,
        align: table.columns[fit.shown[k]!]!.align,
        bold: false,
      }),
    ),
    ...sign,
    line('RULES', [x[0]!, bottom], [x.at(-1)!, bottom]),
  ];
}

/** One sheet's worth of a table, from the upper edge of the body down. */
export interface TablePart {
  readonly title: string;
  readonly marks: readonly Mark[];
  readonly height: number;
}

/** One stretch of a table: its head and its rows, from a left edge and an upper edge. */
function stretchMarks(table: Table, fit: Fitting, rows: readonly Row[], left: number, top: number): Mark[] {
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

/** Fewer rows than this do not stand alone on a sheet where it can be helped. */
const fewest = 3;

/** Rows that fill one stretch after another; the last has a few from the one before rather than one or two. */
function stretchesOf(rows: readonly Row[], roomOf: (stretch: number) => number): Row[][] {
  const stretches: Row[][] = [[]];
  let used = 0;
  for (const row of rows) {
    if (used + row.height > roomOf(stretches.length - 1) + 1e-9 && stretches.at(-1)!.length > 0) {
      stretches.push([]);
      used = 0;
    }
    stretches.at(-1)!.push(row);
    used += row.height;
  }
  const [before, last] = [stretches.at(-2), stretches.at(-1)!];
  if (before) {
    const moved = before.splice(Math.max(fewest, before.length - Math.max(0, fewest - last.length)));
    if (sum([...moved, ...last].map(({ height }) => height)) <= roomOf(stretches.length - 1))
      last.unshift(...moved);
    else before.push(...moved);
  }
  return stretches;
}

/** Air between two stretches of a narrow table side by side, mm. */
const between_mm = 9;

/** Lettering below this is not chosen merely to save a sheet, mm. */
const besideEm_mm = 2.3;

/** The table at half the width with every cell in one line, or undefined where it is too wide for that. */
function narrow(table: Table, width: number): Fitting | undefined {
  const columns = table.columns.map((_, i) => measured(table, i));
  return ems_mm
    .filter((em) => em >= besideEm_mm)
    .map((em): Fitting => {
      const widths = columns.map((column) => wishOf(column, em).most);
      return { em, widths, shown: columns.map((_, i) => i), handRow_mm: handRows_mm[0] };
    })
    .find(({ widths }) => 2 * sum(widths) + between_mm <= width);
}

/** A long narrow table is set so that it can go on beside itself; any other as wide as it likes. */
function chosenFittings(table: Table, body: Extents): Fitting[] {
  const width = body.x1 - body.x0;
  const wide = fittings(table, width);
  const first = wide[0]!;
  const room = body.y1 - body.y0 - headingRoom_mm - headOf(table, first).height;
  const isLong = stretchesOf(rowsOf(table, first, room), () => room).length > 1;
  const half = wide.length === 1 && isLong ? narrow(table, width) : undefined;
  return half ? [half] : wide;
}

/** Stretches of a table, so many beside one another on a sheet. */
function partOf(
  table: Table,
  fit: Fitting,
  stretches: readonly Row[][],
  body: Extents,
  text: string,
): TablePart {
  const step = sum(fit.widths) + between_mm;
  const top = body.y1 - headingRoom_mm;
  const highest = Math.max(...stretches.map((rows) => sum(rows.map((row) => row.height))));
  return {
    title: table.title,
    marks: [
      heading(text, body),
      ...stretches.flatMap((rows, i) => stretchMarks(table, fit, rows, body.x0 + i * step, top)),
    ],
    height: headingRoom_mm + headOf(table, fit).height + highest,
  };
}

/** A table set in one way on a sheet or several. */
interface Setting {
  readonly fit: Fitting;
  readonly stretches: readonly Row[][];
  /** Stretches beside one another on a sheet. */
  readonly beside: number;
}

/** @param first height of the room on the first sheet; on all others the body's */
function settingOf(table: Table, fit: Fitting, body: Extents, first: number): Setting {
  const width = body.x1 - body.x0;
  const head = headingRoom_mm + headOf(table, fit).height;
  const room = body.y1 - body.y0 - head;
  const beside = Math.max(1, Math.floor((width + between_mm) / (sum(fit.widths) + between_mm)));
  const stretches = stretchesOf(rowsOf(table, fit, room), (i) => (i < beside ? first - head : room));
  return { fit, stretches, beside };
}

const sheetCount = ({ stretches, beside }: Setting): number => Math.ceil(stretches.length / beside);

/** Rows on a last sheet below which tighter rows are tried in order to save it. */
const few = 6;

/** Tighter rows and smaller lettering where they save a sheet that would carry next to nothing. */
function tightened(table: Table, setting: Setting, body: Extents, first: number): Setting {
  const { stretches, beside, fit } = setting;
  const count = sheetCount(setting);
  const last = sum(stretches.slice((count - 1) * beside).map((rows) => rows.length));
  if (count === 1 || last >= few) return setting;
  const tighter = ems_mm
    .filter((em) => em <= fit.em)
    .flatMap((em) => handRows_mm.map((handRow_mm) => ({ ...fit, em, handRow_mm })));
  return (
    tighter.map((each) => settingOf(table, each, body, first)).find((each) => sheetCount(each) < count) ??
    setting
  );
}

/**
 * A table as sheets: its heads repeat, no row is broken unless it alone is taller than a sheet, a narrow table goes
 * on beside itself, and columns that do not fit beside one another at a readable size go onto further sheets that
 * repeat the first column.
 *
 * @param first height of the room for it on the first sheet, mm; the whole body unless something stands above it
 */
export function tableParts(table: Table, body: Extents, first = body.y1 - body.y0): TablePart[] {
  const whole = body.y1 - body.y0;
  const parts = chosenFittings(table, body);
  return parts.flatMap((chosen, p) => {
    const here = p === 0 ? first : whole;
    const setting = tightened(table, settingOf(table, chosen, body, here), body, here);
    const { fit, stretches, beside } = setting;
    const name = parts.length > 1 ? `${table.title}, columns part ${p + 1} of ${parts.length}` : table.title;
    return Array.from({ length: sheetCount(setting) }, (_, i) => {
      const onSheet = stretches.slice(i * beside, (i + 1) * beside);
      return partOf(table, fit, onSheet, body, i === 0 ? name : `${name}, continued`);
    });
  });
}
