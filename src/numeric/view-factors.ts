/** A straight facet of a two-dimensional enclosure, from one end to the other. */
export interface Facet {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const distance = (ax: number, ay: number, bx: number, by: number): number => Math.hypot(bx - ax, by - ay);

/** Length of a facet, in the unit of its coordinates. */
export function facetLength(facet: Facet): number {
  return distance(facet.x0, facet.y0, facet.x1, facet.y1);
}

/**
 * Exchange length between two facets of an infinitely long enclosure that see each other whole:
 * `A1*F12 = (crossed strings - uncrossed strings) / 2`. Symmetric, so reciprocity is exact.
 *
 * Facets run round their enclosure in one sense (all clockwise or all counter-clockwise), so that the end of
 * one is the near neighbour of the start of the other and `x1-x0'` and `x0-x1'` are the uncrossed strings.
 * Zero for a facet with itself or with another in the same line. Holds where nothing stands between the two.
 *
 * Source: H. C. Hottel's crossed-string method; Howell, A Catalog of Radiation Configuration Factors, cases
 * C-1 and C-3 (read in a secondary copy). Check: `reference/view-factors.checks.ts`.
 */
export function exchangeLength(a: Facet, b: Facet): number {
  const crossed = distance(a.x0, a.y0, b.x0, b.y0) + distance(a.x1, a.y1, b.x1, b.y1);
  const uncrossed = distance(a.x1, a.y1, b.x0, b.y0) + distance(a.x0, a.y0, b.x1, b.y1);
  return Math.max(0, (crossed - uncrossed) / 2);
}
