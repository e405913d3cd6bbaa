import type { CircuitRun } from '../answer/circuit.ts';
import type { DriverOutput } from '../answer/drivers.ts';
import { leastCableRatio, standardAreas_mm2 } from '../circuit/copper.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { planCircuit, solvePlanned } from '../circuit/solve-circuit.ts';
import { type Deviation, deviate, type Extremes, type Spread, tolerate } from '../circuit/tolerance.ts';
import { listOf } from '../numeric/list-of.ts';
import { found, type Outcome } from '../outcome.ts';
import { undimmed, worstChannel } from './channels.ts';
import { circuitLight } from './dimming-of-job.ts';
import { voltTolerance } from './drivers-of-job.ts';
import type { Settled } from './settle.ts';

/** The least that bare copper leaves of the table's resistance in any flexible size: 0.864, at 1.5 and 2.5 mm2. */
const leastFlexibleRatio = Math.min(...standardAreas_mm2.map((area) => leastCableRatio(area, 'class-5')));

/** How far a wall as built may be from the wall as described. */
export function spreadOf(settled: Settled): Spread {
  const tolerance = voltTolerance(settled.allocation, settled.wired.products);
  return {
    source_ratio: { from: 1 - tolerance, to: 1 + tolerance },
    copper_K: { from: -15, to: 15 },
    cable_ratio: { from: leastFlexibleRatio, to: 1 },
    lampShift_V: { from: -0.1, to: 0.1 },
    length_ratio: { from: 0.9, to: 1.05 },
  };
}

function spreadText(spread: Spread): string {
  const percent = Math.round(100 * (spread.source_ratio.to - 1));
  return `Driver volts ±${percent} % (data sheet), copper ±15 K, cable resistance from that of bare copper to the maximum of IEC 60228, forward volts ±0.1 V an LED, cable lengths −10 to +5 % (the last three: judgement). Every corner, and a seeded sample inside.`;
}

/** The corners at which volts, and at which light, of every unit are least and greatest. */
export function extremes(spread: Spread): Record<'dim' | 'bright' | 'low' | 'high', Deviation> {
  const poor = {
    source_ratio: spread.source_ratio.from,
    copper_K: spread.copper_K.to,
    cable_ratio: spread.cable_ratio.to,
    length_ratio: spread.length_ratio.to,
  };
  const good = {
    source_ratio: spread.source_ratio.to,
    copper_K: spread.copper_K.from,
    cable_ratio: spread.cable_ratio.from,
    length_ratio: spread.length_ratio.from,
  };
  const { from, to } = spread.lampShift_V;
  return {
    // Lamps of a low bin draw more and lose more volts; lamps of a high bin draw less and give less light.
    low: { ...poor, lampShift_V: from },
    high: { ...good, lampShift_V: to },
    dim: { ...poor, lampShift_V: to },
    bright: { ...good, lampShift_V: from },
  };
}

type Corners = Record<keyof ReturnType<typeof extremes>, CircuitSolution>;

function solveExtremes(settled: Settled, spread: Spread): Outcome<Corners, CircuitIssue> {
  const plan = planCircuit(settled.description);
  if (!plan.ok) return plan;
  const corners: Partial<Corners> = {};
  for (const [name, deviation] of Object.entries(extremes(spread))) {
    const solved = solvePlanned(
      plan.value,
      deviate(settled.description, deviation),
      settled.solution.departure_V,
    );
    if (!solved.ok) return solved;
    corners[name as keyof Corners] = solved.value;
  }
  return found(corners as Corners);
}

const range = ({ least, greatest }: Extremes) => ({ least, greatest });

/** What the tolerances make of a settled job: bands run by run and output by output. */
export interface ToleranceAnswer {
  readonly text: string;
  readonly runs: readonly NonNullable<CircuitRun['band']>[];
  readonly outputs: ReadonlyMap<string, NonNullable<DriverOutput['band_W']>>;
}

const sample = { seed: 20, count: 8 } as const;

/**
 * Bands of volts, drop, fall and load over every combination of tolerances, and of every unit of every run for
 * the profile. Refuses as `solveCircuit`; a sample that left its band would be a fault of the engine and throws.
 */
export function toleranceAnswer(settled: Settled): Outcome<ToleranceAnswer, CircuitIssue> {
  const spread = spreadOf(settled);
  const bands = tolerate(settled.description, spread, sample);
  if (!bands.ok) return bands;
  const corners = solveExtremes(settled, spread);
  if (!corners.ok) return corners;
  const { job, products, runs } = settled.wired;
  // Of the channel whose volts the answer shows, also where tolerances make another one the worst.
  const shown = settled.solution.runs.map(({ channels }) => channels.indexOf(worstChannel(channels)));
  const volts = (corner: keyof Corners, r: number) =>
    listOf(corners.value[corner].runs[r]!.channels[shown[r]!]!.unit_V);
  const levels = runs.map(({ zone }) => circuitLight(job, products, zone));
  const light = (corner: keyof Corners, r: number) =>
    undimmed(corners.value[corner].runs[r]!.light, levels[r]!);
  const own_W = products.dimmer?.ownLoss_W ?? 0;
  const delivered = ({ least, greatest }: Extremes) => ({ least: least + own_W, greatest: greatest + own_W });
  return found({
    text: spreadText(spread),
    runs: bands.value.runs.map((run, r) => ({
      lowest_V: range(run.lowest_V),
      drop: range(run.dropRatio),
      fall: range(run.lightFall),
      unit_V_least: volts('low', r),
      unit_V_greatest: volts('high', r),
      unit_light_least: light('dim', r),
      unit_light_greatest: light('bright', r),
    })),
    outputs: new Map(bands.value.sources.map((source) => [source.id, delivered(source.out_W)])),
  });
}
