import type { Schedule } from '../../../src/sizing.ts';
import { shownRows } from '../shown.ts';
import type { Table, TableColumn } from './table.ts';

/** Boxes of the test sheet that are filled in by hand, and the room they need, mm. */
const handWidths_mm: Readonly<Record<string, number>> = {
  loopMeasured: 12,
  noLoadMeasured: 12,
  loadedMeasured: 12,
  currentMeasured: 12,
  result: 11,
  instrument: 14,
  name: 13,
  date: 13,
};

/** Quantities of the test sheet that stand in four columns: predicted, low, high, measured. */
const bands = ['loop', 'noLoad', 'loaded', 'current'];

type Column = Schedule['columns'][number];

function columnOf(schedule: Schedule, column: Column, index: number): TableColumn {
  const byHand = schedule.id === 'test-sheet';
  const band = byHand ? bands.find((name) => column.key.startsWith(name)) : undefined;
  const head = schedule.columns.find(({ key }) => key === band);
  return {
    label: band === undefined ? column.label : column.key === band ? 'predicted' : column.label,
    unit: band === undefined ? column.unit : '',
    align: schedule.rows.some((row) => typeof row[index] === 'number') ? 'right' : 'left',
    write_mm: byHand ? (handWidths_mm[column.key] ?? 0) : 0,
    group: head ? `${head.label}, ${head.unit}` : '',
  };
}

/** A schedule as a table on paper. */
export function scheduleTable(schedule: Schedule, marked: ReadonlySet<number> = new Set()): Table {
  return {
    title: schedule.title,
    columns: schedule.columns.map((column, i) => columnOf(schedule, column, i)),
    rows: shownRows(schedule),
    marked,
  };
}
