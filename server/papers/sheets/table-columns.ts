import { leading, leastEm_mm, textWidth } from '../ink/lettering.ts';
import type { Table } from './table.ts';

/** A table whose columns have widths and whose cells are broken into lines. */
export interface Fitting {
  readonly widths: readonly number[];
  /** Numbers of the columns shown, the first always among them. */
  readonly shown: readonly number[];
}

/** Air round what is written in a cell, mm. */
export const padding_mm = 0.6;
/** Least height of a row that is written in by hand, mm. */
export const handRow_mm = 4.8;
/** The lettering of all lists, still read on a building site: capitals of 1.82 mm (ISO 3098: 1.8 mm). */
export const em_mm = leastEm_mm;

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

function wishOf({ label, labelWord, word, cells, write_mm }: Measured): Wish {
  const em = em_mm;
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
function height_mm(columns: readonly Measured[], widths: readonly number[]): number {
  const rowCount = columns[0]?.cells.length ?? 0;
  let lines = 0;
  for (let row = 0; row < rowCount; row++) {
    lines += columns.reduce(
      (most, { cells }, i) =>
        Math.max(most, Math.ceil((cells[row]! * em_mm) / (widths[i]! - 2 * padding_mm))),
      1,
    );
  }
  return lines * em_mm * leading + rowCount * 2 * padding_mm;
}

/** Millimetres that go from one column to another at a time, and cells up to which that is tried. */
const moved_mm = 4;
const mostCells = 600;

/** Widths between which millimetres are moved as long as the rows come out lower. */
function evened(columns: readonly Measured[], wishes: readonly Wish[], widths: readonly number[]): number[] {
  let best = [...widths];
  if (columns.length * (columns[0]?.cells.length ?? 0) > mostCells) return best;
  for (let least = height_mm(columns, best); ; ) {
    const trials = best.flatMap((width, from) =>
      width - moved_mm < wishes[from]!.least
        ? []
        : best.flatMap((_, to) =>
            to === from || best[to]! >= wishes[to]!.most
              ? []
              : [best.map((each, i) => each + (i === to ? moved_mm : i === from ? -moved_mm : 0))],
          ),
    );
    const heights = trials.map((trial) => height_mm(columns, trial));
    const lowest = Math.min(...heights);
    if (!(lowest < least - 1e-9)) return best;
    best = trials[heights.indexOf(lowest)]!;
    least = lowest;
  }
}

function fitting(columns: readonly Measured[], shown: readonly number[], width: number): Fitting | undefined {
  const here = shown.map((i) => columns[i]!);
  const wishes = here.map(wishOf);
  const shared = shareOut(wishes, width);
  return shared && { widths: evened(here, wishes, shared), shown };
}

/** The whole table at once if it fits the width, else in two or more parts that all begin with the first column. */
export function fittings(table: Table, width: number): Fitting[] {
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

/** Air between two stretches of a narrow table side by side, mm. */
export const between_mm = 9;

/** The table at half the width with every cell in one line, or undefined where it is too wide for that. */
export function narrow(table: Table, width: number): Fitting | undefined {
  const widths = table.columns.map((_, i) => wishOf(measured(table, i)).most);
  const shown = table.columns.map((_, i) => i);
  return 2 * sum(widths) + between_mm <= width ? { widths, shown } : undefined;
}
