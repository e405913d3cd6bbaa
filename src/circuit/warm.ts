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
  /** Change of the last round over that of the one before; under 1, or it would not have settled. */
  readonly growth: number;
}

/** Temperature of a run's strip from the watts it turns to heat and light on each metre, degC. */
export type StripTemperature = (run: { readonly id: string; readonly watts_per_m: number }) => number;

const settled_K = 1e-3;
const mostRounds = 200;
/** No strip is made for more; the laws end here too. */
const highest_degC = 150;

/**
 * Solves electricity and heat together: watts warm the strip, which lowers the lamps' forward volts and raises
 * the copper's resistance, which changes the watts; repeated until no temperature moves by more than 1 mK.
 *
 * Each round multiplies what is left of the change by `growth`, about 0.1 for a common strip. Where it is 1 or
 * more there is no state to find: `runs-away`.
 * @param stripTemperature rises with the watts; the description's temperatures are the start
 * Refusals: as `solveCircuit`, and `runs-away` where changes grow three rounds running or pass 150 degC.
 * Source: fixed-point iteration. Check: `tests/circuit/warm.test.ts` against the closed form of one unit.
 */
export function solveWarm(
  description: CircuitDescription,
  stripTemperature: StripTemperature,
): Outcome<WarmSolution, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  let strip_degC = description.runs.map((run) => run.strip_degC);
  let start: Float64Array | undefined;
  let grewCount = 0;
  let [before_K, growth] = [Number.POSITIVE_INFINITY, 0];
  for (let roundCount = 1; roundCount <= mostRounds; roundCount++) {
    const solved = solvePlanned(planned.value, at(description, strip_degC), start);
    if (!solved.ok) return solved;
    const circuit = solved.value;
    start = circuit.departure_V;
    const watts_per_m = circuit.runs.map(({ load_W, copper_W }, r) => {
      const { unitCount, unitLength_m } = description.runs[r]!;
      return (load_W + copper_W) / (unitCount * unitLength_m);
    });
    const next_degC = description.runs.map(({ id }, r) =>
      stripTemperature({ id, watts_per_m: watts_per_m[r]! }),
    );
    const changes_K = next_degC.map((next, r) => Math.abs(next - strip_degC[r]!));
    const lastChange_K = Math.max(...changes_K);
    growth = Number.isFinite(before_K) ? lastChange_K / before_K : 0;
    if (lastChange_K < settled_K) {
      return found({ circuit, strip_degC, watts_per_m, roundCount, lastChange_K, growth }, solved.notes);
    }
    grewCount = growth >= 1 ? grewCount + 1 : 0;
    const hottest = next_degC.indexOf(Math.max(...next_degC));
    const isTooHot = !(next_degC[hottest]! <= highest_degC);
    if (grewCount >= 3 || isTooHot) return refused(runsAway(description, next_degC, hottest, growth));
    strip_degC = next_degC;
    before_K = lastChange_K;
  }
  const hottest = strip_degC.indexOf(Math.max(...strip_degC));
  return refused(runsAway(description, strip_degC, hottest, growth));
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
    sentence: `Run ${id} gets hotter, draws more, and gets hotter still, past ${Math.round(strip_degC[hottest]!)} °C. Use a strip with fewer watts a metre or regulated current, or give it a metal profile that carries the heat away.`,
  };
}
