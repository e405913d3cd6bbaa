import { describe, expect, it } from 'vitest';
import { elevation } from '../../server/papers/drawings/elevation.ts';
import { rearElevation } from '../../server/papers/drawings/rear-elevation.ts';
import { letterReach } from '../../server/papers/ink/legible.ts';
import { letteringCorners, type Mark, type Point } from '../../server/papers/ink/mark.ts';
import { demos, laidOut, unusual } from './jobs.ts';

/** Where a mark reaches from left to right and from below. */
function boxOf(mark: Mark): number[] {
  const points: readonly Point[] =
    mark.kind === 'path'
      ? mark.points
      : mark.kind === 'text'
        ? letteringCorners(mark, letterReach)
        : [
            [mark.centre[0] - mark.radius, mark.centre[1]],
            [mark.centre[0] + mark.radius, mark.centre[1]],
          ];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

describe.each([...demos, ...unusual, ...laidOut])('the rear elevation of $name', ({ job, sizing }) => {
  it('has every mark of the front one where its mirror image is, lettering upright and the same', () => {
    const front = elevation(job, sizing, 20).marks;
    const rear = rearElevation(job, sizing, 20).marks;
    expect(rear).toHaveLength(front.length);
    for (const [i, mark] of front.entries()) {
      const [x0, x1, y0, y1] = boxOf(mark) as [number, number, number, number];
      const seen = boxOf(rear[i]!);
      const wanted = [job.panel.width_mm - x1, job.panel.width_mm - x0, y0, y1];
      for (const [k, value] of wanted.entries()) expect(seen[k]).toBeCloseTo(value, 6);
      if (mark.kind !== 'text') continue;
      const other = rear[i] as typeof mark;
      expect(other.text).toBe(mark.text);
      expect(Math.cos((other.angle_deg * Math.PI) / 180)).toBeGreaterThan(-1e-9);
    }
  });

  it('marks the start of every run by an arrow towards its finish', () => {
    const arrows = elevation(job, sizing, 20).marks.flatMap((mark) =>
      mark.layer === 'STARTS' && mark.kind === 'path' ? [mark] : [],
    );
    expect(arrows).toHaveLength(sizing.setOut.runs.length);
    for (const [i, run] of sizing.setOut.runs.entries()) {
      const [a, b, tip] = arrows[i]!.points as [Point, Point, Point];
      // The middle of its base is the start; its tip lies 1.8 mm of the paper towards the finish.
      expect([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]).toEqual([
        expect.closeTo(run.x0_mm, 6),
        expect.closeTo(run.y0_mm, 6),
      ]);
      const towards =
        (tip[0] - run.x0_mm) * (run.x1_mm - run.x0_mm) + (tip[1] - run.y0_mm) * (run.y1_mm - run.y0_mm);
      expect(towards / Math.hypot(run.x1_mm - run.x0_mm, run.y1_mm - run.y0_mm)).toBeCloseTo(36, 6);
    }
  });
});
