import { found, type Outcome, refused } from '../outcome.ts';
import { type FeedArrangement, fedRun, type Lead } from './arrangements.ts';
import { resistanceAt } from './copper.ts';
import type { Cable, CircuitDescription, Conductor, Run } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import type { CircuitSolution } from './solution.ts';
import { planCircuit, solveCircuit, solvePlanned } from './solve-circuit.ts';

/** What must not be passed: the drop as a part of nominal volts, or the fall of light along any run; 0 to 1. */
export interface Limit {
  readonly on: 'drop' | 'light fall';
  readonly ratio: number;
}

/** The worst run's figure on which a limit stands. */
export function reached(solution: CircuitSolution, limit: Limit): number {
  return Math.max(...solution.runs.map((run) => (limit.on === 'drop' ? run.dropRatio : run.lightFall)));
}

/** A run fed alone from one driver. */
export interface FedRun {
  readonly run: Run;
  readonly set_V: number;
  readonly arrangement: FeedArrangement;
  readonly lead: Lead;
}

/** Longest run looked for; 5,000 units of 50 mm are 250 m. */
const mostUnits = 5000;

export interface LongestRun {
  readonly unitCount: number;
  readonly length_m: number;
  /** What the limit's figure is at this length. */
  readonly reached: number;
  /** What it is with one more cut unit: over the limit, or absent where nothing so long was looked at. */
  readonly oneMore?: number;
}

/**
 * Longest run, in whole cut units, that keeps within a limit in the given feed arrangement; joints are left out.
 *
 * Doubles the length until the limit is passed, then halves the interval. Both figures grow with length, so the
 * answer is the longest; `oneMore` proves that it is. Up to 5,000 units.
 * Refusals: `nothing-is-enough` where a single unit is over the limit; as `solveCircuit`.
 * Check: `tests/circuit/inverse.test.ts` (closed form of the uniform load; one more unit fails).
 */
export function longestRun(of: FedRun, limit: Limit): Outcome<LongestRun, CircuitIssue> {
  const at = (unitCount: number): Outcome<number, CircuitIssue> => {
    const solved = solveCircuit(fedRun({ ...of, run: { ...of.run, unitCount, joints: [] } }));
    return solved.ok ? found(reached(solved.value, limit)) : solved;
  };
  const single = at(1);
  if (!single.ok) return single;
  if (single.value > limit.ratio) {
    return refused(nothingIsEnough(limit, single.value, 'Use a thicker or shorter lead, or a looser limit.'));
  }
  let passes = { unitCount: 1, reached: single.value };
  let fails: typeof passes | undefined;
  while (passes.unitCount + 1 < (fails?.unitCount ?? mostUnits + 1)) {
    const next =
      fails === undefined
        ? Math.min(2 * passes.unitCount, mostUnits)
        : Math.floor((passes.unitCount + fails.unitCount) / 2);
    const tried = at(next);
    if (!tried.ok) return tried;
    if (tried.value <= limit.ratio) passes = { unitCount: next, reached: tried.value };
    else fails = { unitCount: next, reached: tried.value };
  }
  const length_m = passes.unitCount * of.run.unitLength_m;
  return found({ ...passes, length_m, ...(fails === undefined ? {} : { oneMore: fails.reached }) });
}

/** A size of cable: what it is called, and the resistance of one of its conductors at 20 degC. */
interface CableSize {
  readonly id: string;
  readonly ohm_per_m: number;
}

interface TriedSize {
  readonly id: string;
  readonly reached: number;
}

export interface LeastSize extends TriedSize {
  /** All sizes asked for, as they were given, with what each reaches. */
  readonly tried: readonly TriedSize[];
}

/**
 * The first of some sizes, thinnest first, with which the named cables keep every run within a limit.
 * Resistances are taken at the given conductor temperature; the other cables stay as described.
 * Refusals: `nothing-is-enough` where the largest size is not; as `solveCircuit`.
 * Volt drop only: the current-carrying capacity is `cableCapacity`'s question.
 */
export function leastCableSize(
  description: CircuitDescription,
  of: {
    readonly cables: readonly string[];
    readonly conductor_degC: number;
    readonly limit: Limit;
    /** The thinnest first. */
    readonly sizes: readonly CableSize[];
  },
): Outcome<LeastSize, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  const tried: TriedSize[] = [];
  for (const { id, ohm_per_m: at20_ohm_per_m } of of.sizes) {
    const ohm_per_m = resistanceAt(at20_ohm_per_m, of.conductor_degC);
    const cables = description.cables.map((cable) =>
      of.cables.includes(cable.id) ? withResistance(cable, ohm_per_m) : cable,
    );
    const solved = solvePlanned(planned.value, { ...description, cables });
    if (!solved.ok) return solved;
    tried.push({ id, reached: reached(solved.value, of.limit) });
  }
  const least = tried.find((one) => one.reached <= of.limit.ratio);
  if (least !== undefined) return found({ ...least, tried });
  const best = Math.min(...tried.map((one) => one.reached));
  return refused(
    nothingIsEnough(of.limit, best, 'Shorten the cables, feed the runs at more points, or use less power.'),
  );
}

function withResistance(cable: Cable, ohm_per_m: number): Cable {
  const changed = <C extends Conductor>(conductor: C): C => ({ ...conductor, ohm_per_m });
  return { ...cable, positive: changed(cable.positive), returns: cable.returns.map(changed) };
}

export interface FeedPoints {
  readonly feedCount: number;
  readonly arrangement: FeedArrangement;
  readonly reached: number;
  /** Best arrangement of each number of feed points, from one upwards. */
  readonly tried: readonly {
    readonly feedCount: number;
    readonly arrangement: FeedArrangement;
    readonly reached: number;
  }[];
}

/**
 * Least number of feed points with which a run keeps within a limit, each with a lead like the one given.
 * Of each number it takes the better arrangement: one end or the middle; both ends or two between; and so on.
 * @param of.mayFeedBetween false leaves only the ends
 * @param of.mostFeeds where the search ends, 1 or more
 * Refusals: `nothing-is-enough`; as `solveCircuit`.
 */
export function leastFeedPoints(
  of: Omit<FedRun, 'arrangement'> & { readonly mayFeedBetween: boolean; readonly mostFeeds: number },
  limit: Limit,
): Outcome<FeedPoints, CircuitIssue> {
  const tried: FeedPoints['tried'][number][] = [];
  for (
    let feedCount = 1;
    feedCount <= (of.mayFeedBetween ? of.mostFeeds : Math.min(2, of.mostFeeds));
    feedCount++
  ) {
    let best: (typeof tried)[number] | undefined;
    for (const arrangement of candidates(feedCount, of.mayFeedBetween)) {
      const solved = solveCircuit(fedRun({ ...of, arrangement }));
      if (!solved.ok) return solved;
      const value = reached(solved.value, limit);
      if (best === undefined || value < best.reached) best = { feedCount, arrangement, reached: value };
    }
    tried.push(best!);
    if (best!.reached <= limit.ratio) return found({ ...best!, tried });
  }
  const least = Math.min(...tried.map((one) => one.reached));
  return refused(
    nothingIsEnough(limit, least, 'Use thicker leads, a strip with more copper, or less power.'),
  );
}

function candidates(feedCount: number, mayFeedBetween: boolean): readonly FeedArrangement[] {
  const ends: FeedArrangement =
    feedCount === 1
      ? { kind: 'start' }
      : feedCount === 2
        ? { kind: 'both' }
        : { kind: 'ends-and-between', feedCount };
  return mayFeedBetween ? [ends, { kind: 'between', feedCount }] : [ends];
}

export interface SetVolts {
  readonly set_V: number;
  /** Volts of the lowest and highest unit, each as a part of its strip's nominal. */
  readonly lowestRatio: number;
  readonly highestRatio: number;
  readonly solution: CircuitSolution;
}

/**
 * Volts to set at the drivers, all alike, so that the wall stands evenly about nominal: half-way between its
 * lowest and its highest unit, each taken as a part of its own nominal volts, lies 1.
 * @param reach lowest and highest volts that the drivers can be set to
 * Refusals: `volts-out-of-reach`, as `solveCircuit`.
 * Source: the half-way point only rises with the volts, so false position (Illinois) brackets it.
 */
export function voltsForMiddle(
  description: CircuitDescription,
  reach: { readonly from_V: number; readonly to_V: number },
): Outcome<SetVolts, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  const at = (set_V: number): Outcome<SetVolts, CircuitIssue> => {
    const sources = description.sources.map((source) => ({ ...source, set_V }));
    const solved = solvePlanned(planned.value, { ...description, sources });
    return solved.ok
      ? found({ set_V, ...extremes(description, solved.value), solution: solved.value })
      : solved;
  };
  const off = ({ lowestRatio, highestRatio }: SetVolts): number => (lowestRatio + highestRatio) / 2 - 1;
  const [low, high] = [at(reach.from_V), at(reach.to_V)];
  if (!low.ok) return low;
  if (!high.ok) return high;
  if (off(low.value) > 0 || off(high.value) < 0) return refused(outOfReach(reach, low.value, high.value));
  let [a, b] = [
    { x: reach.from_V, y: off(low.value) },
    { x: reach.to_V, y: off(high.value) },
  ];
  let best = -a.y < b.y ? low.value : high.value;
  for (let tries = 0; tries < 60 && Math.abs(off(best)) > 1e-9; tries++) {
    const tried = at((a.x * b.y - b.x * a.y) / (b.y - a.y));
    if (!tried.ok) return tried;
    best = tried.value;
    const next = { x: best.set_V, y: off(best) };
    if (next.y > 0) [a, b] = [{ ...a, y: a.y / 2 }, next];
    else [a, b] = [next, { ...b, y: b.y / 2 }];
  }
  return found(best);
}

function extremes(
  description: CircuitDescription,
  solution: CircuitSolution,
): Pick<SetVolts, 'lowestRatio' | 'highestRatio'> {
  const channels = solution.runs.flatMap((run, r) =>
    run.channels.map((channel, c) => ({
      channel,
      nominal_V: description.runs[r]!.channels[c]!.law.nominal_V,
    })),
  );
  return {
    lowestRatio: Math.min(...channels.map(({ channel, nominal_V }) => channel.lowest_V / nominal_V)),
    highestRatio: Math.max(...channels.map(({ channel, nominal_V }) => channel.highest_V / nominal_V)),
  };
}

function outOfReach(reach: { from_V: number; to_V: number }, low: SetVolts, high: SetVolts): CircuitIssue {
  const middle = (one: SetVolts): number => (one.lowestRatio + one.highestRatio) / 2;
  const wanted_V =
    reach.from_V + ((1 - middle(low)) * (reach.to_V - reach.from_V)) / (middle(high) - middle(low));
  return {
    code: 'volts-out-of-reach',
    place: {},
    quantities: { wanted_V, ...reach },
    sentence: `The drivers would have to be set to about ${wanted_V.toFixed(1)} V, outside their ${reach.from_V} to ${reach.to_V} V. Reduce the volt drop, or choose drivers with another range.`,
  };
}

function nothingIsEnough(limit: Limit, best: number, cure: string): CircuitIssue {
  return {
    code: 'nothing-is-enough',
    place: {},
    quantities: { limit: limit.ratio, reached: best },
    sentence: `The ${limit.on} cannot be kept within ${(100 * limit.ratio).toFixed(1)} %: the best that was found is ${(100 * best).toFixed(1)} %. ${cure}`,
  };
}
