/** How fine a line of mesh is at a break, and how fast it coarsens away from it. */
export interface Grading {
  /** Length of the cell at a break. */
  readonly finest_m: number;
  /** Ratio of neighbouring cells, at least 1. */
  readonly growth: number;
  /** No cell is longer. */
  readonly coarsest_m: number;
}

/** Breaks in ascending order, each once; breaks nearer than a tenth of a micrometre are one. */
export function distinctBreaks(breaks: readonly number[]): number[] {
  const sorted = [...breaks].sort((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value - sorted[i - 1]! > 1e-7);
}

/** Cell lengths of one interval, growing from both ends towards its middle, scaled to fill it exactly. */
function cellsBetween(length_m: number, grading: Grading): number[] {
  const left: number[] = [];
  let size = Math.min(grading.finest_m, length_m);
  let rest = length_m;
  while (rest > 2.0 * size) {
    left.push(size);
    rest -= 2 * size;
    size = Math.min(size * grading.growth, grading.coarsest_m);
  }
  const middle = rest > 0.5 * size || left.length === 0 ? [rest] : [];
  const cells = [...left, ...middle, ...left.toReversed()];
  const total = cells.reduce((sum, cell) => sum + cell, 0);
  return cells.map((cell) => (cell * length_m) / total);
}

/** Mesh lines through every break, graded between them. */
export function gradedLines(breaks: readonly number[], grading: Grading): Float64Array {
  const ends = distinctBreaks(breaks);
  const lines = [ends[0]!];
  for (let i = 1; i < ends.length; i++) {
    const start = ends[i - 1]!;
    const cells = cellsBetween(ends[i]! - start, grading);
    let at = start;
    for (const cell of cells.slice(0, -1)) lines.push((at += cell));
    lines.push(ends[i]!);
  }
  return Float64Array.from(lines);
}

/** Every cell cut in two, so that each line of the coarse mesh is every second line of the fine one. */
export function bisectLines(lines: Float64Array): Float64Array {
  return Float64Array.from({ length: 2 * lines.length - 1 }, (_, i) =>
    i % 2 === 0 ? lines[i / 2]! : (lines[(i - 1) / 2]! + lines[(i + 1) / 2]!) / 2,
  );
}

/** Index of the line at a position. @throws RangeError when no line is there */
export function lineAt(lines: Float64Array, position: number): number {
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lines[middle]! < position - 1e-7) low = middle + 1;
    else high = middle;
  }
  if (Math.abs(lines[low]! - position) > 2e-7) throw new RangeError(`no mesh line at ${position} m`);
  return low;
}
