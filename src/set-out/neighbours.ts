import type { Run } from '../answer/sizing.ts';

interface LitRun {
  readonly run: Run;
  /** Light of each unit, relative to nominal. */
  readonly light: readonly number[];
}

const stationCount = 9;
const nearlyParallel = 0.95;

interface Axis {
  readonly ux: number;
  readonly uy: number;
  readonly length_mm: number;
}

function axisOf(run: Run): Axis {
  const [dx, dy] = [run.x1_mm - run.x0_mm, run.y1_mm - run.y0_mm];
  const length_mm = Math.hypot(dx, dy);
  return { ux: dx / length_mm, uy: dy / length_mm, length_mm };
}

const lightAt = (lit: LitRun, share: number): number =>
  lit.light[Math.min(lit.light.length - 1, Math.floor(share * lit.light.length))]!;

/** Largest relative difference of light where b lies square across from a; null where it never does. */
function difference(a: LitRun, b: LitRun): number | null {
  const [axisA, axisB] = [axisOf(a.run), axisOf(b.run)];
  if (Math.abs(axisA.ux * axisB.ux + axisA.uy * axisB.uy) < nearlyParallel) return null;
  let largest: number | null = null;
  for (let i = 0; i < stationCount; i++) {
    const share = (i + 0.5) / stationCount;
    const x = a.run.x0_mm + axisA.ux * share * axisA.length_mm - b.run.x0_mm;
    const y = a.run.y0_mm + axisA.uy * share * axisA.length_mm - b.run.y0_mm;
    const shareB = (x * axisB.ux + y * axisB.uy) / axisB.length_mm;
    if (shareB < 0 || shareB >= 1) continue;
    const [lightA, lightB] = [lightAt(a, share), lightAt(b, shareB)];
    const brighter = Math.max(lightA, lightB);
    largest = Math.max(largest ?? 0, brighter > 0 ? Math.abs(lightA - lightB) / brighter : 0);
  }
  return largest;
}

/**
 * Largest difference of light between each run and those beside it (before and after it in the set-out) at the
 * same height, as a ratio of the brighter; null where nothing parallel lies across from it.
 */
export function neighbourDifferences(runs: readonly LitRun[]): (number | null)[] {
  const pairs = runs.slice(1).map((run, i) => difference(runs[i]!, run));
  return runs.map((_, i) => {
    const known = [pairs[i - 1], pairs[i]].filter((d): d is number => d !== null && d !== undefined);
    return known.length === 0 ? null : Math.max(...known);
  });
}
