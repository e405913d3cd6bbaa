import type { LitSection } from '../../src/light/section.ts';
import { directExchange } from '../../src/numeric/view-factors.ts';

/**
 * View factor between two equal, directly opposed rectangles `a x b` a gap apart (closed form, `X = a/gap`, `Y = b/gap`).
 *
 * @param size both sides and the gap, positive. @returns 0 to 1.
 * Source: Howell, A Catalog of Radiation Configuration Factors, case C-11 (secondary copy).
 * Check: `form-factor-opposed-3d` in `reference/light.checks.ts`.
 */
export function opposedRectangles(size: {
  readonly a_m: number;
  readonly b_m: number;
  readonly gap_m: number;
}): number {
  const X = size.a_m / size.gap_m;
  const Y = size.b_m / size.gap_m;
  const [rootX, rootY] = [Math.hypot(1, X), Math.hypot(1, Y)];
  const corner = Math.log((rootX * rootY) / Math.hypot(1, X, Y));
  const across = X * rootY * Math.atan(X / rootY) + Y * rootX * Math.atan(Y / rootX);
  return (2 / (Math.PI * X * Y)) * (corner + across - X * Math.atan(X) - Y * Math.atan(Y));
}

/**
 * View factor from a rectangle of depth w to one of height h at right angles to it along a common edge
 * (closed form, `W = w/edge`, `H = h/edge`).
 *
 * @param size depth, height and length of the common edge, positive. @returns 0 to 1.
 * Source: Howell, A Catalog of Radiation Configuration Factors, case C-14 (secondary copy).
 * Check: `form-factor-perpendicular-3d` in `reference/light.checks.ts`.
 */
export function perpendicularRectangles(size: {
  readonly w_m: number;
  readonly h_m: number;
  readonly edge_m: number;
}): number {
  const W = size.w_m / size.edge_m;
  const H = size.h_m / size.edge_m;
  const [W2, H2] = [W * W, H * H];
  const all = 1 + W2 + H2;
  const diagonal = Math.sqrt(W2 + H2);
  const angles = W * Math.atan(1 / W) + H * Math.atan(1 / H) - diagonal * Math.atan(1 / diagonal);
  const logs =
    Math.log(((1 + W2) * (1 + H2)) / all) +
    W2 * Math.log((W2 * all) / ((1 + W2) * (W2 + H2))) +
    H2 * Math.log((H2 * all) / ((1 + H2) * (H2 + W2)));
  return (angles + logs / 4) / (Math.PI * W);
}

/**
 * By how much the two-dimensional answer may be high for a slot of finite length: the larger excess of the two view
 * factors that carry most light, slot to an equal stretch of back and side to back, each over its value in space.
 *
 * @param section a section that keeps the rules. @param length_m length of the lit slot, positive.
 * @returns share, 0 for a very long slot; 2 m by 30 mm at 40 mm gives 0.013 from the first factor alone.
 * An estimate of size, not a correction: ends that reflect give some of it back.
 * Check: `form-factor-length-excess` in `reference/light.checks.ts`.
 */
export function lengthExcess(section: LitSection, length_m: number): number {
  if (!(length_m > 0)) throw new RangeError('length must be positive');
  const { slotWidth_m: w, depth_m: d } = section;
  const opposed = directExchange({ x0: 0, y0: 0, x1: w, y1: 0 }, { x0: w, y0: d, x1: 0, y1: d }) / w;
  const opposedExcess = opposed / opposedRectangles({ a_m: w, b_m: length_m, gap_m: d }) - 1;
  if (section.endless) return opposedExcess;
  const width = section.width_m;
  const side = directExchange({ x0: 0, y0: 0, x1: width, y1: 0 }, { x0: width, y0: 0, x1: width, y1: d }) / d;
  const sideExcess = side / perpendicularRectangles({ w_m: d, h_m: width, edge_m: length_m }) - 1;
  return Math.max(opposedExcess, sideExcess);
}
