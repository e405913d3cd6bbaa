import type { Point } from './mark.ts';

/** Whether a line square to one side of a box parts the two boxes. */
function isParted(a: readonly Point[], b: readonly Point[]): boolean {
  return a.some(([x, y], i) => {
    const [nextX, nextY] = a[(i + 1) % a.length]!;
    const [nx, ny] = [y - nextY, nextX - x];
    const along = (points: readonly Point[]): number[] => points.map(([px, py]) => px * nx + py * ny);
    const [first, second] = [along(a), along(b)];
    return Math.max(...first) <= Math.min(...second) || Math.max(...second) <= Math.min(...first);
  });
}

/** Whether two boxes, turned as they may be, share more than an edge: no side of either parts them. */
export function overlap(a: readonly Point[], b: readonly Point[]): boolean {
  return !isParted(a, b) && !isParted(b, a);
}
