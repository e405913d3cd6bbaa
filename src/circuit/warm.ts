import { found, type Outcome, refused } from '../outcome.ts';
import type { CircuitDescription, Run } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import { type Network, networkAt } from './network.ts';
import { newState, type OperatingPoint, type Search } from './operating-point.ts';
import { type CircuitSolution, readSolution, runWatts } from './solution.ts';
import { type CircuitPlan, operatingPointOf, planCircuit, remarksOn } from './solve-circuit.ts';

/** A circuit whose strip temperatures and watts belong together. */
export interface WarmSolution {
  readonly circuit: CircuitSolution;
  /** The circuit that was solved, every run at its own temperature. */
  readonly description: CircuitDescription;
  /** Of each run, in the order of the description. */
  readonly strip_degC: readonly number[];
  readonly watts_per_m: readonly number[];
  readonly roundCount: number;
  /** Largest change in the last round, K. */
  readonly lastChange_K: number;
  /** How much of the largest change of temperature comes back after a round; under 1, or it runs away. */
  readonly growth: number;
}

/** Temperature of a run's strip from the watts it turns to heat and light on each metre, degC. */
export type StripTemperature = (run: { readonly id: string; readonly watts_per_m: number }) => number;

const settled_K = 1e-3;
/** While temperatures still move by more than this, volts need not be known to the last digit. */
const nearlySettled_K = 30 * settled_K;
const mostRounds = 200;
/** No strip is made for more; the laws end here too. */
const highest_degC = 150;

/** Where what two rounds show is trusted; beyond it a plain round shows whether changes die out at all. */
const trustedGrowth = 0.9;

/** Temperatures tried in a round, and what the watts there turn them into. */
interface Round {
  readonly tried_degC: readonly number[];
  readonly turned_degC: readonly number[];
}

const less = (a: readonly number[], b: readonly number[]): number[] => a.map((value, r) => value - b[r]!);

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, r) => sum + value * b[r]!, 0);

const changeOf = ({ tried_degC, turned_degC }: Round): number[] => less(turned_degC, tried_degC);

/**
 * How much of the largest change comes back, from two rounds; 0 where nothing moved. Of a run by itself it says nothing:
 * one that hardly moved is moved by those that share its cable.
 */
function growthOf(now: Round, before: Round): number {
  const moved_K = largest(less(now.tried_degC, before.tried_degC));
  return moved_K === 0 ? 0 : largest(less(now.turned_degC, before.turned_degC)) / moved_K;
}

/**
 * What to try next: what came out, less the part of its last move that leaves the least change by what two rounds show,
 * `turned - theta (turned - turned before)` with `theta = <d, change>/<d, d>`, `d = change - change before`.
 */
function nextGuess(now: Round, before: Round | undefined): readonly number[] {
  const { turned_degC } = now;
  if (before === undefined || growthOf(now, before) >= trustedGrowth) return turned_degC;
  const changed_K = less(changeOf(now), changeOf(before));
  const size = product(changed_K, changed_K);
  const theta = size > 0 ? product(changed_K, changeOf(now)) / size : 0;
  return turned_degC.map((degC, r) => Math.min(degC - theta * (degC - before.turned_degC[r]!), highest_degC));
}

/** Runs at given temperatures, and their watts per metre there. */
interface Tried {
  readonly network: Network;
  readonly point: OperatingPoint;
  readonly watts_per_m: readonly number[];
}

function tryAt(
  { network: cold, plan }: CircuitPlan,
  runs: readonly Run[],
  search: Search,
): Outcome<Tried, CircuitIssue> {
  const network = networkAt(cold, runs);
  const point = operatingPointOf(network, plan, search);
  if (!point.ok) return point;
  const watts_per_m = runs.map((run, r) => {
    const { load_W, copper_W } = runWatts(run, r, { network, plan, point: point.value });
    return (load_W + copper_W) / (run.unitCount * run.unitLength_m);
  });
  return found({ network, point: point.value, watts_per_m });
}

const largest = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, Math.abs(b)), 0);

/**
 * Solves electricity and heat together: watts warm the strip, which lowers the lamps' forward volts and raises
 * the copper's resistance, which changes the watts; repeated until no temperature moves by more than 1 mK.
 *
 * Each round multiplies what is left of the change by `growth`, about 0.1 for a common strip; from the second round
 * on all runs together are put where two rounds leave the least change. Runs that share a cable are one question: what one
 * draws lowers the volts of the others. Where growth is 1 or more there is no state to find: `runs-away`.
 * @param stripTemperature rises with the watts; the description's temperatures are the start
 * Refusals: as `solveCircuit`, and `runs-away` where changes grow three rounds running or pass 150 degC.
 * Source: fixed-point iteration with the acceleration of Anderson, Iterative procedures for nonlinear integral equations,
 * 1965 (from memory), of depth 1, which for one run is the secant. Check: `tests/circuit/warm.test.ts` against the closed
 * form of one unit, and a long row from run to run against plain rounds.
 */
export function solveWarm(
  description: CircuitDescription,
  stripTemperature: StripTemperature,
): Outcome<WarmSolution, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  const state = newState(planned.value.network, planned.value.plan);
  let tried_degC: readonly number[] = description.runs.map((run) => run.strip_degC);
  let start: Float64Array | undefined;
  let before: Round | undefined;
  let isRough = true;
  let [grewCount, growth] = [0, 0];
  for (let roundCount = 1; roundCount <= mostRounds; roundCount++) {
    const warmed = at(description, tried_degC);
    const tried = tryAt(planned.value, warmed.runs, { start, state, isRough });
    if (!tried.ok) return tried;
    const { network, point, watts_per_m } = tried.value;
    start = point.departure_V;
    const turned_degC = description.runs.map(({ id }, r) =>
      stripTemperature({ id, watts_per_m: watts_per_m[r]! }),
    );
    const now: Round = { tried_degC, turned_degC };
    const lastChange_K = largest(changeOf(now));
    if (before && lastChange_K >= settled_K) growth = growthOf(now, before);
    if (lastChange_K < settled_K && !isRough) {
      const circuit = readSolution(warmed, network, planned.value.plan, point);
      const settled = { circuit, description: warmed, strip_degC: tried_degC, watts_per_m };
      return found({ ...settled, roundCount, lastChange_K, growth }, remarksOn(circuit));
    }
    grewCount = growth >= 1 ? grewCount + 1 : 0;
    const hottest = turned_degC.indexOf(Math.max(...turned_degC));
    const isTooHot = !(turned_degC[hottest]! <= highest_degC);
    if (grewCount >= 3 || isTooHot) return refused(runsAway(description, turned_degC, hottest, growth));
    tried_degC = nextGuess(now, before);
    isRough = lastChange_K > nearlySettled_K;
    before = now;
  }
  const hottest = tried_degC.indexOf(Math.max(...tried_degC));
  return refused(runsAway(description, tried_degC, hottest, growth));
}

function at(description: CircuitDescription, strip_degC: readonly number[]): CircuitDescription {
  return { ...description, runs: description.runs.map((run, r) => ({ ...run, strip_degC: strip_degC[r]! })) };
}

function runsAway(
  description: CircuitDescription,
  strip_degC: readonly number[],
  hottest: number,
  growth: number,
): CircuitIssue {
  const { id } = description.runs[hottest]!;
  return {
    code: 'runs-away',
    place: { run: id },
    quantities: { strip_degC: strip_degC[hottest]!, growth },
    sentence: `Run ${id} gets hotter, draws more, and gets hotter still, past ${Math.round(strip_degC[hottest]!)} °C. Use a strip with fewer watts a metre or regulated current, or carry its heat away with a wider or thicker aluminium flat or profile.`,
  };
}
