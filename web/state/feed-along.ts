import type { FeedPoint, Run, SetOut } from '../../src/answer/set-out.ts';
import type { Job } from '../../src/job/job.ts';
import { quantity } from '../format.ts';
import { change } from './history.ts';
import type { Movable, Shift } from './moving.ts';
import type { Store } from './store.ts';

/** A feed point with the run it may be moved along, and the number of the slot by which the job names it. */
export interface FeedAlong {
  readonly point: FeedPoint;
  readonly run: Run;
  readonly slotNumber: number;
}

/** A feed point by its id; a sentence where it cannot be moved by itself, and undefined where it is not there. */
export function feedAlong({ slots, runs }: SetOut, id: string): FeedAlong | string | undefined {
  const run = runs.find(({ feedPoints }) => feedPoints.some((point) => point.id === id));
  const point = run?.feedPoints.find((each) => each.id === id);
  const slot = slots.find((each) => each.id === run?.slot);
  if (!run || !point || !slot) return undefined;
  if (runs.filter(({ slot: of }) => of === run.slot).length > 1)
    return `${run.slot} has several runs, which are fed alike: choose their cut lines under Slots fed another way.`;
  if (point.conductors !== 'both')
    return `${run.id} is fed with one conductor at each end: choose another way of feeding first.`;
  return { point, run, slotNumber: slot.number };
}

/** Where the run is fed by the job as it is typed now, which may be ahead of the answer. */
function cutLinesOf({ feeds }: Job, { run, slotNumber }: FeedAlong): number[] {
  const own = feeds.exceptions.find(({ slot }) => slot === slotNumber);
  const isAhead = own?.arrangement === 'chosen' && own.cutLines.length === run.feedPoints.length;
  return isAhead ? own.cutLines : run.feedPoints.map(({ cutLine }) => cutLine);
}

const turnOf = ({ point, run }: FeedAlong): number => run.feedPoints.findIndex(({ id }) => id === point.id);

/** The cut line at which a feed point stands by the job as it is typed now. */
export const cutLineOf = (job: Job, feed: FeedAlong): number => cutLinesOf(job, feed)[turnOf(feed)]!;

/** `cut line 12 of 90, 200 mm from the start of the strip`. */
export const cutLineText = ({ run }: FeedAlong, cutLine: number): string =>
  `cut line ${cutLine} of ${run.unitCount}, ${quantity((cutLine / run.unitCount) * run.strip_mm, 'mm')} from the start of the strip`;

const kept = ({ run }: FeedAlong, cutLine: number): number =>
  Math.min(run.unitCount, Math.max(0, Math.round(cutLine)));

/** The cut line nearest to where a drag from the feed point has come, measured along the run. */
export function cutLineNear(feed: FeedAlong, { across_mm, up_mm }: Shift): number {
  const { run, point } = feed;
  const [dx, dy] = [run.x1_mm - run.x0_mm, run.y1_mm - run.y0_mm];
  const along = (across_mm * dx + up_mm * dy) / (dx * dx + dy * dy);
  return kept(feed, point.cutLine + along * run.unitCount);
}

/** The shift that brings a feed point onto a cut line. */
export function shiftTo({ run, point }: FeedAlong, cutLine: number): Shift {
  const part = (cutLine - point.cutLine) / run.unitCount;
  return { across_mm: part * (run.x1_mm - run.x0_mm), up_mm: part * (run.y1_mm - run.y0_mm) };
}

/** A feed point as something a drag moves, a box of some size about it. */
export const feedMovable = ({ point: { id, x_mm, y_mm } }: FeedAlong, size_mm: number): Movable => ({
  ...{ key: id, name: id, x_mm: x_mm - size_mm / 2, y_mm: y_mm - size_mm / 2 },
  ...{ width_mm: size_mm, height_mm: size_mm },
  ...{ across: [], up: [] },
});

/**
 * Moves a feed point to a cut line of its run, beyond whose ends it does not go: its slot is then fed at chosen cut lines. Pressing
 * a key again goes on with the same step of undo.
 * @returns where it is now, or why it was not moved
 */
export function moveFeed(store: Store, feed: FeedAlong, to: number, goesOn: boolean): string {
  const { draft } = store.get();
  const { point, slotNumber } = feed;
  const cutLine = kept(feed, to);
  const said = `${point.id}: ${cutLineText(feed, cutLine)}.`;
  if (!draft) return '';
  const [before, turn] = [cutLinesOf(draft.job, feed), turnOf(feed)];
  if (before[turn] === cutLine) return said;
  if (before.includes(cutLine)) return `${point.id} stays: another feed point is at cut line ${cutLine}.`;
  const cutLines = before.map((each, i) => (i === turn ? cutLine : each));
  const { feeds } = draft.job;
  const others = feeds.exceptions.filter(({ slot }) => slot !== slotNumber);
  const own = { slot: slotNumber, arrangement: 'chosen' as const, betweenCount: 1, cutLines };
  const job = { ...draft.job, feeds: { ...feeds, exceptions: [...others, own] } };
  const entries = Object.fromEntries(
    Object.entries(draft.entries).filter(([name]) => !name.startsWith('feeds.exceptions')),
  );
  change(store, { ...draft, job, entries }, goesOn ? `moving ${point.id}` : undefined);
  return said;
}
