import { found, type Outcome, refused } from '../outcome.ts';
import type { CircuitDescription } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import type { CircuitSolution } from './solution.ts';
import { planCircuit, solvePlanned } from './solve-circuit.ts';

/** A circuit whose strip temperatures and watts belong together. */
export interface WarmSolution {
  readonly circuit: CircuitSolution;
  /** Of each run, in the order of the description. */
  readonly strip_degC: readonly number[];
  readonly watts_per_m: readonly number[];
  readonly roundCount: number;
  /** Largest change in the last round, K. */
  readonly lastChange_K: number;
  /** How much of a change of temperature comes back after a round, largest of all runs; under 1, or it runs away. */
  readonly growth: number;
}

/** Temperature of a run's strip from the watts it turns to heat and light on each metre, degC. */
export type StripTemperature = (run: { readonly id: string; readonly watts_per_m: number }) => number;

const settled_K = 1e-3;
const mostRounds = 200;
/** No strip is made for more; the laws end here too. */
const highest_degC = 150;

/** Where the secant is trusted; beyond it a plain round shows whether changes die out at all. */
const trustedSlope = 0.9;

/** Temperatures tried in a round, and what the watts there turn them into. */
interface Round {
  readonly tried_degC: readonly number[];
  readonly turned_degC: readonly number[];
}

/** How much of its change comes back to a run, from its last two rounds; 0 where it has not moved. */
function slopeOf(now: Round, before: Round, r: number): number {
  const moved_K = now.tried_degC[r]! - before.tried_degC[r]!;
  return moved_K === 0 ? 0 : (now.turned_degC[r]! - before.turned_degC[r]!) / moved_K;
}

/** What to try next: where the secant of a run's last two rounds meets `turned = tried`, else what came out. */
function nextGuess(now: Round, before: Round | undefined): number[] {
  return now.turned_degC.map((turned_degC, r) => {
    const slope = before ? slopeOf(now, before, r) : 0;
    const change_K = turned_degC - now.tried_degC[r]!;
    return Math.abs(slope) < trustedSlope ? now.tried_degC[r]! + change_K / (1 - slope) : turned_degC;
  });
}

function wattsPerMetre(circuit: CircuitSolution, description: CircuitDescription): number[] {
  return circuit.runs.map(({ load_W, copper_W }, r) => {
    const { unitCount, unitLength_m } = description.runs[r]!;
    return (load_W + copper_W) / (unitCount * unitLength_m);
  });
}

const largest = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, Math.abs(b)), 0);

/**
 * Solves electricity and heat together: watts warm the strip, which lowers the lamps' forward volts and raises
 * the copper's resistance, which changes the watts; repeated until no temperature moves by more than 1 mK.
 *
 * Each round multiplies what is left of the change by `growth`, about 0.1 for a common strip; from the second round
 * on each run is put where its own secant settles. Where growth is 1 or more there is no state to find: `runs-away`.
 * @param stripTemperature rises with the watts; the description's temperatures are the start
 * Refusals: as `solveCircuit`, and `runs-away` where changes grow three rounds running or pass 150 degC.
 * Source: fixed-point iteration with secant steps. Check: `tests/circuit/warm.test.ts` against the closed form of one
 * unit.
 */
export function solveWarm(
  description: CircuitDescription,
  stripTemperature: StripTemperature,
): Outcome<WarmSolution, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  let tried_degC: readonly number[] = description.runs.map((run) => run.strip_degC);
  let start: Float64Array | undefined;
  let before: Round | undefined;
  let [grewCount, growth] = [0, 0];
  for (let roundCount = 1; roundCount <= mostRounds; roundCount++) {
    const solved = solvePlanned(planned.value, at(description, tried_degC), start);
    if (!solved.ok) return solved;
    const circuit = solved.value;
    start = circuit.departure_V;
    const watts_per_m = wattsPerMetre(circuit, description);
    const turned_degC = description.runs.map(({ id }, r) =>
      stripTemperature({ id, watts_per_m: watts_per_m[r]! }),
    );
    const now: Round = { tried_degC, turned_degC };
    const lastChange_K = largest(turned_degC.map((degC, r) => degC - tried_degC[r]!));
    if (before && lastChange_K >= settled_K)
      growth = largest(tried_degC.map((_, r) => slopeOf(now, before!, r)));
    if (lastChange_K < settled_K) {
      const settled = { circuit, strip_degC: tried_degC, watts_per_m, roundCount, lastChange_K, growth };
      return found(settled, solved.notes);
    }
    grewCount = growth >= 1 ? grewCount + 1 : 0;
    const hottest = turned_degC.indexOf(Math.max(...turned_degC));
    const isTooHot = !(turned_degC[hottest]! <= highest_degC);
    if (grewCount >= 3 || isTooHot) return refused(runsAway(description, turned_degC, hottest, growth));
    tried_degC = nextGuess(now, before);
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
