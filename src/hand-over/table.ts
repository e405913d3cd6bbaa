import type { Schedule, ScheduleCell } from '../answer/schedules.ts';

/** A column of a schedule and what it shows of a row. */
export interface Column<Row> {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  readonly cell: (row: Row) => ScheduleCell;
}

/** A column of words. */
export function words<Row>(key: string, label: string, cell: (row: Row) => ScheduleCell): Column<Row> {
  return { key, label, unit: '', digits: 0, cell };
}

/** A column of numbers with a unit, and the decimals to show. */
export function figures<Row>(
  column: Pick<Column<Row>, 'key' | 'label' | 'unit' | 'digits'>,
  cell: (row: Row) => ScheduleCell,
): Column<Row> {
  return { ...column, cell };
}

/** An empty box to write in. */
export function box<Row>(key: string, label: string, unit = '', digits = 0): Column<Row> {
  return { key, label, unit, digits, cell: () => null };
}

/** Decimals, two at most, that write every one of some nominal figures as they are marked; nothing is left out. */
export const decimalsOf = (nominal: readonly (number | null)[]): number =>
  [0, 1].find((digits) => nominal.every((each) => each === null || Number(each.toFixed(digits)) === each)) ??
  2;

/** Rows set under their columns, numbers unrounded. */
export function tabulate<Row>(
  head: Pick<Schedule, 'id' | 'title'> & { readonly notes?: Schedule['notes'] },
  columns: readonly Column<Row>[],
  rows: readonly Row[],
): Schedule {
  return {
    notes: [],
    ...head,
    columns: columns.map(({ key, label, unit, digits }) => ({ key, label, unit, digits })),
    rows: rows.map((row) => columns.map((column) => column.cell(row))),
  };
}
