import { type CircuitDescription, pairedCable } from '../../src/circuit/description.ts';
import { planCircuit, solveCircuit, solvePlanned } from '../../src/circuit/solve-circuit.ts';
import { stripRun } from '../circuit/examples.ts';
import { simulate, startSimulator } from '../circuit/netlist.ts';
import { processor_ms } from './times.ts';

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

/** The wall with its driver set to other volts. */
function wallWith(description: CircuitDescription, set_V: number): CircuitDescription {
  return { ...description, sources: description.sources.map((source) => ({ ...source, set_V })) };
}

const must = <T>(outcome: { ok: true; value: T } | { ok: false }): T => {
  if (!outcome.ok) throw new Error('the bench circuit was refused');
  return outcome.value;
};

/** Processor times of a piece of work, shortest first, ms. */
const times_ms = (count: number, work: (turn: number) => void): number[] =>
  Array.from({ length: count }, (_, turn) => processor_ms(() => work(turn))).sort((a, b) => a - b);

const median = (sorted: readonly number[]): number => sorted[sorted.length >> 1]!;
const sort = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const show = (sorted: readonly number[]): string =>
  `${median(sorted).toFixed(2)} ms median, ${sorted[0]!.toFixed(2)} ms least`;

/**
 * Prints the processor time of the first solution in this process, of later ones from cold, of a solution after one change,
 * the simulator's own time on the same wall, and the time per unit from 10 to 10,000 runs.
 */
export async function benchCircuit(): Promise<void> {
  const sixty = wall(60);
  console.log(`circuit: 60 runs of ${unitsPerRun} units, ${60 * unitsPerRun} loads`);
  console.log(
    `  first solution of the process: ${times_ms(1, () => must(solveCircuit(sixty)))[0]!.toFixed(1)} ms`,
  );
  await benchAgainstSimulator(sixty);
  benchGrowth();
}

/** Time per unit of walls of 10 to 10,000 runs, each size in every turn. */
function benchGrowth(): void {
  const sizes = [10, 100, 1000, 10_000].map((runCount) => ({
    runCount,
    description: wall(runCount),
    times: [] as number[],
  }));
  for (let turn = 0; turn < 4; turn++) {
    for (const { runCount, description, times } of sizes) {
      times.push(...times_ms(Math.max(2, 2000 / runCount), () => must(solveCircuit(description))));
    }
  }
  for (const { runCount, times } of sizes) {
    const sorted = sort(times);
    const perUnit_us = (1000 * sorted[0]!) / (runCount * unitsPerRun);
    console.log(`  ${runCount} runs: ${show(sorted)}, ${perUnit_us.toFixed(2)} us a unit`);
  }
}

/**
 * The wall from cold, again after one change, and by the simulator, turn by turn: a shared machine changes its pace
 * from second to second, and within a turn the three meet the same, so that their ratio holds.
 */
async function benchAgainstSimulator(description: CircuitDescription): Promise<void> {
  const plan = must(planCircuit(description));
  let { departure_V } = must(solvePlanned(plan, description));
  const solveChanged = (turn: number): void => {
    const changed = wallWith(description, 24 + (turn % 7) / 20);
    departure_V = must(solvePlanned(plan, changed, departure_V)).departure_V;
  };
  // At the tolerances of the tests, where the two agree to 1e-9 V.
  const simulator = await startSimulator();
  const [cold, changed, theirs]: [number[], number[], number[]] = [[], [], []];
  const [coldRatios, changedRatios]: [number[], number[]] = [[], []];
  for (let turn = 0; turn < 10; turn++) {
    const fromCold = times_ms(120, () => must(solveCircuit(description)));
    const again = times_ms(120, solveChanged);
    const simulator_ms = (await simulate(simulator, description)).solve_ms;
    cold.push(...fromCold);
    changed.push(...again);
    theirs.push(simulator_ms);
    coldRatios.push(simulator_ms / median(fromCold));
    changedRatios.push(simulator_ms / median(again));
  }
  console.log(`  from cold: ${show(sort(cold))}`);
  console.log(`  solved again after one change: ${show(sort(changed))}`);
  console.log(`  general circuit simulator: ${show(sort(theirs))}`);
  const ratio = (of: readonly number[]): string =>
    `${median(sort(of)).toFixed(0)} (${Math.min(...of).toFixed(0)} to ${Math.max(...of).toFixed(0)})`;
  console.log(
    `  times faster, median and range of ten turns: ${ratio(coldRatios)} from cold, ${ratio(changedRatios)} again`,
  );
}
