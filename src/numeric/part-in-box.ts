/** A rectangle by its edges. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

interface Line {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Part of a coordinate's way, from 0 to 1, that lies between two bounds; null for none of some length. */
function between(from: number, to: number, low: number, high: number): readonly [number, number] | null {
  if (from === to) return from > low && from < high ? [0, 1] : null;
  const [a, b] = [(low - from) / (to - from), (high - from) / (to - from)];
  const part = [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))] as const;
  return part[0] < part[1] ? part : null;
}

/**
 * Part of a straight line inside a box, from 0 at its start to 1 at its finish: where both coordinates are between their
 * bounds at once. Null where nothing of some length is; a line along an edge is outside.
 *
 * Source: the parametric clipping of Liang and Barsky (1984), from memory. Check: `tests/numeric/part-in-box.test.ts`.
 */
export function partInBox({ x0, y0, x1, y1 }: Line, box: Box): readonly [number, number] | null {
  const across = between(x0, x1, box.left, box.right);
  const up = between(y0, y1, box.bottom, box.top);
  if (!across || !up) return null;
  const part = [Math.max(across[0], up[0]), Math.min(across[1], up[1])] as const;
  return part[0] < part[1] ? part : null;
}
