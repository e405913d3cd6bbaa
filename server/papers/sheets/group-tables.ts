import { type Made, type Piece, type RowGroup, type ShownSchedule, saidByAll } from '../../../src/index.ts';
import type { Table, TableColumn } from './table.ts';

/** A column as groups are printed: some are boxes to write in whatever its rows share. */
export interface GroupColumn extends TableColumn {
  readonly isBox: boolean;
}

/** A schedule to be printed in groups. */
export interface GroupedSchedule extends ShownSchedule {
  readonly title: string;
  readonly columns: readonly GroupColumn[];
}

/** Name of a column: its label, and a small letter for names lifted out of a text. */
const labelOf = (column: number, { columns }: GroupedSchedule): string =>
  columns[column]?.label ?? String.fromCharCode(97 + column - columns.length);

const upToWords = { '': '', '-': 'run of ', '.': 'driver of ' } as const;

function pieceText(piece: Piece, group: RowGroup, schedule: GroupedSchedule): string {
  if (typeof piece === 'string') return piece;
  const said = group.made.find(({ column }) => column === piece.column);
  const isPlain = said && piece.upTo === '' && said.pieces.every((each) => typeof each === 'string');
  if (isPlain) return said.pieces.join('');
  return `‹${upToWords[piece.upTo]}${labelOf(piece.column, schedule)}›`;
}

/** "Way: place, riser, head run": one thing that all rows of a group share; empty where it is nothing. */
function sharedText({ column, pieces }: Made, group: RowGroup, schedule: GroupedSchedule): string {
  const value = pieces.map((piece) => pieceText(piece, group, schedule)).join('');
  const { columns } = schedule;
  if (value === '' || columns[column] === undefined || columns[column].isBox) return '';
  const { label, unit } = columns[column];
  return `${label}: ${value}${unit === '' ? '' : ` ${unit}`}`;
}

const listed = (made: readonly Made[], group: RowGroup, schedule: GroupedSchedule): string =>
  made
    .map((each) => sharedText(each, group, schedule))
    .filter((text) => text !== '')
    .join('  ·  ');

const isSame = (one: Made, other: Made): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Which rows a group has: "C01 to C60, 60 rows". */
function refsOf({ cells, rows }: RowGroup): string {
  const refs = cells.map(([ref]) => ref!);
  return refs.length < 4 ? refs.join(', ') : `${refs[0]} to ${refs.at(-1)}, ${rows.length} rows`;
}

/** The columns a group shows: the name, what was lifted out of texts, the own cells and the boxes in their order. */
function shownColumns(group: RowGroup, schedule: GroupedSchedule): number[] {
  const boxes = group.made.flatMap(({ column, pieces }) =>
    schedule.columns[column]?.isBox && pieces.join('') === '' ? [column] : [],
  );
  const rest = [...group.own.slice(1), ...boxes].sort((a, b) => a - b);
  const lifted = rest.filter((column) => column >= schedule.columns.length);
  return [0, ...lifted, ...rest.filter((column) => column < schedule.columns.length)];
}

const liftedColumn = (label: string): TableColumn => ({
  label: `‹${label}›`,
  unit: '',
  align: 'left',
  write_mm: 0,
  group: '',
});

/** A row that has nothing but its name to itself is said in the caption alone. */
function groupTable(
  group: RowGroup,
  schedule: GroupedSchedule,
  caption: string[],
  marked: ReadonlySet<number>,
): Table {
  const shown = shownColumns(group, schedule);
  const isSaid = group.rows.length === 1 && shown.length === 1;
  return {
    title: schedule.title,
    part: refsOf(group),
    caption,
    isShort: true,
    columns: shown.map((column) => schedule.columns[column] ?? liftedColumn(labelOf(column, schedule))),
    rows: isSaid
      ? []
      : group.cells.map((cells) =>
          shown.map((column) => {
            const at = group.own.indexOf(column);
            return at < 0 ? '' : cells[at]!;
          }),
        ),
    marked: new Set(group.rows.flatMap((row, i) => (marked.has(row) ? [i] : []))),
  };
}

const marksMean = 'Where a name stands in ‹ ›, read what the row has in that column.';

/** Says with the first table that has them what the marks round a name mean. */
function explained(tables: readonly Table[]): Table[] {
  const first = tables.findIndex(({ caption = [] }) => caption.some((text) => text.includes('‹')));
  return tables.map((table, i) => {
    if (i !== first) return table;
    const caption = [...table.caption!];
    caption.push(`${caption.pop()}. ${marksMean}`);
    return { ...table, caption };
  });
}

/** Groups of a schedule as tables: what all rows say stands before the first, what a group says before that. */
export function groupTables(
  schedule: GroupedSchedule,
  groups: readonly RowGroup[],
  marked: ReadonlySet<number>,
): Table[] {
  const common = saidByAll(groups);
  const tables = groups.map((group, i) => {
    const all = i === 0 ? listed(common, group, schedule) : '';
    const own = listed(
      group.made.filter((made) => !common.some((each) => isSame(each, made))),
      group,
      schedule,
    );
    const caption = [
      ...(all === '' ? [] : [`Every row of the schedule – ${all}`]),
      ...(own === '' ? [] : [`Each – ${own}`]),
    ];
    return groupTable(group, schedule, caption, marked);
  });
  return explained(tables);
}
