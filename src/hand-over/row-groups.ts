/** The rows of a schedule as they are shown, under their columns. */
export interface ShownSchedule {
  readonly columns: readonly { readonly label: string; readonly unit: string }[];
  readonly rows: readonly (readonly string[])[];
}

/** Part of a cell: text as it stands, or another cell of the same row, whole or up to a sign ("S07" of "S07-F1"). */
export type Piece = string | { readonly column: number; readonly upTo: '' | '-' | '.' };

/** What a column says in the same way in every row of a group. */
export interface Made {
  readonly column: number;
  readonly pieces: readonly Piece[];
}

/** Rows that are alike: what they share is said once, and only what is a row's own stands row by row. */
export interface RowGroup {
  /** Numbers of the rows in the schedule, ascending. */
  readonly rows: readonly number[];
  /** Columns all rows share, or that are put together from the row's own cells in one and the same way. */
  readonly made: readonly Made[];
  /** Columns in which each row has its own cell; the first always. */
  readonly own: readonly number[];
  /** The own cells, row by row. */
  readonly cells: readonly (readonly string[])[];
}

/** "C07", "D1.1-T3", "B1.1 way 2": a cell that is the name of a thing and nothing else. */
const name = /^[A-Za-z]+\d[\w.]*(-\w+)?( way \d+| in| out)?$/;

const upToOf = (cell: string, sign: '-' | '.'): string => cell.slice(0, Math.max(0, cell.lastIndexOf(sign)));

/** What other cells may be put together from: cells that are names, and what stands before their last sign. */
interface Source {
  readonly text: string;
  readonly piece: Exclude<Piece, string>;
}

function sourcesOf(row: readonly string[], before: number): Source[] {
  return row.slice(0, before).flatMap((cell, column) => {
    if (!name.test(cell)) return [];
    const parts = (['-', '.'] as const).map((upTo) => ({
      text: upToOf(cell, upTo),
      piece: { column, upTo },
    }));
    return [{ text: cell, piece: { column, upTo: '' } as const }, ...parts.filter(({ text }) => text !== '')];
  });
}

const isPartOfAName = (character: string | undefined): boolean =>
  character !== undefined && /[\w.-]/.test(character);

/** Whether a source stands there by itself: "S1" does not stand in "S12". */
function standsAt(text: string, at: number, source: string): boolean {
  if (!text.startsWith(source, at) || isPartOfAName(text[at - 1])) return false;
  const [next, after] = [text[at + source.length], text[at + source.length + 1]];
  // A full stop or a hyphen that ends the name is none of it.
  return !isPartOfAName(next) || (/[.-]/.test(next!) && !isPartOfAName(after));
}

/** A cell with every name in it that another cell of its row has written as that cell, the longest names first. */
function piecesOf(text: string, sources: readonly Source[]): Piece[] {
  const long = sources
    .filter((source) => text.includes(source.text))
    .sort((a, b) => b.text.length - a.text.length);
  if (long.length === 0) return [text];
  const pieces: Piece[] = [];
  let plain = '';
  for (let at = 0; at < text.length; ) {
    const found = long.find((source) => standsAt(text, at, source.text));
    if (found) {
      if (plain !== '') pieces.push(plain);
      plain = '';
      pieces.push(found.piece);
    } else plain += text[at]!;
    at += found ? found.text.length : 1;
  }
  return plain === '' && pieces.length > 0 ? pieces : [...pieces, plain];
}

/** Names in running text: "B1.1 way 2", "C07". */
const namesIn = /(?<![\w.-])[A-Z]+\d[\w.]*(?<!\.)(-\w+)?( way \d+| in(?![\w])| out(?![\w]))?/g;

/** More names than this in one cell are a list, which is read as it stands. */
const mostLifted = 5;

/** Texts of a row whose names are lifted out of them, so that the text around them can be alike in many rows. */
interface Lifted {
  readonly pieces: Piece[][];
  /** The names, which stand in columns of their own after those of the schedule. */
  readonly names: string[];
}

function withLiftedNames(row: readonly string[], pieces: readonly Piece[][]): Lifted {
  const names: string[] = [];
  const lifted = pieces.map((cell, column) => {
    const all = cell.flatMap((piece) => (typeof piece === 'string' ? (piece.match(namesIn) ?? []) : []));
    const found = [...new Set(all)];
    if (name.test(row[column]!) || found.length === 0 || found.length > mostLifted) return cell;
    names.push(...found.filter((each) => !names.includes(each)));
    const sources = names.map((text, i): Source => ({ text, piece: { column: row.length + i, upTo: '' } }));
    return cell.flatMap((piece) => (typeof piece === 'string' ? piecesOf(piece, sources) : [piece]));
  });
  return { pieces: lifted, names };
}

/** Every cell of a row in pieces: a name by names before it alone, other text by every name of the row. */
function rowPieces(row: readonly string[]): Lifted {
  const all = sourcesOf(row, row.length);
  const pieces = row.map((cell, column) => {
    if (!name.test(cell)) return piecesOf(cell, all);
    const whole = sourcesOf(row, column).find(({ text }) => text === cell);
    return [whole ? whole.piece : cell];
  });
  return withLiftedNames(row, pieces);
}

/** What is known of a schedule before it is parted. */
interface Known {
  readonly schedule: ShownSchedule;
  /** The rows, each followed by the names lifted out of its texts. */
  readonly cells: readonly (readonly string[])[];
  readonly pieces: readonly (readonly Piece[][])[];
  /** The pieces as texts that can be compared. */
  readonly keys: readonly (readonly string[])[];
}

/** How one column of some rows is said: shared, put together alike, the same as a column before it, or row by row. */
function madeOf(column: number, rows: readonly number[], known: Known, own: readonly number[]): Made | null {
  const { cells, keys, pieces } = known;
  const first = rows[0]!;
  if (rows.every((row) => cells[row]![column] === cells[first]![column]))
    return { column, pieces: [cells[first]![column]!] };
  if (keys[first]![column] !== undefined && rows.every((row) => keys[row]![column] === keys[first]![column]))
    return { column, pieces: pieces[first]![column]! };
  const same = own.find((each) => rows.every((row) => cells[row]![each] === cells[row]![column]));
  return same === undefined ? null : { column, pieces: [{ column: same, upTo: '' }] };
}

/** Columns of lifted names that texts of a group are put together from. */
function liftedColumns(made: readonly Made[], columnCount: number): number[] {
  const used = made.flatMap(({ pieces }) =>
    pieces.flatMap((each) => (typeof each === 'string' ? [] : each.column)),
  );
  return [...new Set(used)].filter((column) => column >= columnCount).sort((a, b) => a - b);
}

function groupOf(rows: readonly number[], known: Known): RowGroup {
  const own: number[] = [0];
  const made: Made[] = [];
  const say = (column: number): void => {
    const said = madeOf(column, rows, known, own);
    if (said) made.push(said);
    else own.push(column);
  };
  const columnCount = known.schedule.columns.length;
  for (let column = 1; column < columnCount; column++) say(column);
  for (const column of liftedColumns(made, columnCount)) say(column);
  const cells = rows.map((row) => own.map((column) => known.cells[row]![column]!));
  return { rows, made, own, cells };
}

const textLength = (piece: Piece): number => (typeof piece === 'string' ? piece.length : 8);
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Letters that a group of its own costs beside what it says: its heading and its air. */
const perGroup = 90;
/** Letters that the head and the air of a column cost. */
const perColumn = 12;

/** About how many letters' room a group takes on paper. */
function roomOf({ rows, made, own, cells }: RowGroup, { columns }: ShownSchedule): number {
  const said = made.map(({ column, pieces }) => {
    const length = sum(pieces.map(textLength));
    return length === 0 ? 0 : length + (columns[column]?.label.length ?? 0) + 3;
  });
  const widths = own.map((_, i) => Math.max(...cells.map((cell) => cell[i]!.length)) + 2);
  return perGroup + sum(said) + sum(widths) * rows.length + own.length * perColumn;
}

/** The rows parted by what some columns say, in the order of the first of each. */
function partedBy(columns: readonly number[], known: Known): number[][] {
  const groups = new Map<string, number[]>();
  for (const [row, keys] of known.keys.entries()) {
    const key = columns.map((column) => keys[column]).join('\u0000');
    const before = groups.get(key);
    if (before) before.push(row);
    else groups.set(key, [row]);
  }
  return [...groups.values()];
}

const isFigure = (text: string): boolean => /^[−\d.–]*$/.test(text);

/** Columns worth parting by: of words, with several things to say, but not one for each row. */
function partingColumns({ schedule, keys }: Known): number[] {
  return schedule.columns.flatMap((_, column) => {
    const count = new Set(keys.map((row) => row[column])).size;
    const isOpen = column > 0 && count > 1 && 2 * count <= keys.length + 2;
    return isOpen && !schedule.rows.every((row) => isFigure(row[column]!)) ? [column] : [];
  });
}

/**
 * The rows of a schedule in groups of like rows, so that what is equal is said once and only what differs stands in
 * columns. A cell that repeats names of its row ("S07-F1, start of S07" beside "S07-F1") is equal where it does so in
 * the same way. Parted by the columns that leave the least to print, one after the other; nothing is left out:
 * every cell can be put together again. Check: `tests/hand-over/row-groups.test.ts`.
 */
export function rowGroups(schedule: ShownSchedule): RowGroup[] {
  const lifted = schedule.rows.map(rowPieces);
  const known = {
    schedule,
    cells: lifted.map(({ names }, row) => [...schedule.rows[row]!, ...names]),
    pieces: lifted.map(({ pieces }) => pieces),
    keys: lifted.map(({ pieces }) => pieces.map((cell) => JSON.stringify(cell))),
  };
  const grouped = (by: readonly number[]) => partedBy(by, known).map((rows) => groupOf(rows, known));
  const room = (groups: readonly RowGroup[]) => sum(groups.map((group) => roomOf(group, schedule)));
  const open = new Set(partingColumns(known));
  let by: readonly number[] = [];
  let best = grouped(by);
  for (;;) {
    const tried = [...open].map((column) => ({ column, groups: grouped([...by, column]) }));
    const next = tried.toSorted((a, b) => room(a.groups) - room(b.groups))[0];
    if (!next || room(next.groups) >= room(best)) return best;
    by = [...by, next.column];
    best = next.groups;
    open.delete(next.column);
  }
}

/** What all groups say alike, which is said before them. */
export function saidByAll(groups: readonly RowGroup[]): Made[] {
  const [first, ...rest] = groups;
  if (!first || rest.length === 0) return [];
  const key = (made: Made): string => JSON.stringify(made);
  return first.made.filter((made) =>
    rest.every((group) => group.made.some((each) => key(each) === key(made))),
  );
}
