/** A position that must be a mesh line, and how long the cells beside it may be. */
export interface Break {
  readonly at: number;
  readonly finest_m: number;
}

/** Lines of a mesh, ascending. */
export interface MeshLines {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

/** How fast a mesh coarsens away from its breaks. */
export interface Grading {
  /** Ratio of neighbouring cells, at least 1. */
  readonly growth: number;
  /** No cell is longer. */
  readonly coarsest_m: number;
}

/** Positions nearer than this are one. */
const same_m = 1e-7;

/** Breaks in ascending order, each once, the finest winning. */
function distinctBreaks(breaks: readonly Break[]): Break[] {
  const distinct: Break[] = [];
  for (const next of [...breaks].sort((a, b) => a.at - b.at)) {
    const last = distinct.at(-1);
    if (last === undefined || next.at - last.at > same_m) distinct.push(next);
    else distinct[distinct.length - 1] = { at: last.at, finest_m: Math.min(last.finest_m, next.finest_m) };
  }
  return distinct;
}

/** Cell lengths of one interval, growing from both ends until they meet, then scaled to fill it exactly. */
function cellsBetween(length_m: number, low_m: number, high_m: number, grading: Grading): number[] {
  const fromLow: number[] = [];
  const fromHigh: number[] = [];
  let [nextLow, nextHigh] = [low_m, high_m];
  let rest = length_m;
  while (rest > 0.5 * Math.min(nextLow, nextHigh) || fromLow.length + fromHigh.length === 0) {
    const low = nextLow <= nextHigh;
    const cell = Math.min(low ? nextLow : nextHigh, length_m);
    (low ? fromLow : fromHigh).push(cell);
    rest -= cell;
    if (low) nextLow = Math.min(cell * grading.growth, grading.coarsest_m);
    else nextHigh = Math.min(cell * grading.growth, grading.coarsest_m);
  }
  const cells = [...fromLow, ...fromHigh.toReversed()];
  const total = cells.reduce((sum, cell) => sum + cell, 0);
  return cells.map((cell) => (cell * length_m) / total);
}

/** Mesh lines through every break, graded between them. */
export function gradedLines(breaks: readonly Break[], grading: Grading): Float64Array {
  const ends = distinctBreaks(breaks);
  const lines = [ends[0]!.at];
  for (let i = 1; i < ends.length; i++) {
    const [low, high] = [ends[i - 1]!, ends[i]!];
    let at = low.at;
    for (const cell of cellsBetween(high.at - low.at, low.finest_m, high.finest_m, grading).slice(0, -1)) {
      at += cell;
      lines.push(at);
    }
    lines.push(high.at);
  }
  return Float64Array.from(lines);
}

/** Every cell cut into so many equal parts, so that every line of the coarse mesh is a line of the fine one. */
export function cutLines(lines: Float64Array, parts: number): Float64Array {
  return Float64Array.from({ length: parts * (lines.length - 1) + 1 }, (_, i) => {
    const [cell, part] = [Math.floor(i / parts), i % parts];
    return part === 0 ? lines[cell]! : lines[cell]! + ((lines[cell + 1]! - lines[cell]!) * part) / parts;
  });
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
