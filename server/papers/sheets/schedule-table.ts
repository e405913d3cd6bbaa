import type { Schedule } from '../../../src/answer/schedules.ts';
import { rowGroups, type TestLine, testLines } from '../../../src/index.ts';
import { shownRows } from '../shown.ts';
import { type GroupColumn, groupTables } from './group-tables.ts';
import { betweenStretches_mm as between_mm, shortFitting } from './short-columns.ts';
import type { Table, TableColumn } from './table.ts';

/** Boxes of the test sheet that are filled in by hand, and the room they need, mm. */
const handWidths_mm: Readonly<Record<string, number>> = {
  loopMeasured: 11,
  linkOut: 7.5,
  noLoadMeasured: 11,
  loadedMeasured: 11,
  currentMeasured: 11,
  result: 9,
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

/** Boxes of the test sheet that are written in once for all its rows while they are empty. */
const signatures = ['instrument', 'name', 'date'];

const stepColumns = ['ref', 'step', 'result', 'instrument', 'name', 'date'];

function only(table: Table, part: string, rows: readonly number[], columns: readonly number[]): Table {
  return {
    title: table.title,
    part,
    columns: columns.map((i) => table.columns[i]!),
    rows: rows.map((row) => columns.map((i) => table.rows[row]![i]!)),
    marked: new Set(rows.flatMap((row, at) => (table.marked.has(row) ? [at] : []))),
  };
}

/** Columns of a line: those of its place, or of each of its two places, told apart by their headings. */
function lineColumns(schedule: Schedule, table: Table, placeCount: 1 | 2): GroupColumn[] {
  const of = (place: string): GroupColumn[] =>
    table.columns.map((column, i) => {
      const isBox = column.write_mm > 0;
      const group = column.group === '' ? '' : `${column.group}${place}`;
      const key = schedule.columns[i]!.key;
      const band = bands.find((name) => key.startsWith(name));
      const said = schedule.columns.find((each) => each.key === band)?.label;
      const label =
        band === undefined || isBox || said === undefined ? column.label : `${said}, ${column.label}`;
      return { ...column, label: `${label}${place}`, group, isBox };
    });
  return placeCount === 1 ? of('') : [...of(' 1'), ...of(' 2')];
}

/** Lines of so many places each as tables, one group of like lines after the other. */
function lineTables(
  schedule: Schedule,
  table: Table,
  lines: readonly TestLine[],
  placeCount: 1 | 2,
): Table[] {
  const rows = lines.map((line) => line.flatMap((row) => table.rows[row]!));
  if (rows.length === 0) return [];
  const grouped = {
    title: `${table.title}: readings`,
    columns: lineColumns(schedule, table, placeCount),
    rows,
  };
  const marked = new Set(lines.flatMap((line, i) => (line.some((row) => table.marked.has(row)) ? [i] : [])));
  return groupTables(grouped, rowGroups(grouped), marked).map(shortHeads);
}

/** What a heading over several columns says is not said by each of them again; one that stands alone says it itself. */
function shortHeads(table: Table): Table {
  const { columns } = table;
  const short = (column: TableColumn): TableColumn => {
    if (column.group === '') return column;
    if (columns.filter(({ group }) => group === column.group).length === 1)
      return { ...column, label: column.group, group: '' };
    return {
      ...column,
      label: column.write_mm > 0 ? 'read' : column.label.replace(/^.*, (\S+)( \d)?$/, '$1'),
    };
  };
  return { ...table, columns: columns.map(short) };
}

/** Height of tables one below another as far as their rows go beside themselves, mm; Infinity for one too wide for a sheet. */
function heightOf(tables: readonly Table[], width: number): number {
  return tables.reduce((sum, table) => {
    const fit = shortFitting(table, width);
    if (!fit) return Number.POSITIVE_INFINITY;
    const beside = Math.floor((width + between_mm) / (fit.width + between_mm));
    return sum + Math.ceil(table.rows.length / beside) * fit.rowHeight + fit.headHeight + fit.groupHeight;
  }, 0);
}

/** The test sheet: steps, then outputs, then a line for each run with both its ends; who measured is signed once. */
function testTables(schedule: Schedule, table: Table, width: number): Table[] {
  const { steps, outputs, lines } = testLines(schedule);
  const at = (keys: readonly string[]) =>
    keys.map((key) => schedule.columns.findIndex((each) => each.key === key));
  const empty = at(signatures).filter((i) => table.rows.every((row) => row[i] === ''));
  const measured = { ...table, columns: table.columns.filter((_, i) => !empty.includes(i)) };
  const kept = { ...measured, rows: table.rows.map((row) => row.filter((_, i) => !empty.includes(i))) };
  const columns = schedule.columns.filter((_, i) => !empty.includes(i));
  const sheet = { ...schedule, columns };
  const singles = (rows: readonly number[]): TestLine[] => rows.map((row) => [row]);
  const pairs = lineTables(
    sheet,
    kept,
    lines.filter((line) => line.length === 2),
    2,
  );
  const ends = lineTables(sheet, kept, singles(lines.flat()), 1);
  const others = lineTables(
    sheet,
    kept,
    lines.filter((line) => line.length === 1),
    1,
  );
  const paired = [...pairs, ...others];
  return [
    only(table, 'steps', steps, at(stepColumns)),
    ...lineTables(sheet, kept, singles(outputs), 1),
    ...(heightOf(ends, width) < heightOf(paired, width) ? ends : paired),
  ];
}

/** A schedule in groups of like rows, or as it stands where that is read more easily. */
export function groupedTables(table: Table): Table[] {
  if (table.rows.length < 2) return [table];
  const grouped = { ...table, columns: table.columns.map((column) => ({ ...column, isBox: false })) };
  return groupTables(grouped, rowGroups(grouped), table.marked);
}

/** What the figures of a schedule rest on and what is to be known beside them stands above its first table. */
function withNotes({ notes }: Schedule, [first, ...rest]: readonly Table[]): Table[] {
  if (!first) return [];
  const numbered = notes.map((note, i) => (notes.length === 1 ? `Note: ${note}` : `Note ${i + 1}: ${note}`));
  return [
    { ...first, caption: [...(numbered.length > 0 ? [numbered.join('  ')] : []), ...(first.caption ?? [])] },
    ...rest,
  ];
}

/** Blanks of the mains schedule, which the licensed electrician writes in, and the room for each, mm. */
const blanks_mm = { Circuit: 16, 'Device fitted': 26, 'Cable, length': 26, 'Tested, date': 22 } as const;
/** What the mains schedule says of a row. */
const mainsKeys = ['ref', 'protects', 'device', 'rating', 'design', 'remark'];

/** The mains side row by row with blanks for what the licensed electrician fits, then what holds the SELV side. */
function protectionTables(schedule: Schedule, table: Table): Table[] {
  const at = (key: string): number => schedule.columns.findIndex((column) => column.key === key);
  // Of the mains side nobody knows yet what the cable may carry.
  const isMains = (row: number): boolean => schedule.rows[row]![at('source')] === null;
  const rows = schedule.rows.map((_, i) => i);
  const mains = only(table, 'mains side', rows.filter(isMains), mainsKeys.map(at));
  const box = (label: string, write_mm: number): TableColumn => ({
    ...{ label, unit: '', align: 'left', write_mm, group: '' },
  });
  const blanks = Object.entries(blanks_mm).map(([label, write_mm]) => box(label, write_mm));
  const columns = [...mains.columns.slice(0, -1), ...blanks, mains.columns.at(-1)!];
  const filled = mains.rows.map((row) => [...row.slice(0, -1), ...blanks.map(() => ''), row.at(-1)!]);
  const where =
    'Every device here is chosen and placed by the licensed electrician, who writes it in; what is printed is what this program proposes.';
  const selv = rows.filter((row) => !isMains(row));
  return [
    { title: 'Mains schedule', columns, rows: filled, marked: mains.marked, caption: [where] },
    ...groupedTables(
      only(
        table,
        '',
        selv,
        schedule.columns.map((_, i) => i),
      ),
    ),
  ];
}

/** Schedules that are set otherwise: rows of a bill have little in common. */
const tablesBy: Partial<
  Record<Schedule['id'], (schedule: Schedule, table: Table, width: number) => Table[]>
> = {
  'test-sheet': testTables,
  protection: protectionTables,
  bill: (_, table) => [table],
};

/** The tables of a schedule. */
const tablesOf = (schedule: Schedule, table: Table, width: number): Table[] =>
  tablesBy[schedule.id]?.(schedule, table, width) ?? groupedTables(table);

/**
 * A schedule as tables on sheets of a width, like rows together, with what it rests on before it. `marked` rows have
 * changed.
 */
export function scheduleTables(schedule: Schedule, marked: ReadonlySet<number>, width: number): Table[] {
  return withNotes(schedule, tablesOf(schedule, tableOf(schedule, marked), width));
}
