/** A straight facet of a two-dimensional enclosure, from one end to the other. */
export interface Facet {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

// Not Math.hypot: coordinates are centimetres to metres, nothing overflows, and this is called millions of times.
const distance = (ax: number, ay: number, bx: number, by: number): number =>
  Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));

/** Length of a facet, in the unit of its coordinates. */
export function facetLength(facet: Facet): number {
  return distance(facet.x0, facet.y0, facet.x1, facet.y1);
}

/**
 * Direct exchange area per metre between two facets of an infinitely long enclosure that see each other whole:
 * `A1*F12 = (crossed strings - uncrossed strings) / 2`. Symmetric, so reciprocity is exact.
 *
 * Facets run round their enclosure in one sense (all clockwise or all counter-clockwise), so that the end of
 * one is the near neighbour of the start of the other and `x1-x0'` and `x0-x1'` are the uncrossed strings.
 * Zero for a facet with itself or with another in the same line. Holds where nothing stands between the two.
 *
 * Source: H. C. Hottel's crossed-string method; Howell, A Catalog of Radiation Configuration Factors, cases
 * C-1 and C-3 (read in a secondary copy). Check: `reference/view-factors.checks.ts`.
 */
export function directExchange(a: Facet, b: Facet): number {
  const crossed = distance(a.x0, a.y0, b.x0, b.y0) + distance(a.x1, a.y1, b.x1, b.y1);
  const uncrossed = distance(a.x1, a.y1, b.x0, b.y0) + distance(a.x0, a.y0, b.x1, b.y1);
  return Math.max(0, (crossed - uncrossed) / 2);
}

/** The image of a facet in a mirror along `x = at`, turned round so that the enclosure keeps its sense. */
export function mirroredFacet(facet: Facet, at: number): Facet {
  return { x0: 2 * at - facet.x1, y0: facet.y1, x1: 2 * at - facet.x0, y1: facet.y0 };
}

/**
 * Direct exchange area per metre between facets on the two faces of an endless gap whose pattern repeats between
 * mirrors at `low` and `high`: the facet and all images of the other. The nearest images are summed; those beyond are
 * an integral and its first correction, `L1*L2*((1 - R/s)/(2P) - P*d^2*R/(16*s^5))`, `s = sqrt(R^2 + d^2)`, for each
 * side, d the gap, P the period and R the distance where they start.
 *
 * @param gap low < high, both facets level and between them, on opposite faces
 * @returns a length; the sum over all facets of one face is the other facet's length, to about 1e-5
 * Source: Hottel's crossed strings; tail by the midpoint rule of Euler and Maclaurin. Check: row sums in `tests/numeric/view-factors.test.ts`.
 */
export function gapDirectExchange(
  a: Facet,
  b: Facet,
  gap: { readonly low: number; readonly high: number },
): number {
  const period = 2 * (gap.high - gap.low);
  const depth = Math.abs(b.y0 - a.y0);
  if (depth === 0) return 0;
  const imageCount = 2 + Math.ceil((1.5 * depth) / period);
  const product = facetLength(a) * facetLength(b);
  const mid = (a.x0 + a.x1) / 2;
  let sum = 0;
  for (let mirror = 0; mirror < 2; mirror++) {
    const start = mirror === 0 ? b.x0 : 2 * gap.low - b.x1;
    const end = mirror === 0 ? b.x1 : 2 * gap.low - b.x0;
    for (let k = -imageCount; k <= imageCount; k++)
      sum += levelExchange(a.x0, a.x1, start + k * period, end + k * period, depth);
    const offset = (start + end) / 2 - mid;
    sum += product * (tail(imageCount, period, depth, offset) + tail(imageCount, period, depth, -offset));
  }
  return sum;
}

/** Crossed strings between two level facets a gap apart, by their ends alone; called too often for objects. */
function levelExchange(a0: number, a1: number, b0: number, b1: number, depth: number): number {
  const crossed = distance(a0, 0, b0, depth) + distance(a1, 0, b1, depth);
  const uncrossed = distance(a1, 0, b0, depth) + distance(a0, 0, b1, depth);
  return Math.max(0, (crossed - uncrossed) / 2);
}

/** Images beyond the last one summed on one side, over the product of the lengths. */
function tail(imageCount: number, period: number, depth: number, offset: number): number {
  const start = (imageCount + 0.5) * period + offset;
  const reach = start * start + depth * depth;
  const beyond = (1 - start / Math.sqrt(reach)) / (2 * period);
  return beyond - (period * depth * depth * start) / (16 * reach * reach * Math.sqrt(reach));
}
