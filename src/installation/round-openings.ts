import type { Job } from '../job/job.ts';
import { type Opening, stopsCables } from '../job/opening.ts';
import { type Box, partInBox } from '../numeric/part-in-box.ts';
import type { Path, Point } from './plan.ts';

/** How far from the edge of an opening cables pass it: behind the frame's fixings (a choice of ours). */
export const passing_mm = 20;

/** What cables have to go round, and the panel they stay in. */
export interface Obstacles {
  readonly openings: readonly Opening[];
  readonly panel: Job['panel'];
}

const boxOf = ({ x_mm, y_mm, width_mm, height_mm }: Opening, by_mm: number): Box => ({
  left: x_mm - by_mm,
  right: x_mm + width_mm + by_mm,
  bottom: y_mm - by_mm,
  top: y_mm + height_mm + by_mm,
});

/** Inside a driver place, and on the way from one that is not drawn, nothing is in the way. */
const isDrawn = ({ in: where }: Path): boolean => where !== 'place' && where !== 'remote';

const inside = ({ from, to }: Path, box: Box): readonly [number, number] | null =>
  partInBox({ x0: from.x_mm, y0: from.y_mm, x1: to.x_mm, y1: to.y_mm }, box);

/** A spot on a path; where it meets an edge of the box, exactly on it. */
function spot({ from, to }: Path, t: number, box: Box): Point {
  const near = (x: number, edges: readonly number[]): number =>
    edges.find((edge) => Math.abs(edge - x) < 1e-6) ?? x;
  return {
    x_mm: near(from.x_mm + (to.x_mm - from.x_mm) * t, [box.left, box.right]),
    y_mm: near(from.y_mm + (to.y_mm - from.y_mm) * t, [box.bottom, box.top]),
  };
}

/** Corners of a box, anticlockwise from the lower left. */
const cornersOf = ({ left, right, bottom, top }: Box): Point[] => [
  { x_mm: left, y_mm: bottom },
  { x_mm: right, y_mm: bottom },
  { x_mm: right, y_mm: top },
  { x_mm: left, y_mm: top },
];

/** How far along the edge of a box a spot on it lies, anticlockwise from the lower left corner. */
function along({ x_mm, y_mm }: Point, { left, right, bottom, top }: Box): number {
  const [width, height] = [right - left, top - bottom];
  if (y_mm === bottom) return x_mm - left;
  if (x_mm === right) return width + (y_mm - bottom);
  return y_mm === top ? width + height + (right - x_mm) : 2 * width + height + (top - y_mm);
}

/** From one spot on the edge of a box anticlockwise to another, corner by corner. */
function walk(from: Point, to: Point, box: Box): Point[] {
  const around = 2 * (box.right - box.left + box.top - box.bottom);
  const start = along(from, box);
  const ahead = (point: Point): number => (along(point, box) - start + around) % around;
  const passed = cornersOf(box)
    .filter((corner) => ahead(corner) > 0 && ahead(corner) < ahead(to))
    .sort((a, b) => ahead(a) - ahead(b));
  return [from, ...passed, to];
}

const apart_mm = (a: Point, b: Point): number => Math.abs(a.x_mm - b.x_mm) + Math.abs(a.y_mm - b.y_mm);

const length_mm = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, point, i) => sum + apart_mm(points[i]!, point), 0);

/** The shorter way along the edge that stays in the panel; null where neither does. */
function roundEdge(from: Point, to: Point, box: Box, panel: Job['panel']): Point[] | null {
  const isIn = ({ x_mm, y_mm }: Point): boolean =>
    x_mm >= 0 && x_mm <= panel.width_mm && y_mm >= 0 && y_mm <= panel.height_mm;
  return (
    [walk(from, to, box), walk(to, from, box).reverse()]
      .filter((points) => points.slice(1, -1).every(isIn))
      .sort((a, b) => length_mm(a) - length_mm(b))[0] ?? null
  );
}

function joined(where: Path['in'], points: readonly Point[]): Path[] {
  return points.slice(1).flatMap((to, i) => {
    const from = points[i]!;
    const long_mm = apart_mm(from, to);
    return long_mm === 0 ? [] : [{ in: where, from, to, length_mm: long_mm }];
  });
}

/** A way with all that lies between its first and its last meeting with an opening led along its edge. */
function roundOne(paths: readonly Path[], opening: Opening, panel: Job['panel']): readonly Path[] {
  const box = boxOf(opening, passing_mm);
  const met = paths.flatMap((path, i) => {
    const part = isDrawn(path) ? inside(path, box) : null;
    return part ? [{ path, i, part }] : [];
  });
  const [first, last] = [met[0], met.at(-1)];
  if (!first || !last) return paths;
  const isEnd = (first.i === 0 && first.part[0] === 0) || (last.i === paths.length - 1 && last.part[1] === 1);
  const [enters, leaves] = [spot(first.path, first.part[0], box), spot(last.path, last.part[1], box)];
  const edge = isEnd ? null : roundEdge(enters, leaves, box, panel);
  if (!edge) return paths;
  return [
    ...paths.slice(0, first.i),
    ...joined(first.path.in, [first.path.from, enters]),
    ...joined('panel', edge),
    ...joined(last.path.in, [leaves, last.path.to]),
    ...paths.slice(last.i + 1),
  ];
}

/**
 * Leads the way of a cable round openings, and round keep-outs that let none pass: along their edge, 20 mm away, the shorter way about that stays in the panel. What
 * begins or ends in an opening, and what finds no way round, is left as it was, for a finding to say.
 *
 * @param paths square to the panel, one after the other; whatever meets no opening comes back as it was
 * Check: `tests/installation/round-openings.test.ts`, lengths by hand and by its mirror image.
 */
export function roundOpenings(paths: readonly Path[], { openings, panel }: Obstacles): readonly Path[] {
  return openings.filter(stopsCables).reduce((way, opening) => roundOne(way, opening, panel), paths);
}

interface Laid {
  readonly id: string;
  readonly stretches: readonly Path[];
}

/** The openings that cables lead through, more than on their edge, each with those cables. */
export function cablesThrough(
  openings: readonly Opening[],
  cables: readonly Laid[],
): { opening: number; cables: string[] }[] {
  const through = (opening: Opening): string[] =>
    cables
      .filter(({ stretches }) => stretches.some((path) => isDrawn(path) && inside(path, boxOf(opening, 0))))
      .map(({ id }) => id);
  return openings
    .map((opening, i) => ({ opening: i, cables: stopsCables(opening) ? through(opening) : [] }))
    .filter(({ cables: found }) => found.length > 0);
}
