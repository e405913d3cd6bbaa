import { type Extents, line, type Mark } from './mark.ts';

/** Parallel lines at 45 degrees over a box, rising or falling, a step apart across. */
export function hatched(box: Extents, step: number, slope: 'rising' | 'falling'): Mark[] {
  const { x0, y0, x1, y1 } = box;
  const height = y1 - y0;
  const lines: Mark[] = [];
  for (let start = x0 - height + step / 2; start < x1; start += step) {
    const [a, b] = [Math.max(x0, start), Math.min(x1, start + height)];
    if (b - a < step * 0.05) continue;
    const at = (x: number): number => (slope === 'rising' ? y0 + (x - start) : y1 - (x - start));
    lines.push(line('HATCHING', [a, at(a)], [b, at(b)]));
  }
  return lines;
}
