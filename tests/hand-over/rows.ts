import { expect } from 'vitest';
import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';

type Row = Readonly<Record<string, ScheduleCell>>;

/** The rows of a schedule, each cell under the key of its column. */
export const rowsOf = ({ columns, rows }: Schedule): Row[] =>
  rows.map((row) => Object.fromEntries(columns.map(({ key }, i) => [key, row[i]!])));

/** The cells of one column, from the first row on. */
export function column(schedule: Schedule, key: string): ScheduleCell[] {
  const index = schedule.columns.findIndex((each) => each.key === key);
  if (index < 0) throw new Error(`${schedule.id} has no column ${key}`);
  return schedule.rows.map((row) => row[index]!);
}

/** Rows worked out by hand, whose numbers are met to nine decimals. */
export const byHand = (...rows: readonly Row[]): unknown[] =>
  rows.map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([key, cell]) => [
        key,
        typeof cell === 'number' ? expect.closeTo(cell, 9) : cell,
      ]),
    ),
  );
