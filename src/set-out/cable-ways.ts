import type { CableEnd } from '../answer/cables.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { SetOutIssue } from './issues.ts';

export interface Point {
  readonly x_mm: number;
  readonly y_mm: number;
}

/** One length of cable as laid, before anything electrical is known of it. */
export interface LaidCable {
  readonly id: string;
  readonly from: CableEnd;
  readonly to: CableEnd;
  readonly conductors: FeedPoint['conductors'];
  /** Feed points that draw through this cable. */
  readonly serves: readonly string[];
  readonly route: readonly Point[];
  readonly way_mm: number;
  readonly length_mm: number;
}

/** A driver output, where it sits, and the runs it carries. */
export interface OutputToLay {
  readonly id: string;
  readonly x_mm: number;
  readonly y_mm: number;
  readonly runs: readonly string[];
}

type Cabling = Job['cables'];

/** Height of the cable way: along the top (head run) or the bottom (foot run) of the cavity. */
export function wayHeight_mm(panelHeight_mm: number, cables: Cabling): number {
  return cables.way === 'head' ? panelHeight_mm - cables.wayInset_mm : cables.wayInset_mm;
}

const same = (a: Point, b: Point): boolean => a.x_mm === b.x_mm && a.y_mm === b.y_mm;

/** Square route by the cable way: from a, up or down to the way, along it, and up or down to b. */
function routeByWay(a: Point, b: Point, way_mm: number): Point[] {
  const corners: Point[] = [
    { x_mm: a.x_mm, y_mm: a.y_mm },
    { x_mm: a.x_mm, y_mm: way_mm },
    { x_mm: b.x_mm, y_mm: way_mm },
    { x_mm: b.x_mm, y_mm: b.y_mm },
  ];
  return corners.filter((p, i) => i === 0 || !same(p, corners[i - 1]!));
}

function routeLength_mm(route: readonly Point[]): number {
  return route.slice(1).reduce((sum, p, i) => {
    const q = route[i]!;
    return sum + Math.hypot(p.x_mm - q.x_mm, p.y_mm - q.y_mm);
  }, 0);
}

interface CableToLay {
  readonly from: CableEnd;
  readonly to: CableEnd;
  readonly conductors: FeedPoint['conductors'];
  readonly serves: readonly string[];
  readonly route: readonly Point[];
  readonly tailCount: number;
}

function laid(cable: CableToLay, cables: Cabling, id: string): LaidCable {
  const { tailCount, ...rest } = cable;
  const way_mm = routeLength_mm(cable.route);
  return { ...rest, id, way_mm, length_mm: (way_mm + tailCount * cables.tail_mm) * (1 + cables.allowance) };
}

const padEnd = (feedPoint: FeedPoint): CableEnd => ({
  kind: 'pad',
  run: feedPoint.run,
  cutLine: feedPoint.cutLine,
  feedPoint: feedPoint.id,
});

function radial(output: OutputToLay, feedPoints: readonly FeedPoint[], way_mm: number): CableToLay[] {
  return feedPoints.map((feedPoint) => ({
    from: { kind: 'output', id: output.id },
    to: padEnd(feedPoint),
    conductors: feedPoint.conductors,
    serves: [feedPoint.id],
    route: routeByWay(output, feedPoint, way_mm),
    tailCount: 2,
  }));
}

interface Tap extends Point {
  readonly id: string;
  readonly feedPoints: readonly FeedPoint[];
}

/** One tap on the way for all feed points above or below the same spot, in order along the way. */
function tapsOf(output: OutputToLay, feedPoints: readonly FeedPoint[], way_mm: number): Tap[] {
  const byX = new Map<number, FeedPoint[]>();
  for (const feedPoint of feedPoints) {
    const x_mm = Math.round(feedPoint.x_mm);
    byX.set(x_mm, [...(byX.get(x_mm) ?? []), feedPoint]);
  }
  return [...byX.values()]
    .sort((a, b) => a[0]!.x_mm - b[0]!.x_mm)
    .map((here, i) => ({
      id: `${output.id}-T${i + 1}`,
      x_mm: here[0]!.x_mm,
      y_mm: way_mm,
      feedPoints: here,
    }));
}

const tapEnd = (tap: Tap): CableEnd => ({ kind: 'tap', id: tap.id });
const servedBy = (taps: readonly Tap[]): string[] => taps.flatMap((tap) => tap.feedPoints.map((fp) => fp.id));

/** Spans of trunk from the output through taps in the given order; each serves all taps from there on. */
function spans(output: OutputToLay, taps: readonly Tap[], way_mm: number): CableToLay[] {
  return taps.map((tap, i) => {
    const before = taps[i - 1];
    return {
      from: before ? tapEnd(before) : { kind: 'output', id: output.id },
      to: tapEnd(tap),
      conductors: 'both',
      serves: servedBy(taps.slice(i)),
      route: routeByWay(before ?? output, tap, way_mm),
      tailCount: before ? 0 : 1,
    };
  });
}

function branches(taps: readonly Tap[], way_mm: number): CableToLay[] {
  return taps.flatMap((tap) =>
    tap.feedPoints.map((feedPoint) => ({
      from: tapEnd(tap),
      to: padEnd(feedPoint),
      conductors: feedPoint.conductors,
      serves: [feedPoint.id],
      route: routeByWay(tap, feedPoint, way_mm),
      tailCount: 2,
    })),
  );
}

/** A trunk to each side of the output that has feed points, with a branch from every tap. */
function trunk(output: OutputToLay, feedPoints: readonly FeedPoint[], way_mm: number): CableToLay[] {
  const taps = tapsOf(output, feedPoints, way_mm);
  const right = taps.filter((tap) => tap.x_mm >= output.x_mm);
  const left = taps.filter((tap) => tap.x_mm < output.x_mm).reverse();
  return [...spans(output, right, way_mm), ...spans(output, left, way_mm), ...branches(taps, way_mm)];
}

/** A trunk through every tap that comes back to the output. */
function ring(output: OutputToLay, feedPoints: readonly FeedPoint[], way_mm: number): CableToLay[] {
  const taps = tapsOf(output, feedPoints, way_mm);
  const last = taps.at(-1);
  if (!last) return [];
  const back: CableToLay = {
    from: tapEnd(last),
    to: { kind: 'output', id: output.id },
    conductors: 'both',
    serves: servedBy(taps),
    route: routeByWay(last, output, way_mm),
    tailCount: 1,
  };
  return [...spans(output, taps, way_mm), back, ...branches(taps, way_mm)];
}

interface RunEnd extends Point {
  readonly end: CableEnd;
}

/** The end of a run that its feed point does not use, where a cable leaves for the next run. */
function farEnd(run: Run): RunEnd {
  const finish = run.feedPoints[0]!.at === 'start';
  const cutLine = finish ? run.unitCount : 0;
  return {
    x_mm: finish ? run.x1_mm : run.x0_mm,
    y_mm: finish ? run.y1_mm : run.y0_mm,
    end: { kind: 'pad', run: run.id, cutLine, feedPoint: null },
  };
}

/** From the output into the first run at its feed point, out of its other end into the next run, and so on. */
function runToRun(output: OutputToLay, runs: readonly Run[], way_mm: number): CableToLay[] {
  let here: RunEnd = { ...output, end: { kind: 'output', id: output.id } };
  return runs.map((run, i) => {
    const feedPoint = run.feedPoints[0]!;
    const cable: CableToLay = {
      from: here.end,
      to: padEnd(feedPoint),
      conductors: 'both',
      serves: runs.slice(i).map((later) => later.feedPoints[0]!.id),
      route:
        i === 0
          ? routeByWay(here, feedPoint, way_mm)
          : [here, feedPoint].map(({ x_mm, y_mm }) => ({ x_mm, y_mm })),
      tailCount: 2,
    };
    here = farEnd(run);
    return cable;
  });
}

function endFeedIssue(runs: readonly Run[], layout: Cabling['layout']): SetOutIssue | undefined {
  if (layout !== 'run to run') return undefined;
  const other = runs.find((run) => run.feedPoints.length !== 1 || run.feedPoints[0]!.at === 'between');
  if (!other) return undefined;
  return {
    code: 'layout-needs-end-feed',
    place: { slot: other.slot, field: 'cables.layout' },
    quantities: { feedPointCount: other.feedPoints.length },
    sentence: `Cable from run to run enters at one end and leaves at the other, but slot ${other.slot} is fed otherwise: feed it at the start or the finish, or choose another cable layout.`,
  };
}

function layOutput(
  output: OutputToLay,
  runs: readonly Run[],
  layout: Cabling['layout'],
  way_mm: number,
): CableToLay[] {
  const feedPoints = runs.flatMap((run) => run.feedPoints);
  switch (layout) {
    case 'radial':
      return radial(output, feedPoints, way_mm);
    case 'trunk':
      return trunk(output, feedPoints, way_mm);
    case 'ring':
      return ring(output, feedPoints, way_mm);
    case 'run to run':
      return runToRun(output, runs, way_mm);
  }
}

/**
 * Cables from every output to its runs in the job's layout, square along the head run or foot run, with their
 * lengths: way plus tails at made-off ends, plus the allowance. Refuses a run-to-run layout with runs that are
 * not fed at one end.
 */
export function layCables(
  outputs: readonly OutputToLay[],
  runs: readonly Run[],
  panelHeight_mm: number,
  cables: Cabling,
): Outcome<LaidCable[], SetOutIssue> {
  const issue = endFeedIssue(runs, cables.layout);
  if (issue) return refused(issue);
  const byId = new Map(runs.map((run) => [run.id, run]));
  const way_mm = wayHeight_mm(panelHeight_mm, cables);
  const all = outputs.flatMap((output) =>
    layOutput(
      output,
      output.runs.map((id) => byId.get(id)!),
      cables.layout,
      way_mm,
    ),
  );
  return found(all.map((cable, i) => laid(cable, cables, `C${String(i + 1).padStart(2, '0')}`)));
}
