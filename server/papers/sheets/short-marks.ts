import { leading } from '../ink/lettering.ts';
import { corners, filled, lettering, line, type Mark } from '../ink/mark.ts';
import { rowSign } from './row-sign.ts';
import {
  above_mm,
  besides_mm,
  shortEm_mm as em,
  type ShortColumn,
  type ShortFitting,
} from './short-columns.ts';
import { anchorOf, type Table } from './table.ts';

const pitch_mm = em * leading;

function edgesOf({ columns }: ShortFitting, left: number): number[] {
  const at = [left];
  for (const { width } of columns) at.push(at.at(-1)! + width);
  return at;
}

function headCell({ head, isUpright, width }: ShortColumn, x: number, bottom: number): Mark[] {
  const block = head.length * pitch_mm;
  return head.map((text, i) =>
    lettering({
      layer: 'LETTERING',
      at: isUpright
        ? [x + (width - block) / 2 + i * pitch_mm + 0.9 * em, bottom + besides_mm]
        : [x + besides_mm, bottom + above_mm + (head.length - 1 - i) * pitch_mm + 0.28 * em],
      text,
      em,
      angle_deg: isUpright ? 90 : 0,
      bold: true,
    }),
  );
}

/** Headings over several columns, which stand where a heading differs from the one to its left. */
function groupMarks(table: Table, x: readonly number[], top: number, bottom: number): Mark[] {
  const groups = table.columns.map(({ group }) => group);
  return groups.flatMap((group, i) => {
    if (group === '' || groups[i - 1] === group) return [];
    let end = i;
    while (groups[end] === group) end++;
    const [x0, x1] = [x[i]!, x[end]!];
    return [
      line('RULES', [x0, bottom], [x1, bottom]),
      line('RULES', [x0, top], [x0, bottom]),
      line('RULES', [x1, top], [x1, bottom]),
      lettering({
        ...{ layer: 'LETTERING', text: group, em, align: 'middle', bold: true },
        at: [(x0 + x1) / 2, bottom + above_mm + 0.28 * em],
      }),
    ];
  });
}

function rowMarks(table: Table, number: number, x: readonly number[], top: number, height: number): Mark[] {
  const base = top - height / 2 - 0.36 * em;
  const bottom = top - height;
  const sign = table.marked.has(number) ? rowSign(x[0]!, bottom, table.revision) : [];
  return [
    ...table.rows[number]!.flatMap((text, i): Mark[] => {
      const { align } = table.columns[i]!;
      const at = align === 'left' ? x[i]! + besides_mm : x[i + 1]! - besides_mm;
      const anchor = i === 0 ? { anchor: anchorOf(table.title, text) } : {};
      return text === ''
        ? []
        : [lettering({ layer: 'LETTERING', at: [at, base], text, em, align, ...anchor })];
    }),
    ...sign,
    line('RULES', [x[0]!, bottom], [x.at(-1)!, bottom]),
  ];
}

/** Some rows of a short table under its heads, from a left edge and an upper edge. */
export function shortMarks(
  table: Table,
  fit: ShortFitting,
  rows: readonly number[],
  left: number,
  top: number,
): Mark[] {
  const x = edgesOf(fit, left);
  const [x0, x1] = [x[0]!, x.at(-1)!];
  const below = top - fit.groupHeight;
  const bottom = below - fit.headHeight;
  const end = bottom - rows.length * fit.rowHeight;
  return [
    filled('SHADE', ...corners({ x0, y0: bottom, x1, y1: top })),
    ...groupMarks(table, x, top, below),
    ...fit.columns.flatMap((column, i) => headCell(column, x[i]!, bottom)),
    line('BREAKS', [x0, top], [x1, top]),
    line('BREAKS', [x0, bottom], [x1, bottom]),
    ...rows.flatMap((number, i) => rowMarks(table, number, x, bottom - i * fit.rowHeight, fit.rowHeight)),
    ...x.map((at, k) => line('RULES', [at, k === 0 || k === x.length - 1 ? top : below], [at, end])),
  ];
}
