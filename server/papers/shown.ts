import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';

/** A number with so many decimals, a true minus sign, and never a negative nought. */
export function shown(value: number, digits: number): string {
  const text = value.toFixed(digits);
  if (!text.startsWith('-')) return text;
  return Number(text) === 0 ? text.slice(1) : `−${text.slice(1)}`;
}

/** A figure and its limit with the decimals it takes to tell them apart, three at most, so that the verdict shows. */
export function apart(value: number, limit: number, digits = 0): readonly [value: string, limit: string] {
  const written = (more: number) => [shown(value, digits + more), shown(limit, digits + more)] as const;
  const more = [0, 1, 2, 3].find((each) => value === limit || written(each)[0] !== written(each)[1]) ?? 3;
  return written(more);
}

/** A cell of a schedule as it stands on paper; what is empty stays empty, to be written in. */
export function shownCell(cell: ScheduleCell, digits: number): string {
  if (typeof cell !== 'number') return cell ?? '';
  return isUnshown(cell, digits) ? `<${shown(10 ** -digits, digits)}` : shown(cell, digits);
}

/** Less than this is what is left of sums that come to nothing. */
const noise = 1e-6;

/** Whether a figure is there and too small for its decimals. */
const isUnshown = (value: number, digits: number): boolean =>
  digits > 0 && value > noise && value < 0.5 * 10 ** -digits;

/** The rows of a schedule as they stand on paper. */
export function shownRows(schedule: Schedule): string[][] {
  return schedule.rows.map((row) => row.map((cell, i) => shownCell(cell, schedule.columns[i]?.digits ?? 0)));
}

/** A figure for people, its thousands apart: 9,400. */
export const figure = (value: number, digits = 0): string =>
  Number(shown(value, digits)).toLocaleString('en-GB', {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  });

/** What begins as a number, its thousands apart as in any sentence: `1,449`, `<0.01`, `C01`. */
export const inWords = (text: string): string =>
  text.replace(/^(−?)(\d{4,})(?!\w)/, (_, sign: string, whole: string) => sign + figure(Number(whole)));

/** Light in a room is known to two figures: 7.4, 54, 1,200. */
export const rough = (value: number): string => figure(Number(value.toPrecision(2)), value < 10 ? 1 : 0);

/** Brightness is known to a third at best: two figures are enough. */
export const candelas = (value: number): string => `${figure(Number(value.toPrecision(2)))} cd/m²`;
