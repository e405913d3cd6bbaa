import { leading, wrapped } from '../ink/lettering.ts';
import { type Extents, lettering, type Mark } from '../ink/mark.ts';
import { listHeadingRoom_mm as headingRoom_mm, listHeading } from './heading.ts';
import { headingOf, type Table } from './table.ts';
import { between_mm, em_mm, type Fitting, fittings, narrow } from './table-columns.ts';
import { headOf, type Row, rowsOf, stretchMarks } from './table-marks.ts';

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** One sheet's worth of a table, from the upper edge of the body down. */
export interface TablePart {
  readonly title: string;
  readonly marks: readonly Mark[];
  readonly height: number;
}

/** Fewer rows than this do not stand alone on a sheet where it can be helped. */
const fewest = 3;

/** Rows that fill one stretch after another; the last has a few from the one before rather than one or two. */
function stretchesOf(rows: readonly Row[], roomOf: (stretch: number) => number): Row[][] {
  const stretches: Row[][] = [[]];
  let used = 0;
  for (const row of rows) {
    if (used + row.height > roomOf(stretches.length - 1) + 1e-9 && stretches.at(-1)!.length > 0) {
      stretches.push([]);
      used = 0;
    }
    stretches.at(-1)!.push(row);
    used += row.height;
  }
  const [before, last] = [stretches.at(-2), stretches.at(-1)!];
  if (before) {
    const moved = before.splice(Math.max(fewest, before.length - Math.max(0, fewest - last.length)));
    if (sum([...moved, ...last].map(({ height }) => height)) <= roomOf(stretches.length - 1))
      last.unshift(...moved);
    else before.push(...moved);
  }
  return stretches;
}

/** A long narrow table is set so that it can go on beside itself; any other as wide as it likes. */
function chosenFittings(table: Table, body: Extents): Fitting[] {
  const width = body.x1 - body.x0;
  const wide = fittings(table, width);
  const first = wide[0]!;
  const room = body.y1 - body.y0 - headingRoom_mm - headOf(table, first).height;
  const isLong = stretchesOf(rowsOf(table, first, room), () => room).length > 1;
  const half = wide.length === 1 && isLong ? narrow(table, width) : undefined;
  return half ? [half] : wide;
}

/** What all rows share, in lines above them. */
const captionLines = ({ caption = [] }: Table, body: Extents): string[] =>
  caption.flatMap((each) => wrapped(each, body.x1 - body.x0, { em: em_mm }));

const captionHeight = (lines: readonly string[]): number =>
  lines.length === 0 ? 0 : lines.length * em_mm * leading + 1.5;

/** What stands above the rows on a sheet. */
interface Above {
  readonly text: string;
  readonly caption: readonly string[];
}

/** Stretches of a table, so many beside one another on a sheet. */
function partOf(
  table: Table,
  fit: Fitting,
  stretches: readonly Row[][],
  body: Extents,
  { text, caption }: Above,
): TablePart {
  const step = sum(fit.widths) + between_mm;
  const under = body.y1 - headingRoom_mm;
  const top = under - captionHeight(caption);
  const highest = Math.max(...stretches.map((rows) => sum(rows.map((row) => row.height))));
  return {
    title: table.title,
    marks: [
      listHeading(text, body),
      ...caption.map((line, i) =>
        lettering({
          ...{ layer: 'LETTERING', text: line, em: em_mm },
          at: [body.x0, under - (i + 0.75) * em_mm * leading],
        }),
      ),
      ...stretches.flatMap((rows, i) => stretchMarks(table, fit, rows, body.x0 + i * step, top)),
    ],
    height: headingRoom_mm + captionHeight(caption) + headOf(table, fit).height + highest,
  };
}

/** A table set in one way on a sheet or several. */
interface Setting {
  readonly fit: Fitting;
  readonly stretches: readonly Row[][];
  /** Stretches beside one another on a sheet. */
  readonly beside: number;
}

/** @param first height of the room on the first sheet; on all others the body's */
function settingOf(table: Table, fit: Fitting, body: Extents, first: number): Setting {
  const width = body.x1 - body.x0;
  const head = headingRoom_mm + headOf(table, fit).height;
  const room = body.y1 - body.y0 - head;
  const beside = Math.max(1, Math.floor((width + between_mm) / (sum(fit.widths) + between_mm)));
  const stretches = stretchesOf(rowsOf(table, fit, room), (i) => (i < beside ? first - head : room));
  return { fit, stretches, beside };
}

const sheetCount = ({ stretches, beside }: Setting): number => Math.ceil(stretches.length / beside);

/**
 * A table as sheets: its heads repeat, no row is broken unless it alone is taller than a sheet, a narrow table goes
 * on beside itself, and columns that do not fit beside one another at a readable size go onto further sheets that
 * repeat the first column.
 *
 * @param first height of the room for it on the first sheet, mm; the whole body unless something stands above it
 */
export function tableParts(table: Table, body: Extents, first = body.y1 - body.y0): TablePart[] {
  const whole = body.y1 - body.y0;
  const parts = chosenFittings(table, body);
  const lines = captionLines(table, body);
  return parts.flatMap((chosen, p) => {
    const here = p === 0 ? first - captionHeight(lines) : whole;
    const setting = settingOf(table, chosen, body, here);
    const { fit, stretches, beside } = setting;
    const title = headingOf(table);
    const name = parts.length > 1 ? `${title}, columns part ${p + 1} of ${parts.length}` : title;
    return Array.from({ length: sheetCount(setting) }, (_, i) => {
      const onSheet = stretches.slice(i * beside, (i + 1) * beside);
      const above = { text: i === 0 ? name : `${name}, continued`, caption: i === 0 && p === 0 ? lines : [] };
      return partOf(table, fit, onSheet, body, above);
    });
  });
}
