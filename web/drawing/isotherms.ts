import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { HeatAnswer } from '../../src/sizing.ts';
import { onPaper, quantity } from '../format.ts';
import { roundTicks } from './plot.ts';

type Field = NonNullable<HeatAnswer['field']>;

interface Corner {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly value: number;
}

/** Where the level crosses the edge between two corners, or undefined where it does not. */
function crossing(a: Corner, b: Corner, level: number): readonly [number, number] | undefined {
  if (a.value < level === b.value < level) return undefined;
  const share = (level - a.value) / (b.value - a.value);
  return [a.x_mm + share * (b.x_mm - a.x_mm), a.y_mm + share * (b.y_mm - a.y_mm)];
}

function cornersOf(field: Field, i: number, j: number): readonly Corner[] | undefined {
  const columnCount = field.xs_mm.length;
  const corner = (di: number, dj: number): Corner | undefined => {
    const value = field.temperature_degC[(j + dj) * columnCount + i + di];
    if (value === null || value === undefined) return undefined;
    return { x_mm: field.xs_mm[i + di]!, y_mm: field.ys_mm[j + dj]!, value };
  };
  const corners = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
  return corners.every((one) => one !== undefined) ? (corners as Corner[]) : undefined;
}

/** Straight pieces of the line of one temperature, cell by cell of the mesh; cells without material have none. */
export function isotherm(field: Field, level: number): (readonly [number, number])[][] {
  const pieces: (readonly [number, number])[][] = [];
  for (let j = 0; j + 1 < field.ys_mm.length; j++) {
    for (let i = 0; i + 1 < field.xs_mm.length; i++) {
      const corners = cornersOf(field, i, j);
      if (!corners) continue;
      const found = corners.flatMap((a, k) => crossing(a, corners[(k + 1) % 4]!, level) ?? []);
      for (let k = 0; k + 3 < found.length; k += 4) {
        pieces.push([
          [found[k]!, found[k + 1]!],
          [found[k + 2]!, found[k + 3]!],
        ]);
      }
    }
  }
  return pieces;
}

/** Where the section lies on the paper. */
export interface SectionPaper {
  readonly half_mm: number;
  readonly depth_mm: number;
  readonly x: (fromMiddle_mm: number) => number;
  readonly y: (fromWall_mm: number) => number;
}

/** Temperatures the lines are drawn for: round, six or so between the coldest and the hottest. */
export function isothermLevels(field: Field): number[] {
  const values = field.temperature_degC.filter((value) => value !== null);
  const low = values.reduce((a, b) => Math.min(a, b));
  const high = values.reduce((a, b) => Math.max(a, b));
  return roundTicks(low, high, 7).filter((level) => level > low && level < high);
}

function line(field: Field, level: number, paper: SectionPaper): SVGTemplateResult | typeof nothing {
  const shown = isotherm(field, level).filter((piece) => piece.every(([x]) => Math.abs(x) <= paper.half_mm));
  if (shown.length === 0) return nothing;
  const point = ([x, y]: readonly [number, number], side: number): string =>
    `${onPaper(paper.x(side * x))} ${onPaper(paper.y(paper.depth_mm - y))}`;
  const sides = field.half ? [1, -1] : [1];
  const d = sides.flatMap((side) => shown.map(([a, b]) => `M${point(a!, side)}L${point(b!, side)}`)).join('');
  const [at] = shown.reduce((far, piece) => (piece[0]![0] > far[0]![0] ? piece : far));
  return svg`<path class="isotherm" d=${d}></path>
    <text class="isotherm-figure" x=${paper.x(-at![0])} y=${paper.y(paper.depth_mm - at![1])} dy="0.35em" text-anchor="middle">${quantity(level, '')}</text>`;
}

/** Lines of equal temperature through boards and cavity, each with its figure in °C. */
export function isotherms(field: Field, paper: SectionPaper): SVGTemplateResult {
  return svg`<g class="isotherms">${isothermLevels(field).map((level) => line(field, level, paper))}</g>`;
}
