import { type CircuitDescription, pairedCable } from '../../src/circuit/description.ts';
import { planCircuit, solveCircuit, solvePlanned } from '../../src/circuit/solve-circuit.ts';
import { stripRun } from '../circuit/examples.ts';
import { simulate, startSimulator } from '../circuit/netlist.ts';

const unitsPerRun = 44;

/** A wall of radial runs of 44 units on one source, with leads of many lengths. */
function wall(runCount: number): CircuitDescription {
  const runs = Array.from({ length: runCount }, (_, r) => stripRun(`r${r}`, unitsPerRun));
  const cables = runs.map(({ id }, r) =>
    pairedCable({
      id: `c${r}`,
      channels: ['white'],
      from: { source: 'driver' },
      to: { run: id, cutLine: 0 },
      length_m: 1 + (r % 60) / 10,
      ohm_per_m: 0.0133,
      contact_ohm: 0.004,
    }),
  );
  return { sources: [{ id: 'driver', set_V: 24 }], taps: [], runs, cables };
}

const must = <T>(outcome: { ok: true; value: T } | { ok: false }): T => {
  if (!outcome.ok) throw new Error('the bench circuit was refused');
  return outcome.value;
};

function milliseconds(times: number, work: (turn: number) => void): { median: number; least: number } {
  const spans = Array.from({ length: times }, (_, turn) => {
    const before = performance.now();
    work(turn);
    return performance.now() - before;
  }).sort((a, b) => a - b);
  return { median: spans[times >> 1]!, least: spans[0]! };
}

const show = ({ median, least }: { median: number; least: number }): string =>
  `${median.toFixed(2)} ms median, ${least.toFixed(2)} ms least`;

/**
 * Prints the time of the first solution in this process, of later ones from cold, of a solution after one change,
 * the simulator's own time on the same wall, and the time per unit from 10 to 10,000 runs.
 */
export async function benchCircuit(): Promise<void> {
  const sixty = wall(60);
  console.log(`circuit: 60 runs of ${unitsPerRun} units, ${60 * unitsPerRun} loads`);
  console.log(`  first solution of the process: ${show(milliseconds(1, () => must(solveCircuit(sixty))))}`);
  const cold = milliseconds(300, () => must(solveCircuit(sixty)));
  console.log(`  from cold, 300 times: ${show(cold)}`);

  const plan = must(planCircuit(sixty));
  let { departure_V } = must(solvePlanned(plan, sixty));
  const changed = milliseconds(300, (turn) => {
    departure_V = must(solvePlanned(plan, wallWith(sixty, 24 + (turn % 7) / 20), departure_V)).departure_V;
  });
  console.log(`  solved again after one change, 300 times: ${show(changed)}`);

  // At the tolerances of the tests, where the two agree to 1e-9 V.
  const simulator = await startSimulator();
  const theirs: number[] = [];
  for (let turn = 0; turn < 8; turn++) theirs.push((await simulate(simulator, sixty)).solve_ms);
  theirs.sort((a, b) => a - b);
  const simulator_ms = { median: theirs[4]!, least: theirs[0]! };
  console.log(`  general circuit simulator, 8 times: ${show(simulator_ms)}`);
  for (const which of ['least', 'median'] as const) {
    const [fromCold, again] = [cold, changed].map((ours) => (simulator_ms[which] / ours[which]).toFixed(0));
    console.log(`  ratio of the ${which}: ${fromCold} from cold, ${again} after a change`);
  }

  for (const runCount of [10, 100, 1000, 10_000]) {
    const description = wall(runCount);
    const span = milliseconds(Math.max(5, 3000 / runCount), () => must(solveCircuit(description)));
    const perUnit_us = (1000 * span.least) / (runCount * unitsPerRun);
    console.log(`  ${runCount} runs: ${show(span)}, ${perUnit_us.toFixed(2)} us a unit`);
  }
}

/** The wall with its driver set to other volts. */
function wallWith(description: CircuitDescription, set_V: number): CircuitDescription {
  return { ...description, sources: description.sources.map((source) => ({ ...source, set_V })) };
}
