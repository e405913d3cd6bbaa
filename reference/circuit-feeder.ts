import { type CircuitDescription, pairedCable, type Run } from '../src/circuit/description.ts';
import { buildNetwork } from '../src/circuit/network.ts';
import { planNetwork } from '../src/circuit/network-plan.ts';
import { findOperatingPoint } from '../src/circuit/operating-point.ts';
import { followCopper } from '../src/circuit/reach.ts';
import { type CircuitSolution, readSolution } from '../src/circuit/solution.ts';
import type { StripLaw } from '../src/circuit/strip-law.ts';

/**
 * Solves a circuit without the rules that keep strips to extra-low voltage: the textbooks' feeders are street
 * mains of 220 to 500 V, and the network is the same.
 */
export function solveTextbook(description: CircuitDescription): CircuitSolution {
  const network = buildNetwork(description, followCopper(description));
  const plan = planNetwork(network);
  const { ok, point } = findOperatingPoint(network, plan);
  if (!ok) throw new Error('a reference circuit has no operating point');
  return readSolution(description, network, plan, point);
}

/** A load that draws the same current at any volts met here. */
export function constantCurrent(amps: number): StripLaw {
  return {
    kind: 'regulated',
    nominal_V: 10,
    unit_W: 10 * amps,
    lampsInSeries: 1,
    lampForward_V: 2,
    slope_V: 0.075,
    dropout_V: 1,
  };
}

/** A load that draws `amps * (V - knee)/(nominal - knee)`: lamps so steep that they have volts but no slope. */
export function straightLine(of: { nominal_V: number; knee_V: number; amps: number }): StripLaw {
  return {
    kind: 'resistor',
    nominal_V: of.nominal_V,
    unit_W: of.nominal_V * of.amps,
    lampsInSeries: 6,
    lampForward_V: Math.max(of.knee_V / 6, 1e-6),
    slope_V: Math.max(of.knee_V / 6, 1e-6) / 600,
  };
}

/** A feeder as a run: units of `length_m / unitCount`, the given ohms a metre in each wire, at 25 degC. */
export function feeder(of: {
  length_m: number;
  unitCount: number;
  wire_ohm_per_m: number;
  law: StripLaw;
}): Run {
  const at20_ohm_per_m = of.wire_ohm_per_m / (1 + 0.00393 * 5);
  return {
    id: 'feeder',
    unitCount: of.unitCount,
    unitLength_m: of.length_m / of.unitCount,
    positiveRail_ohm_per_m: at20_ohm_per_m,
    channels: [{ id: 'load', returnRail_ohm_per_m: at20_ohm_per_m, law: of.law, level: 1 }],
    strip_degC: 25,
    joints: [],
  };
}

/** Feeds a run at its ends, each from a source of its own, by leads of `lead_ohm` in each wire. */
export function fedFrom(run: Run, start_V: number, finish_V?: number, lead_ohm = 0): CircuitDescription {
  const ends = [
    { id: 'start', set_V: start_V, cutLine: 0 },
    ...(finish_V === undefined ? [] : [{ id: 'finish', set_V: finish_V, cutLine: run.unitCount }]),
  ];
  return {
    sources: ends.map(({ id, set_V }) => ({ id, set_V })),
    taps: [],
    runs: [run],
    cables: ends.map(({ id, cutLine }) =>
      pairedCable({
        id,
        channels: ['load'],
        from: { source: id },
        to: { run: run.id, cutLine },
        length_m: 1,
        ohm_per_m: lead_ohm,
        contact_ohm: 0,
      }),
    ),
  };
}

/**
 * A two-wire main with single loads at distances from its source: a trunk with a tap at each load; a load may say what
 * other wire leads to it.
 */
export function pointLoads(of: {
  source_V: number;
  wire_ohm_per_m: number;
  loads: readonly { at_m: number; amps: number; wire_ohm_per_m?: number }[];
}): CircuitDescription {
  const channels = ['load'];
  const runs = of.loads.map(({ amps }, i) => ({
    ...feeder({ length_m: 1e-3, unitCount: 1, wire_ohm_per_m: 1e-9, law: constantCurrent(amps) }),
    id: `load-${i}`,
  }));
  const trunk = of.loads.map(({ at_m, wire_ohm_per_m = of.wire_ohm_per_m }, i) => {
    const from = i === 0 ? { source: 'main' } : { tap: `tap-${i - 1}` };
    const length_m = at_m - (of.loads[i - 1]?.at_m ?? 0);
    const end = { channels, contact_ohm: 0, ohm_per_m: wire_ohm_per_m };
    return pairedCable({ id: `trunk-${i}`, from, to: { tap: `tap-${i}` }, length_m, ...end });
  });
  const drops = of.loads.map((_, i) => {
    const to = { run: `load-${i}`, cutLine: 0 };
    return pairedCable({
      id: `drop-${i}`,
      channels,
      from: { tap: `tap-${i}` },
      to,
      length_m: 0,
      ohm_per_m: 0,
      contact_ohm: 0,
    });
  });
  return {
    sources: [{ id: 'main', set_V: of.source_V }],
    taps: of.loads.map((_, i) => ({ id: `tap-${i}` })),
    runs,
    cables: [...trunk, ...drops],
  };
}
