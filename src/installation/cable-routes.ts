import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { DriverPlace } from '../job/job.ts';
import type { Path, Point } from './plan.ts';

const apart_mm = (a: Point, b: Point): number => Math.hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);

const point = ({ x_mm, y_mm }: Point): Point => ({ x_mm, y_mm });

const path = (where: Path['in'], from: Point, to: Point): Path[] =>
  from.x_mm === to.x_mm && from.y_mm === to.y_mm
    ? []
    : [{ in: where, from: point(from), to: point(to), length_mm: apart_mm(from, to) }];

type Box = Pick<DriverPlace, 'x_mm' | 'y_mm' | 'width_mm' | 'height_mm'>;

/**
 * Where the cables of a place leave it, all through one hole: at the middle of its top where the way lies above it, of
 * its bottom where the way lies below, else at the height of the way on the side towards the middle of the panel.
 */
export function exitOf(place: Box, way_mm: number, panelWidth_mm: number): Point {
  const middle_mm = place.x_mm + place.width_mm / 2;
  const top_mm = place.y_mm + place.height_mm;
  if (top_mm <= way_mm) return { x_mm: middle_mm, y_mm: top_mm };
  if (place.y_mm >= way_mm) return { x_mm: middle_mm, y_mm: place.y_mm };
  const isLeft = middle_mm <= panelWidth_mm / 2;
  return { x_mm: isLeft ? place.x_mm + place.width_mm : place.x_mm, y_mm: way_mm };
}

/** From the terminals of a device to the hole in its place, square. */
export function toExit(terminals: Point, exit: Point): Path[] {
  const corner = { x_mm: exit.x_mm, y_mm: terminals.y_mm };
  return [...path('place', terminals, corner), ...path('place', corner, exit)];
}

/** From the terminals of one device to those of another in the same place, square. */
export function betweenDevices(from: Point, to: Point): Path[] {
  const corner = { x_mm: to.x_mm, y_mm: from.y_mm };
  return [...path('place', from, corner), ...path('place', corner, to)];
}

/** Where the cables of a place meet the way, and what they pass before: a riser, and for a remote place its length. */
export interface WayStart {
  readonly exit: Point;
  /** Cable from a remote place to the panel; 0 for a place that is drawn. */
  readonly remote_mm: number;
  readonly way_mm: number;
}

/** Where the cables of a place meet a way of that height, and what lies between. */
export function wayStart(place: DriverPlace, way_mm: number, panelWidth_mm: number): WayStart {
  if (place.kind === 'remote')
    return { exit: { x_mm: place.x_mm, y_mm: way_mm }, remote_mm: place.cable_mm ?? 0, way_mm };
  return { exit: exitOf(place, way_mm, panelWidth_mm), remote_mm: 0, way_mm };
}

/** From the hole in a place to a spot on the way. */
export function alongWay({ exit, remote_mm, way_mm }: WayStart, x_mm: number): Path[] {
  const foot = { x_mm: exit.x_mm, y_mm: way_mm };
  const remote: Path[] = remote_mm > 0 ? [{ in: 'remote', from: exit, to: exit, length_mm: remote_mm }] : [];
  return [...remote, ...path('riser', exit, foot), ...path('way', foot, { x_mm, y_mm: way_mm })];
}

/** Along the way from one spot to another. */
export const onWay = (from_mm: number, to_mm: number, way_mm: number): Path[] =>
  path('way', { x_mm: from_mm, y_mm: way_mm }, { x_mm: to_mm, y_mm: way_mm });

/** Heights between which an upright cable at a pad of this run lies beside its strip; null for a run that lies flat. */
function besideStrip(run: Run): readonly [low_mm: number, high_mm: number] | null {
  const isSteep = Math.abs(run.y1_mm - run.y0_mm) > Math.abs(run.x1_mm - run.x0_mm);
  return isSteep ? [Math.min(run.y0_mm, run.y1_mm), Math.max(run.y0_mm, run.y1_mm)] : null;
}

/** Straight up or down from the way to a pad: first in the panel, then beside the strip as far as it passes it. */
export function toPad(pad: Pick<FeedPoint, 'x_mm' | 'y_mm'>, run: Run, way_mm: number): Path[] {
  const from = { x_mm: pad.x_mm, y_mm: way_mm };
  const to = { x_mm: pad.x_mm, y_mm: pad.y_mm };
  const strip = besideStrip(run);
  if (strip === null) return path('panel', from, to);
  const meets = { x_mm: pad.x_mm, y_mm: Math.min(Math.max(way_mm, strip[0]), strip[1]) };
  return [...path('panel', from, meets), ...path('slot', meets, to)];
}

/** From a pad of one run to a pad of the next, square: across behind the battens, then up or down, beside its strip too. */
export function runToRun(from: Point, pad: Pick<FeedPoint, 'x_mm' | 'y_mm'>, run: Run): Path[] {
  return [...path('panel', from, { x_mm: pad.x_mm, y_mm: from.y_mm }), ...toPad(pad, run, from.y_mm)];
}

/** A way walked the other way round. */
export const reversed = (paths: readonly Path[]): Path[] =>
  paths.toReversed().map(({ from, to, ...rest }) => ({ ...rest, from: to, to: from }));

export const pathLength_mm = (paths: readonly Pick<Path, 'length_mm'>[]): number =>
  paths.reduce((sum, { length_mm }) => sum + length_mm, 0);

/** Corners of a way, each once. */
export function cornersOf(paths: readonly Path[]): Point[] {
  const first = paths[0];
  if (first === undefined) return [];
  const corners = [first.from, ...paths.map(({ to }) => to)];
  return corners
    .filter((p, i) => i === 0 || p.x_mm !== corners[i - 1]!.x_mm || p.y_mm !== corners[i - 1]!.y_mm)
    .map(point);
}
