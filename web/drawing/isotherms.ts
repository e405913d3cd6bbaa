import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { HeatAnswer } from '../../src/answer/heat.ts';
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
  /** Places of the paper that something else is written at. */
  readonly taken: readonly (readonly [number, number])[];
}

/** Temperatures the lines are drawn for: round, six or so between the coldest and the hottest. */
export function isothermLevels(field: Field): number[] {
  const values = field.temperature_degC.filter((value) => value !== null);
  const low = values.reduce((a, b) => Math.min(a, b));
  const high = values.reduce((a, b) => Math.max(a, b));
  return roundTicks(low, high, 9).filter((level) => level > low && level < high);
}

/** Which share of the way from the coldest to the hottest line a level is, in percent: the colour of its line. */
const heatOf = (level: number, levels: readonly number[]): number => {
  const [low, high] = [levels[0]!, levels.at(-1)!];
  return high > low ? (100 * (level - low)) / (high - low) : 50;
};

type Point = readonly [number, number];

/** Room a figure on a line takes on the paper, to each side of its middle. */
const figureRoom = { across: 18, up: 11 };

const collide = (a: Point, b: Point): boolean =>
  Math.abs(a[0] - b[0]) < figureRoom.across && Math.abs(a[1] - b[1]) < figureRoom.up;

/** Where each figure stands: on its line, as far left as nothing is in the way; without room it is left to the scale. */
function figurePlaces(
  lines: readonly { readonly points: readonly Point[] }[],
  occupied: readonly Point[],
): (Point | undefined)[] {
  const taken = [...occupied];
  return lines.map(({ points }) => {
    const fromLeft = points.toSorted((a, b) => a[0] - b[0]);
    const at = fromLeft.find((point) => !taken.some((other) => collide(point, other)));
    if (at) taken.push(at);
    return at;
  });
}

interface DrawnLine {
  readonly level: number;
  readonly d: string;
  readonly points: readonly Point[];
}

function drawnLine(field: Field, level: number, paper: SectionPaper): DrawnLine {
  const shown = isotherm(field, level).filter((piece) => piece.every(([x]) => Math.abs(x) <= paper.half_mm));
  const place = ([x, y]: Point, side: number): Point => [paper.x(side * x), paper.y(paper.depth_mm - y)];
  const sides = field.half ? [1, -1] : [1];
  const pieces = sides.flatMap((side) => shown.map((piece) => piece.map((point) => place(point, side))));
  const written = ([x, y]: Point): string => `${onPaper(x)} ${onPaper(y)}`;
  return {
    level,
    d: pieces.map(([a, b]) => `M${written(a!)}L${written(b!)}`).join(''),
    points: pieces.map(([a]) => a!),
  };
}

const figure = (level: number, at: Point | undefined): SVGTemplateResult | typeof nothing =>
  at
    ? svg`<text class="isotherm-figure" x=${at[0]} y=${at[1]} dy="0.35em" text-anchor="middle">${quantity(level, '')}</text>`
    : nothing;

/** Lines of equal temperature through boards and cavity, each with its figure in °C. */
export function isotherms(field: Field, paper: SectionPaper): SVGTemplateResult {
  const levels = isothermLevels(field);
  const lines = levels.map((level) => drawnLine(field, level, paper)).filter(({ d }) => d !== '');
  const places = figurePlaces(lines, paper.taken);
  return svg`<g class="isotherms">
    ${lines.map(({ level, d }) => svg`<path class="isotherm" .style=${`--heat: ${heatOf(level, levels)}%`} d=${d}></path>`)}
    ${lines.map(({ level }, i) => figure(level, places[i]))}
  </g>`;
}

/** The scale of the lines, with its numbers. */
export function isothermScale(field: Field): TemplateResult {
  const levels = isothermLevels(field);
  return html`<div class="isotherm-scale">
    <span>Lines of equal temperature, °C</span>
    <ol>
      ${levels.map(
        (level) =>
          html`<li>
            <svg width="26" height="10" aria-hidden="true">
              <path class="isotherm" .style=${`--heat: ${heatOf(level, levels)}%`} d="M0 5H26"></path>
            </svg>
            ${quantity(level, '')}
          </li>`,
      )}
    </ol>
  </div>`;
}
