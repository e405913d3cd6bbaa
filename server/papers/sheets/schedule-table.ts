import type { Schedule } from '../../../src/answer/schedules.ts';
import { shownRows } from '../shown.ts';
import type { Table, TableColumn } from './table.ts';

/** Boxes of the test sheet that are filled in by hand, and the room they need, mm. */
const handWidths_mm: Readonly<Record<string, number>> = {
  loopMeasured: 12,
  linkOut: 9,
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
    label: band === undefined ? column.label : column.key === band ? 'calc.' : column.label,
    unit: band === undefined ? column.unit : '',
    align: schedule.rows.some((row) => typeof row[index] === 'number') ? 'right' : 'left',
    write_mm: byHand ? (handWidths_mm[column.key] ?? 0) : 0,
    group: head ? `${head.label}, ${head.unit}` : '',
  };
}

function tableOf(schedule: Schedule, marked: ReadonlySet<number>): Table {
  return {
    title: schedule.title,
    columns: schedule.columns.map((column, i) => columnOf(schedule, column, i)),
    rows: shownRows(schedule),
    marked,
  };
}

/** Some of the rows and columns of a table, under a title of their own. */
function part(table: Table, title: string, rows: readonly number[], columns: readonly number[]): Table {
  return {
    title,
    columns: columns.map((i) => table.columns[i]!),
    rows: rows.map((row) => columns.map((i) => table.rows[row]![i]!)),
    marked: new Set(rows.flatMap((row, at) => (table.marked.has(row) ? [at] : []))),
  };
}

/** The steps of the test sheet have nothing to measure against a band, so they stand in a table of their own. */
function testTables(schedule: Schedule, table: Table): Table[] {
  const all = schedule.columns.map((_, i) => i);
  const banded = all.filter((i) => bands.some((name) => schedule.columns[i]!.key.startsWith(name)));
  const numbers = schedule.rows.map((_, i) => i);
  const isStep = (row: number): boolean => banded.every((i) => typeof schedule.rows[row]![i] !== 'number');
  const plain = all.filter((i) => !banded.includes(i) && schedule.columns[i]!.key !== 'linkOut');
  return [
    part(table, `${table.title}: steps`, numbers.filter(isStep), plain),
    part(
      table,
      `${table.title}: readings`,
      numbers.filter((row) => !isStep(row)),
      all,
    ),
  ];
}

/** Rows below which what is alike in all of them is left where it stands. */
const fewRows = 3;

/** Columns, but the first, that say the same in every row. */
const alikeIn = ({ columns, rows }: Table): number[] =>
  rows.length < fewRows
    ? []
    : columns.flatMap((_, i) => (i > 0 && rows.every((row) => row[i] === rows[0]![i]) ? [i] : []));

/** What every row of a schedule says, once; a column that is empty throughout says nothing. */
function onceTable(table: Table, alike: readonly number[]): Table {
  const column = (label: string) => ({ label, unit: '', align: 'left', write_mm: 0, group: '' }) as const;
  const rows = alike.flatMap((i) => {
    const { label, unit } = table.columns[i]!;
    const value = table.rows[0]![i]!;
    return value === '' ? [] : [[label, unit === '' ? value : `${value} ${unit}`]];
  });
  const title = `${table.title}: alike for all`;
  return { title, columns: [column('What'), column('For every row')], rows, marked: new Set() };
}

/**
 * The cable schedule in two tables, what is laid and cut first, what it carries then; what all rows say alike, or none
 * says, is no column, and stands once before them.
 */
function cableTables(schedule: Schedule, table: Table): Table[] {
  const alike = alikeIn(table);
  const rows = schedule.rows.map((_, i) => i);
  const kept = schedule.columns.flatMap((_, i) => (alike.includes(i) ? [] : [i]));
  const carries = schedule.columns.findIndex(({ key }) => key === 'grouped');
  return [
    onceTable(table, alike),
    part(
      table,
      `${table.title}: laying`,
      rows,
      kept.filter((i) => i < carries),
    ),
    part(
      table,
      `${table.title}: load and protection`,
      rows,
      kept.filter((i) => i === 0 || i >= carries),
    ),
  ];
}

/** What the figures of a schedule rest on and what is to be known beside them, as a table of its own before it. */
function notesTable({ title, notes }: Schedule): Table[] {
  if (notes.length === 0) return [];
  const column = (label: string) => ({ label, unit: '', align: 'left', write_mm: 0, group: '' }) as const;
  return [
    {
      title: `${title}: conditions and notes`,
      columns: [column('No.'), column('Condition or note')],
      rows: notes.map((note, i) => [String(i + 1), note]),
      marked: new Set(),
    },
  ];
}

/** The tables of a schedule: rows or columns of two kinds stand apart. */
function tablesOf(schedule: Schedule, table: Table): Table[] {
  if (schedule.id === 'test-sheet') return testTables(schedule, table);
  return schedule.id === 'cables' ? cableTables(schedule, table) : [table];
}

/**
 * A schedule as one table on paper, or two where its rows or columns are of two kinds, with what it rests on before it.
 * `marked` rows have changed.
 */
export function scheduleTables(schedule: Schedule, marked: ReadonlySet<number>): Table[] {
  return [...notesTable(schedule), ...tablesOf(schedule, tableOf(schedule, marked))];
}
