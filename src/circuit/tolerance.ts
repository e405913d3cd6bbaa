import { type Random, seededRandom } from '../numeric/seeded-random.ts';
import { found, type Outcome } from '../outcome.ts';
import { copperRise_per_K } from './copper.ts';
import type { Cable, CircuitDescription, Conductor, Run } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import type { CircuitSolution } from './solution.ts';
import { planCircuit, solvePlanned } from './solve-circuit.ts';

/** A range that a quantity may lie in. */
interface Range {
  readonly from: number;
  readonly to: number;
}

/** How far real things may be from the described ones. */
export interface Spread {
  /** Volts of the drivers over set volts, such as 0.97 to 1.03. */
  readonly source_ratio: Range;
  /** Copper of strips and cables warmer or colder than described, K. */
  readonly copper_K: Range;
  /** Cable resistance over the described one: maximum described, bare copper from 0.864 (`leastCableRatio`). */
  readonly cable_ratio: Range;
  /** Forward volts of one lamp over the described ones, V, -0.3 to 0.3; all lamps of the job alike, as from one bin. */
  readonly lampShift_V: Range;
  /** Cable lengths over the described ones. */
  readonly length_ratio: Range;
}

const spreadNames = ['source_ratio', 'copper_K', 'cable_ratio', 'lampShift_V', 'length_ratio'] as const;

/** One value of every quantity of a spread. */
export type Deviation = Readonly<Record<(typeof spreadNames)[number], number>>;

/** A figure as described, and the least and greatest it takes at any corner of the spread and any sample. */
export interface Extremes {
  readonly nominal: number;
  readonly least: number;
  readonly greatest: number;
}

export interface ToleranceSolution {
  readonly runs: readonly {
    readonly id: string;
    readonly lowest_V: Extremes;
    readonly drop_V: Extremes;
    readonly dropRatio: Extremes;
    readonly lightFall: Extremes;
  }[];
  readonly sources: readonly {
    readonly id: string;
    readonly current_A: Extremes;
    readonly out_W: Extremes;
  }[];
  readonly cornerCount: number;
  readonly sampleCount: number;
  /** Furthest that any sampled figure lay outside its corners, as a part of their width; 0 where none did. */
  readonly sampleExcess: number;
}

/**
 * Bands of drop, light fall and driver load over every combination of tolerances.
 *
 * Evaluates all corners of the spread (two values of each of five quantities, 32 solutions) and then a seeded
 * sample from inside it. Drop, lowest volts and load rise or fall with each quantity by itself, so their extremes
 * are at corners. So does the light fall of a run fed at one place; fed from two, its dimmest unit can move, and
 * the least fall can lie inside by a little. The bands take in the samples too, and `sampleExcess` says how far
 * any of them lay outside the corners (tried on forty random forests: 0.03 of the width at most, on the low side).
 * Copper warmer by dT has `1 + 0.00393 dT/(1 + 0.00393 (T - 20))` of its resistance, with T the strip's
 * temperature for rails and 20 degC for cables (which is the high side).
 * @param seed whole number, 1 or more; the same seed gives the same sample
 * Refusals: as `solveCircuit`. Check: `tests/circuit/tolerance.test.ts`.
 */
export function tolerate(
  description: CircuitDescription,
  spread: Spread,
  sample: { readonly seed: number; readonly count: number },
): Outcome<ToleranceSolution, CircuitIssue> {
  const planned = planCircuit(description);
  if (!planned.ok) return planned;
  const nominal = solvePlanned(planned.value, description);
  if (!nominal.ok) return nominal;
  const figuresAt = (deviation: Deviation): Outcome<readonly number[], CircuitIssue> => {
    const solved = solvePlanned(planned.value, deviate(description, deviation), nominal.value.departure_V);
    return solved.ok ? found(figures(solved.value)) : solved;
  };
  const middle = figures(nominal.value);
  const least = [...middle];
  const greatest = [...middle];
  const widen = (values: readonly number[]): void => {
    values.forEach((value, i) => {
      least[i] = Math.min(least[i]!, value);
      greatest[i] = Math.max(greatest[i]!, value);
    });
  };
  for (const corner of corners(spread)) {
    const tried = figuresAt(corner);
    if (!tried.ok) return tried;
    widen(tried.value);
  }
  const cornerBands = bandsOf(middle, least, greatest);
  const random = seededRandom(sample.seed);
  let sampleExcess = 0;
  for (let s = 0; s < sample.count; s++) {
    const tried = figuresAt(inside(spread, random));
    if (!tried.ok) return tried;
    widen(tried.value);
    tried.value.forEach((value, i) => {
      sampleExcess = Math.max(sampleExcess, excess(value, cornerBands[i]!));
    });
  }
  const bands = bandsOf(middle, least, greatest);
  return found({
    ...named(nominal.value, bands),
    cornerCount: 2 ** spreadNames.length,
    sampleCount: sample.count,
    sampleExcess,
  });
}

function bandsOf(
  middle: readonly number[],
  least: readonly number[],
  greatest: readonly number[],
): readonly Extremes[] {
  return middle.map((nominal, i) => ({ nominal, least: least[i]!, greatest: greatest[i]! }));
}

/** How far a value lies outside a band, as a part of its width; nothing where rounding explains it. */
function excess(value: number, { least, greatest }: Extremes): number {
  const out = Math.max(least - value, value - greatest);
  return out <= 1e-9 * Math.max(1, Math.abs(value)) ? 0 : out / Math.max(greatest - least, out);
}

/** The figures in one row: four of each run, then two of each source. `named` puts them back. */
function figures(solution: CircuitSolution): readonly number[] {
  return [
    ...solution.runs.flatMap(({ lowest_V, drop_V, dropRatio, lightFall }) => [
      lowest_V,
      drop_V,
      dropRatio,
      lightFall,
    ]),
    ...solution.sources.flatMap(({ current_A, out_W }) => [current_A, out_W]),
  ];
}

function named(
  solution: CircuitSolution,
  bands: readonly Extremes[],
): Pick<ToleranceSolution, 'runs' | 'sources'> {
  const runs = solution.runs.map(({ id }, r) => {
    const [lowest_V, drop_V, dropRatio, lightFall] = bands.slice(4 * r, 4 * r + 4);
    return { id, lowest_V: lowest_V!, drop_V: drop_V!, dropRatio: dropRatio!, lightFall: lightFall! };
  });
  const first = 4 * solution.runs.length;
  const sources = solution.sources.map(({ id }, s) => {
    return { id, current_A: bands[first + 2 * s]!, out_W: bands[first + 2 * s + 1]! };
  });
  return { runs, sources };
}

function corners(spread: Spread): readonly Deviation[] {
  return Array.from({ length: 2 ** spreadNames.length }, (_, corner) =>
    pick((name, i) => ((corner >> i) & 1 ? spread[name].to : spread[name].from)),
  );
}

function inside(spread: Spread, random: Random): Deviation {
  return pick((name) => spread[name].from + random() * (spread[name].to - spread[name].from));
}

function pick(value: (name: (typeof spreadNames)[number], i: number) => number): Deviation {
  return Object.fromEntries(spreadNames.map((name, i) => [name, value(name, i)])) as Record<
    (typeof spreadNames)[number],
    number
  >;
}

/** The circuit with every quantity deviating as given; of the same shape, so that a plan of one serves the other. */
export function deviate(description: CircuitDescription, deviation: Deviation): CircuitDescription {
  const { source_ratio } = deviation;
  return {
    ...description,
    sources: description.sources.map((source) => ({ ...source, set_V: source.set_V * source_ratio })),
    runs: description.runs.map((run) => deviateRun(run, deviation)),
    cables: description.cables.map((cable) => deviateCable(cable, deviation)),
  };
}

function deviateRun(run: Run, { copper_K, lampShift_V }: Deviation): Run {
  const copper = 1 + (copperRise_per_K * copper_K) / (1 + copperRise_per_K * (run.strip_degC - 20));
  return {
    ...run,
    positiveRail_ohm_per_m: run.positiveRail_ohm_per_m * copper,
    channels: run.channels.map((channel) => ({
      ...channel,
      returnRail_ohm_per_m: channel.returnRail_ohm_per_m * copper,
      lampShift_V: (channel.lampShift_V ?? 0) + lampShift_V,
    })),
  };
}

function deviateCable(cable: Cable, { copper_K, cable_ratio, length_ratio }: Deviation): Cable {
  const copper = cable_ratio * (1 + copperRise_per_K * copper_K);
  const changed = <C extends Conductor>(conductor: C): C => ({
    ...conductor,
    length_m: conductor.length_m * length_ratio,
    ohm_per_m: conductor.ohm_per_m * copper,
  });
  return { ...cable, positive: changed(cable.positive), returns: cable.returns.map(changed) };
}
