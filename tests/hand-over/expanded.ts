import type { Piece, RowGroup } from '../../src/hand-over/row-groups.ts';

const upToOf = (cell: string, sign: string): string => cell.slice(0, cell.lastIndexOf(sign));

/** Every row of some groups, in the order of the schedule of so many columns, cell by cell as it was shown. */
export function rowsOfGroups(groups: readonly RowGroup[], columnCount: number): string[][] {
  const rows = groups.flatMap((group) =>
    group.rows.map((number, i) => ({ number, cells: rowOf(group, group.cells[i]!) })),
  );
  return rows.toSorted((a, b) => a.number - b.number).map(({ cells }) => cells.slice(0, columnCount));
}

function rowOf({ made, own }: RowGroup, cells: readonly string[]): string[] {
  const row: string[] = [];
  for (const [i, column] of own.entries()) row[column] = cells[i]!;
  const said = new Map(made.map(({ column, pieces }) => [column, pieces]));
  const cellOf = (column: number): string => {
    row[column] ??= said.get(column)!.map(textOf).join('');
    return row[column];
  };
  const textOf = (piece: Piece): string => {
    if (typeof piece === 'string') return piece;
    const cell = cellOf(piece.column);
    return piece.upTo === '' ? cell : upToOf(cell, piece.upTo);
  };
  for (const { column } of made) cellOf(column);
  return row;
}
