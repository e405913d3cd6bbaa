import type { CircuitDescription } from '../circuit/description.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { solveCircuit } from '../circuit/solve-circuit.ts';
import { togetherWith } from '../circuit/together.ts';
import { type Deviation, deviate } from '../circuit/tolerance.ts';
import { type StripTemperature, solveWarm } from '../circuit/warm.ts';
import { found, type Outcome } from '../outcome.ts';
import { averagesOfRuns, hottestRun, worstPower_W_per_m } from './circuit-answer.ts';
import { electricalLevels } from './dimming-of-job.ts';
import type { Ends, HeatLaw } from './heat-law.ts';
import type { Settled } from './settle.ts';
import { stripTemperatureOf } from './strip-temperature.ts';
import { extremes, spreadOf } from './tolerance-answer.ts';

/**
 * The circuit at a corner of the tolerances, the strip as warm as its watts make it there. A corner that runs away is
 * solved as warm as described: a wall that near to it fails by its described heat already.
 */
function corner(
  described: CircuitDescription,
  stripTemperature: StripTemperature,
  deviation: Deviation,
): Outcome<CircuitSolution, CircuitIssue> {
  const description = deviate(described, deviation);
  const warm = solveWarm(description, stripTemperature);
  return warm.ok ? found(warm.value.circuit) : solveCircuit(description);
}

/** The run with the unit that draws most among those limited to the same levels, of each such levels. */
function hottestOfEachLevel({ solution, wired }: Settled): string[] {
  const { job, products, runs } = wired;
  const averages = averagesOfRuns(wired);
  const levels = runs.map(({ id, zone }) =>
    [averages(id), ...electricalLevels(job, products, zone)].join(' '),
  );
  return [...new Set(levels)].map((level) => {
    const alike = solution.runs.filter((_, i) => levels[i] === level);
    return hottestRun({ runs: alike }, products.strip.unitsPerMetre).id;
  });
}

/**
 * Watts per metre of the unit that draws most, least and greatest over the tolerances of driver, copper, cable and lamps:
 * every one of them raises or lowers the watts by itself, so that both ends are at a corner. Only what hangs together
 * with that unit's run is solved: all copper changes by the same factors, so that no other run overtakes it, unless its zone is
 * limited to other levels; then there is such a unit of each.
 *
 * Wider than the load band by what the strip warms in between. Refuses as `solveCircuit`.
 * Check: `tests/sizing/watts-band.test.ts`, against the load band of the careful answer.
 */
export function wattsBand(settled: Settled, law: HeatLaw): Outcome<Ends, CircuitIssue> {
  const { unitsPerMetre } = settled.wired.products.strip;
  const { dim, bright } = extremes(spreadOf(settled));
  const averages = averagesOfRuns(settled.wired);
  const described = worstPower_W_per_m(settled.solution, unitsPerMetre, averages);
  const stripTemperature = stripTemperatureOf(settled.wired, law);
  let [least, greatest] = [0, described];
  for (const run of hottestOfEachLevel(settled)) {
    const part = togetherWith(settled.description, run);
    const [low, high] = [corner(part, stripTemperature, dim), corner(part, stripTemperature, bright)];
    if (!low.ok) return low;
    if (!high.ok) return high;
    least = Math.max(least, worstPower_W_per_m(low.value, unitsPerMetre, averages));
    greatest = Math.max(greatest, worstPower_W_per_m(high.value, unitsPerMetre, averages));
  }
  return found({ least: Math.min(described, least), greatest });
}
