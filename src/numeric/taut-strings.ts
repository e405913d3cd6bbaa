import { type Facet, facetLength } from './view-factors.ts';

/** A rectangle with level and upright edges. */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** A rectangle of room with solid blocks in it, all of which stand at its edges, so that no ring of room is left round one. */
export interface Region {
  readonly bounds: Box;
  /** May reach beyond the bounds, and must where they stand at one. */
  readonly blocks: readonly Box[];
}

/** A point with its way to every corner that a string may bend round. */
interface Anchored {
  readonly x: number;
  readonly y: number;
  readonly toCorner: Float64Array;
}

/** A facet by its two ends. */
interface AnchoredFacet {
  readonly start: Anchored;
  readonly end: Anchored;
}

/** A line that grazes a block to within this touches it only. */
const graze_m = 1e-9;

/** Whether a line passes through the inside of a block; called millions of times, so without anything being made. */
function passesThrough(block: Box, ax: number, ay: number, bx: number, by: number): boolean {
  const [x0, x1] = [block.x0 + graze_m, block.x1 - graze_m];
  const [y0, y1] = [block.y0 + graze_m, block.y1 - graze_m];
  if (x0 >= x1 || y0 >= y1) return false;
  if ((ax <= x0 && bx <= x0) || (ax >= x1 && bx >= x1)) return false;
  if ((ay <= y0 && by <= y0) || (ay >= y1 && by >= y1)) return false;
  // From 0 to 1 along the line: where it is between the block's sides, and between its ends.
  let [from, to] = [0, 1];
  const dx = bx - ax;
  if (dx !== 0) {
    const [p, q] = [(x0 - ax) / dx, (x1 - ax) / dx];
    from = Math.max(from, Math.min(p, q));
    to = Math.min(to, Math.max(p, q));
  }
  const dy = by - ay;
  if (dy !== 0) {
    const [p, q] = [(y0 - ay) / dy, (y1 - ay) / dy];
    from = Math.max(from, Math.min(p, q));
    to = Math.min(to, Math.max(p, q));
  }
  return from < to;
}

type Point = readonly [number, number];

/** Corners of the blocks inside the region: what a taut string bends round. */
function cornersOf({ bounds, blocks }: Region): Point[] {
  const inside = ([x, y]: Point): boolean =>
    x >= bounds.x0 && x <= bounds.x1 && y >= bounds.y0 && y <= bounds.y1;
  return blocks
    .flatMap(({ x0, x1, y0, y1 }): Point[] => [
      [x0, y0],
      [x1, y0],
      [x0, y1],
      [x1, y1],
    ])
    .filter(inside);
}

/** Shortest way between every two corners, by rows. */
function waysBetween(
  corners: readonly Point[],
  isClear: (ax: number, ay: number, bx: number, by: number) => boolean,
): Float64Array {
  const n = corners.length;
  const way = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const [a, b] = [corners[i]!, corners[j]!];
      const straight = isClear(...a, ...b);
      way[i * n + j] = straight ? Math.hypot(b[0] - a[0], b[1] - a[1]) : Number.POSITIVE_INFINITY;
    }
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        way[i * n + j] = Math.min(way[i * n + j]!, way[i * n + k]! + way[k * n + j]!);
  return way;
}

/**
 * Direct exchange areas per metre among facets of a region in which blocks hide one from another: crossed strings less
 * uncrossed ones, halved, every string drawn taut inside the region round whatever stands in its way. Symmetric, and the
 * sum over all facets round the region is the facet's length, both exactly.
 *
 * @param region what strings may not leave; two facets see each other through no mirror: give images as facets
 * @returns `anchored`, which prepares a facet, and `exchange_m` of two of them
 * Facets lie on the region's edge and run round it in one sense, as for `directExchange`.
 * Source: H. C. Hottel's crossed strings, taut on what stands between (secondary copy); that it holds for every simply
 * connected region follows from the lines through both facets being those that part their ends.
 * Check: closure, plain walls and rays in `tests/numeric/taut-strings.test.ts`.
 */
export function tautStrings(region: Region) {
  const corners = cornersOf(region);
  const { blocks } = region;
  const isClear = (ax: number, ay: number, bx: number, by: number): boolean => {
    for (let k = 0; k < blocks.length; k++) if (passesThrough(blocks[k]!, ax, ay, bx, by)) return false;
    return true;
  };
  const way = waysBetween(corners, isClear);
  const n = corners.length;
  const anchor = (x: number, y: number): Anchored => {
    const toCorner = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
    for (const [i, [cx, cy]] of corners.entries()) {
      if (!isClear(x, y, cx, cy)) continue;
      const straight = Math.hypot(cx - x, cy - y);
      for (let j = 0; j < n; j++) toCorner[j] = Math.min(toCorner[j]!, straight + way[i * n + j]!);
    }
    return { x, y, toCorner };
  };
  const string_m = (a: Anchored, b: Anchored): number => {
    if (isClear(a.x, a.y, b.x, b.y)) return Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2);
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < n; k++) least = Math.min(least, a.toCorner[k]! + b.toCorner[k]!);
    return least;
  };
  const anchored = ({ x0, y0, x1, y1 }: Facet): AnchoredFacet => ({
    start: anchor(x0, y0),
    end: anchor(x1, y1),
  });
  const exchange_m = (a: AnchoredFacet, b: AnchoredFacet): number => {
    const crossed = string_m(a.start, b.start) + string_m(a.end, b.end);
    const uncrossed = string_m(a.end, b.start) + string_m(a.start, b.end);
    // A facet inside a block sees nothing.
    return Number.isFinite(crossed + uncrossed) ? Math.max(0, (crossed - uncrossed) / 2) : 0;
  };
  return { anchored, exchange_m };
}

/**
 * Closes exchange areas whose rows lack what goes to images too far to be followed: every pair gets its share in
 * proportion to what both lack, `r_i*r_j/sum(r)`, so that rows add up to the lengths and the table stays symmetric.
 * @param exchange_m by rows, changed in place; @returns what each row lacked, a length
 */
export function closeRows(exchange_m: Float64Array, facets: readonly Facet[]): Float64Array {
  const n = facets.length;
  const lacking = Float64Array.from(facets, (facet, i) => {
    const sum = exchange_m.subarray(i * n, (i + 1) * n).reduce((total, value) => total + value, 0);
    return Math.max(0, facetLength(facet) - sum);
  });
  const total = lacking.reduce((sum, value) => sum + value, 0);
  if (total > 0)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) exchange_m[i * n + j]! += (lacking[i]! * lacking[j]!) / total;
  return lacking;
}
