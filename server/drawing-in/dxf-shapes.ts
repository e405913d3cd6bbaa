import type { DxfEntity, DxfPoint } from 'dxf';
import type { Segment } from '../../src/job/slots.ts';

/** What an entity turned out to be: centre lines with a width where it has one, or why it is none. */
export type Shape =
  | { readonly kind: 'slots'; readonly segments: readonly Segment[]; readonly width_mm: number | null }
  | { readonly kind: 'ignored'; readonly why: string }
  | { readonly kind: 'broken' };

interface Corner {
  readonly x: number;
  readonly y: number;
}

const ignored = (why: string): Shape => ({ kind: 'ignored', why });
const isComplete = ({ x, y }: DxfPoint): boolean => Number.isFinite(x) && Number.isFinite(y);
const apart = (a: Corner, b: Corner): number => Math.hypot(b.x - a.x, b.y - a.y);

const segmentOf = (a: Corner, b: Corner): Segment => ({ x0_mm: a.x, y0_mm: a.y, x1_mm: b.x, y1_mm: b.y });

/** Corners that lie on the one before are dropped, and the last where it closes the outline on the first. */
function distinct(corners: readonly Corner[], isClosed: boolean): Corner[] {
  const kept = corners.filter((corner, i) => i === 0 || apart(corner, corners[i - 1]!) > 1e-6);
  const [first, last] = [kept[0], kept.at(-1)];
  return isClosed && kept.length > 1 && first && last && apart(first, last) <= 1e-6
    ? kept.slice(0, -1)
    : kept;
}

/** Half a degree out of square is drawn by hand; more is another shape. */
const square = Math.sin((0.5 * Math.PI) / 180);

function isRectangle([a, b, c, d]: readonly [Corner, Corner, Corner, Corner]): boolean {
  const sides = [apart(a, b), apart(b, c), apart(c, d), apart(d, a)] as const;
  const cosine = ((b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y)) / (sides[0] * sides[1]);
  const alike = (one: number, other: number): boolean =>
    Math.abs(one - other) <= 0.002 * Math.max(one, other);
  return Math.abs(cosine) <= square && alike(sides[0], sides[2]) && alike(sides[1], sides[3]);
}

const between = (a: Corner, b: Corner): Corner => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** A rectangle has no direction: its slot starts at the lower end, or at the left one if it lies level. */
function fromBelow(a: Corner, b: Corner): Segment {
  const level = Math.abs(b.y - a.y) <= 1e-6 * apart(a, b);
  const isTurned = level ? b.x < a.x : b.y < a.y;
  return isTurned ? segmentOf(b, a) : segmentOf(a, b);
}

function rectangle(corners: readonly [Corner, Corner, Corner, Corner]): Shape {
  const [a, b, c, d] = corners;
  const [one, other] = [(apart(a, b) + apart(c, d)) / 2, (apart(b, c) + apart(d, a)) / 2];
  if (Math.abs(one - other) <= 0.001 * one) return ignored('a square has no long side: draw its centre line');
  const axis =
    one > other ? fromBelow(between(d, a), between(b, c)) : fromBelow(between(a, b), between(c, d));
  return { kind: 'slots', segments: [axis], width_mm: Math.min(one, other) };
}

function polyline(entity: DxfEntity, scale_mm: number): Shape {
  const vertices = entity.vertices ?? [];
  if (vertices.length === 0 || !vertices.every(isComplete)) return { kind: 'broken' };
  if (vertices.some(({ bulge }) => bulge !== undefined && bulge !== 0)) return ignored('has arcs in it');
  const raw = vertices.map(({ x, y }) => ({ x: x! * scale_mm, y: y! * scale_mm }));
  const isShut = entity.closed === true || (raw.length > 3 && apart(raw[0]!, raw.at(-1)!) <= 1e-6);
  const corners = distinct(raw, isShut);
  if (corners.length < 2) return ignored('has no length');
  if (isShut && corners.length > 2) {
    const four = corners.length === 4 ? (corners as [Corner, Corner, Corner, Corner]) : undefined;
    return four && isRectangle(four) ? rectangle(four) : ignored('a closed shape that is no rectangle');
  }
  const segments = corners.slice(1).map((corner, i) => segmentOf(corners[i]!, corner));
  return { kind: 'slots', segments, width_mm: null };
}

function straightLine({ start, end }: DxfEntity, scale_mm: number): Shape {
  if (!start || !end || !isComplete(start) || !isComplete(end)) return { kind: 'broken' };
  const [a, b] = [start, end].map(({ x, y }) => ({ x: x! * scale_mm, y: y! * scale_mm })) as [Corner, Corner];
  if (apart(a, b) <= 1e-6) return ignored('has no length');
  return { kind: 'slots', segments: [segmentOf(a, b)], width_mm: null };
}

/** What a line or polyline of the drawing means as slots, in mm. */
export function shapeOf(entity: DxfEntity, scale_mm: number): Shape {
  if (entity.paperSpace) return ignored('on a layout sheet, not in the model');
  if ((entity.extrusionZ ?? 1) < 0) return ignored('drawn on a mirrored plane: flatten it first');
  if (entity.polygonMesh || entity.polyfaceMesh) return ignored('a mesh');
  return entity.type === 'LINE' ? straightLine(entity, scale_mm) : polyline(entity, scale_mm);
}
