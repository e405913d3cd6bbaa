/** Ways in which a table names the columns of a slot's start and finish. */
const schemes: readonly (readonly [string, string, string, string])[] = [
  ['x0', 'y0', 'x1', 'y1'],
  ['x1', 'y1', 'x2', 'y2'],
  ['startx', 'starty', 'finishx', 'finishy'],
  ['startx', 'starty', 'endx', 'endy'],
  ['xstart', 'ystart', 'xfinish', 'yfinish'],
  ['xstart', 'ystart', 'xend', 'yend'],
];

/** Headings of a first column that only counts or names the slots. */
const naming = /^(no|nr|num|number|slot|slotno|slotnumber|id|name|pos|item|row|line)?$/;

const plain = (cell: string): string =>
  cell
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]|\bmm\b/g, '')
    .replace(/[^a-z0-9]/g, '');

/**
 * Which columns of a table hold a slot's start from the left and bottom and its finish, as the heading says: by their
 * names, or the last four of five where the first is a number or a name. Undefined where the heading does not say.
 * @param heading cells of the heading row
 * @returns the indices of x0, y0, x1 and y1, counted from 0
 */
export function coordinateColumns(heading: readonly string[]): readonly number[] | undefined {
  const names = heading.map(plain);
  const named = schemes.map((scheme) => scheme.map((name) => names.indexOf(name)));
  const found = named.find((columns) => columns.every((column) => column >= 0));
  if (found) return found;
  return names.length === 5 && naming.test(names[0]!) ? [1, 2, 3, 4] : undefined;
}

/** Which column of a table holds the width of each slot, counted from 0, as the heading says; undefined where none does. */
export function widthColumn(heading: readonly string[]): number | undefined {
  const column = heading.map(plain).findIndex((name) => /^(w|width|slotwidth)$/.test(name));
  return column < 0 ? undefined : column;
}
