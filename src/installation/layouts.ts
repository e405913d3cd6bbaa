import type { CableEnd } from '../answer/cables.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { alongWay, onWay, runToRun as pathsToRun, reversed, toPad, type WayStart } from './cable-routes.ts';
import type { InstallationIssue } from './issues.ts';
import type { LaidCable, Leg, Point } from './plan.ts';

/** A driver output, the hole its cables leave their place by, and the runs it carries, in the order of the wall. */
export interface OutputToLay extends WayStart {
  readonly id: string;
  readonly runs: readonly Run[];
}

type Layout = Job['cables']['layout'];

const padEnd = (feedPoint: FeedPoint): CableEnd => ({
  kind: 'pad',
  run: feedPoint.run,
  cutLine: feedPoint.cutLine,
  feedPoint: feedPoint.id,
});

/** Cables are called after the run they feed, so that they keep their names while it does. */
const cableOf = (run: Run, feedPoint: FeedPoint): string => {
  const name = run.id.replace(/^S/, 'C');
  return run.feedPoints.length === 1 ? name : `${name}.${run.feedPoints.indexOf(feedPoint) + 1}`;
};

/** What hangs on an output and not on a run is called after the output. */
export const calledAfter = (letter: string, output: string): string => output.replace(/^D/, letter);

function single(
  of: Omit<LaidCable, 'legs'> & Omit<Leg, 'id'> & { readonly conductors: LaidCable['conductors'] },
): LaidCable {
  const { id, kind, output, conductors, ...leg } = of;
  return { id, kind, output, conductors, legs: [{ id, ...leg }] };
}

const start = (output: OutputToLay): CableEnd => ({ kind: 'output', id: output.id });

function radial(output: OutputToLay): LaidCable[] {
  return output.runs.flatMap((run) =>
    run.feedPoints.map((feedPoint) =>
      single({
        id: cableOf(run, feedPoint),
        kind: 'feed',
        output: output.id,
        conductors: feedPoint.conductors,
        from: start(output),
        to: padEnd(feedPoint),
        serves: [feedPoint.id],
        paths: [...alongWay(output, feedPoint.x_mm), ...toPad(feedPoint, run, output.way_mm)],
        tailCount: 2,
      }),
    ),
  );
}

interface Tap {
  readonly id: string;
  readonly x_mm: number;
  readonly feeds: readonly { readonly run: Run; readonly feedPoint: FeedPoint }[];
}

/** One tap on the way for all feed points above or below the same spot, in order along the way. */
function tapsOf(output: OutputToLay): Tap[] {
  const byX = new Map<number, { run: Run; feedPoint: FeedPoint }[]>();
  for (const run of output.runs)
    for (const feedPoint of run.feedPoints) {
      const x_mm = Math.round(feedPoint.x_mm);
      byX.set(x_mm, [...(byX.get(x_mm) ?? []), { run, feedPoint }]);
    }
  return [...byX.values()]
    .sort((a, b) => a[0]!.feedPoint.x_mm - b[0]!.feedPoint.x_mm)
    .map((feeds, i) => ({ id: `${output.id}-T${i + 1}`, x_mm: feeds[0]!.feedPoint.x_mm, feeds }));
}

const tapEnd = (tap: Tap): CableEnd => ({ kind: 'tap', id: tap.id });
const servedFrom = (taps: readonly Tap[]): string[] =>
  taps.flatMap(({ feeds }) => feeds.map(({ feedPoint }) => feedPoint.id));

/** Parts of a trunk from the output through taps in the given order; each serves all taps from there on. */
function spans(output: OutputToLay, taps: readonly Tap[], cable: string): Leg[] {
  return taps.map((tap, i) => {
    const before = taps[i - 1];
    return {
      id: taps.length === 1 ? cable : `${cable}/${i + 1}`,
      from: before ? tapEnd(before) : start(output),
      to: tapEnd(tap),
      serves: servedFrom(taps.slice(i)),
      paths: before ? onWay(before.x_mm, tap.x_mm, output.way_mm) : alongWay(output, tap.x_mm),
      tailCount: (i === 0 ? 1 : 0) + (i === taps.length - 1 ? 1 : 0),
    };
  });
}

function branches(output: OutputToLay, taps: readonly Tap[]): LaidCable[] {
  return taps.flatMap((tap) =>
    tap.feeds.map(({ run, feedPoint }) =>
      single({
        id: cableOf(run, feedPoint),
        kind: 'branch',
        output: output.id,
        conductors: feedPoint.conductors,
        from: tapEnd(tap),
        to: padEnd(feedPoint),
        serves: [feedPoint.id],
        paths: [...onWay(tap.x_mm, feedPoint.x_mm, output.way_mm), ...toPad(feedPoint, run, output.way_mm)],
        tailCount: 2,
      }),
    ),
  );
}

function arm(output: OutputToLay, taps: readonly Tap[], id: string): LaidCable[] {
  if (taps.length === 0) return [];
  return [
    { id, kind: 'trunk', output: output.id, conductors: 'both', legs: spans(output, taps, id) },
    ...branches(output, taps),
  ];
}

/** A trunk to each side of the output that has feed points, with a branch from every tap. */
function trunk(output: OutputToLay): LaidCable[] {
  const taps = tapsOf(output);
  const right = taps.filter((tap) => tap.x_mm >= output.exit.x_mm);
  const left = taps.filter((tap) => tap.x_mm < output.exit.x_mm).reverse();
  const id = calledAfter('T', output.id);
  const isOne = right.length === 0 || left.length === 0;
  return [...arm(output, right, isOne ? id : `${id}a`), ...arm(output, left, isOne ? id : `${id}b`)];
}

/** A trunk through every tap that comes back to the output. */
function ring(output: OutputToLay): LaidCable[] {
  const taps = tapsOf(output);
  const last = taps.at(-1);
  if (!last) return [];
  const id = calledAfter('T', output.id);
  const out = spans(output, taps, id).map((leg, i) => ({
    ...leg,
    id: `${id}/${i + 1}`,
    serves: servedFrom(taps),
    tailCount: i === 0 ? 1 : 0,
  }));
  const back: Leg = {
    id: `${id}/${taps.length + 1}`,
    from: tapEnd(last),
    to: start(output),
    serves: servedFrom(taps),
    paths: reversed(alongWay(output, last.x_mm)),
    tailCount: 1,
  };
  return [
    { id, kind: 'trunk', output: output.id, conductors: 'both', legs: [...out, back] },
    ...branches(output, taps),
  ];
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
function runToRun(output: OutputToLay): LaidCable[] {
  const { runs } = output;
  return runs.map((run, i) => {
    const feedPoint = run.feedPoints[0]!;
    const before = runs[i - 1] && farEnd(runs[i - 1]!);
    return single({
      id: cableOf(run, feedPoint),
      kind: before ? 'run to run' : 'feed',
      output: output.id,
      conductors: 'both',
      from: before ? before.end : start(output),
      to: padEnd(feedPoint),
      serves: runs.slice(i).map((later) => later.feedPoints[0]!.id),
      paths: before
        ? pathsToRun(before, feedPoint, run)
        : [...alongWay(output, feedPoint.x_mm), ...toPad(feedPoint, run, output.way_mm)],
      tailCount: 2,
    });
  });
}

/** Why cable cannot go from run to run; undefined where it can: every run has to be fed at one end. */
export function layoutIssue(runs: readonly Run[]): InstallationIssue | undefined {
  const other = runs.find((run) => run.feedPoints.length !== 1 || run.feedPoints[0]!.at === 'between');
  if (!other) return undefined;
  return {
    code: 'layout-needs-end-feed',
    place: { slot: other.slot, field: 'cables.layout' },
    quantities: { feedPointCount: other.feedPoints.length },
    sentence: `Cable from run to run enters at one end and leaves at the other, but slot ${other.slot} is fed otherwise: feed it at the start or the finish, or choose another cable layout.`,
  };
}

const layoutOf: Readonly<Record<Layout, (output: OutputToLay) => LaidCable[]>> = {
  radial,
  trunk,
  ring,
  'run to run': runToRun,
};

/**
 * The cables of one output in a layout, from the hole in its place to its runs, square along the head run or foot run;
 * what lies inside the place is added when it is known where things stand. A trunk is one cable however many taps it
 * passes, a ring one whose two ends meet the output. Refuses a run-to-run layout with a run that is not fed at one end.
 *
 * Check: `tests/installation/layouts.test.ts`, lengths by hand.
 */
export function layOutput(output: OutputToLay, layout: Layout): Outcome<LaidCable[], InstallationIssue> {
  const issue = layout === 'run to run' ? layoutIssue(output.runs) : undefined;
  return issue ? refused(issue) : found(layoutOf[layout](output));
}
