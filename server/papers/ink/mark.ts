import type { DimensionChain } from './dimension-chain.ts';
import type { Layer } from './layers.ts';
import { textWidth } from './lettering.ts';

/** A point of a drawing or a sheet: x to the right, y up. */
export type Point = readonly [x: number, y: number];

/** What a mark stands for in a drawing file beside its lines. */
interface Meaning {
  /** A device or a feed point: the kind of block it is, and its reference. */
  readonly stands?: { readonly block: 'DEVICE' | 'FEED_POINT'; readonly ref: string };
  /** The chain of dimensions it is a part of. */
  readonly measures?: DimensionChain;
}

/** A line through points, closed to an outline or filled; its width and colour come from its layer. */
export interface Path extends Meaning {
  readonly kind: 'path';
  readonly layer: Layer;
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly filled: boolean;
}

export interface Circle extends Meaning {
  readonly kind: 'circle';
  readonly layer: Layer;
  readonly centre: Point;
  readonly radius: number;
  readonly filled: boolean;
}

/** One line of lettering; `at` is where its base line starts, has its middle, or ends. */
export interface Lettering extends Meaning {
  readonly kind: 'text';
  readonly layer: Layer;
  readonly at: Point;
  readonly text: string;
  /** The em, in the units of the drawing; capitals are 0.73 of it. */
  readonly em: number;
  readonly align: 'left' | 'middle' | 'right';
  /** Anticlockwise from the x axis. */
  readonly angle_deg: number;
  readonly bold: boolean;
  /** A name to be found by in a PDF, and the name this leads to there. */
  readonly anchor?: string;
  readonly leadsTo?: string;
}

/** Everything the papers are made of; the same marks are written as SVG, as DXF and as PDF. */
export type Mark = Path | Circle | Lettering;

export interface Extents {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** An open line. */
export function line(layer: Layer, ...points: Point[]): Path {
  return { kind: 'path', layer, points, closed: false, filled: false };
}

/** A closed outline. */
export function outline(layer: Layer, ...points: Point[]): Path {
  return { kind: 'path', layer, points, closed: true, filled: false };
}

/** A filled shape without an outline. */
export function filled(layer: Layer, ...points: Point[]): Path {
  return { kind: 'path', layer, points, closed: true, filled: true };
}

/** The corners of a box, anticlockwise from the lower left. */
export function corners({ x0, y0, x1, y1 }: Extents): [Point, Point, Point, Point] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** A circle; a filled one has no outline. */
export function circle(layer: Layer, centre: Point, radius: number, isFilled = false): Circle {
  return { kind: 'circle', layer, centre, radius, filled: isFilled };
}

/** A line of lettering: level, left-aligned and plain unless said otherwise. */
export function lettering(
  given: Pick<Lettering, 'layer' | 'at' | 'text' | 'em'> & Partial<Lettering>,
): Lettering {
  return { align: 'left', angle_deg: 0, bold: false, ...given, kind: 'text' };
}

/** How far letters reach above and below their base line, in ems (DejaVu Sans: accents above, descenders below). */
const reach = { above: 0.95, below: 0.24 } as const;

/** The corners of the box a line of lettering fills, which reaches so many ems above and below the base line. */
export function letteringCorners(
  { at, text, em, align, angle_deg, bold }: Lettering,
  { above, below }: { readonly above: number; readonly below: number },
): Point[] {
  const width = textWidth(text, em, bold);
  const start = { left: 0, middle: -width / 2, right: -width }[align];
  const turn = (angle_deg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return corners({ x0: start, y0: -below * em, x1: start + width, y1: above * em }).map(
    ([x, y]): Point => [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos],
  );
}

function reachOf(mark: Mark): readonly Point[] {
  if (mark.kind === 'path') return mark.points;
  if (mark.kind === 'text') return letteringCorners(mark, reach);
  const [x, y] = mark.centre;
  return corners({ x0: x - mark.radius, y0: y - mark.radius, x1: x + mark.radius, y1: y + mark.radius });
}

/** The box that holds all marks, lettering included; line widths are left out. Needs at least one mark. */
export function extentsOf(marks: readonly Mark[]): Extents {
  const points = marks.flatMap(reachOf);
  if (points.length === 0) throw new RangeError('extentsOf() needs at least one mark');
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [x, y] of points) {
    box.x0 = Math.min(box.x0, x);
    box.y0 = Math.min(box.y0, y);
    box.x1 = Math.max(box.x1, x);
    box.y1 = Math.max(box.y1, y);
  }
  return box;
}

/** The marks scaled and then moved: from the millimetres of the piece to those of the paper. */
export function placed(marks: readonly Mark[], scale: number, [dx, dy]: Point): Mark[] {
  const move = ([x, y]: Point): Point => [x * scale + dx, y * scale + dy];
  return marks.map((mark): Mark => {
    if (mark.kind === 'path') return { ...mark, points: mark.points.map(move) };
    if (mark.kind === 'text') return { ...mark, at: move(mark.at), em: mark.em * scale };
    return { ...mark, centre: move(mark.centre), radius: mark.radius * scale };
  });
}
