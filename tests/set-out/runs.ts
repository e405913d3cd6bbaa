import type { FeedPoint, Run } from '../../src/answer/set-out.ts';
import type { Job } from '../../src/job/job.ts';
import { feedPointsOf } from '../../src/set-out/feed-points.ts';

/** A run of 50 mm units from its first end to its last, in the slot of the same name, without feed points. */
export function bareRun(
  id: string,
  [x0_mm, y0_mm, x1_mm, y1_mm]: readonly [number, number, number, number],
  unitCount = 20,
): Run {
  return {
    ...{ id, slot: id, zone: null, unitCount, strip_mm: unitCount * 50 },
    ...{ darkStart_mm: 0, darkFinish_mm: 0, x0_mm, y0_mm, x1_mm, y1_mm },
    ...{ pieces: [], jointLines: [], feedPoints: [] },
  };
}

/** The feed points of a run; throws where they are refused. */
export function feedPoints(
  run: Run,
  arrangement: Job['feeds']['arrangement'],
  { betweenCount = 1, cutLines = [] }: { betweenCount?: number; cutLines?: number[] } = {},
): FeedPoint[] {
  const points = feedPointsOf(run, { arrangement, betweenCount, cutLines });
  if (!points.ok) throw new Error(points.issues[0]?.sentence);
  return points.value;
}

/** The same run fed in a named way. */
export const fedRun = (
  id: string,
  ends: readonly [number, number, number, number],
  arrangement: Job['feeds']['arrangement'] = 'start',
): Run => {
  const run = bareRun(id, ends);
  return { ...run, feedPoints: feedPoints(run, arrangement) };
};
