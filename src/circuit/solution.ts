import type { Channel, CircuitDescription, Run, Terminal } from './description.ts';
import { linkLoss_W } from './ladder-links.ts';
import type { Network, RunPlaces } from './network.ts';
import type { NetworkPlan } from './network-plan.ts';
import { conductorBase_V, type OperatingPoint } from './operating-point.ts';
import {
  coolLaw,
  current_A,
  lightHolds,
  nominalCurrent_A,
  relativeLight,
  thermalLight,
} from './strip-law.ts';

/** Volts, amps and light of one channel of one run. Arrays run from the start of the run to its finish. */
export interface ChannelSolution {
  readonly id: string;
  /** Volts across each unit. */
  readonly unit_V: Float64Array;
  /** Current of each unit, averaged over the dimming period. */
  readonly unit_A: Float64Array;
  /** Light of each unit relative to one at nominal, dimming included. */
  readonly light: Float64Array;
  /** Potential of the return rail at each cut line, counted from the driver's minus. */
  readonly returnPad_V: Float64Array;
  readonly lowest_V: number;
  readonly highest_V: number;
  /** The unit with the lowest volts, counted from 0 at the start. */
  readonly lowestUnit: number;
  readonly highestUnit: number;
  /** From the driver's volts to the lowest unit. */
  readonly drop_V: number;
  /** The drop as a part of the strip's nominal volts. */
  readonly dropRatio: number;
  /** Units whose current while lit is outside 25 to 130 % of nominal, where the light law does not hold. */
  readonly unitsOutsideLightLawCount: number;
}

export interface RunSolution {
  readonly id: string;
  /** Potential of the positive rail at each cut line, counted from the driver's minus. */
  readonly positivePad_V: Float64Array;
  readonly channels: readonly ChannelSolution[];
  /** Light of each unit, all channels together, relative to all at nominal. */
  readonly light: Float64Array;
  readonly load_W: number;
  /** Lost in both rails and in joints. */
  readonly copper_W: number;
  /** Figures of the channel that is worst in each. */
  readonly lowest_V: number;
  readonly drop_V: number;
  readonly dropRatio: number;
  /** How much less light the dimmest unit gives than the brightest, all channels together, 0 to 1. */
  readonly lightFall: number;
}

interface ConductorSolution {
  /** Positive current flows the way it should: out along the positive, home along the return. */
  readonly current_A: number;
  readonly from_V: number;
  readonly to_V: number;
  readonly lost_W: number;
}

export interface CableSolution {
  readonly id: string;
  readonly positive: ConductorSolution;
  /** In the order of the description's returns. */
  readonly returns: readonly ConductorSolution[];
  readonly lost_W: number;
}

interface SourceSolution {
  readonly id: string;
  /** Negative where other drivers feed this one backwards. */
  readonly current_A: number;
  readonly out_W: number;
}

/** The solved circuit, with its proof: the residual and the balance of watts. */
export interface CircuitSolution {
  readonly runs: readonly RunSolution[];
  readonly cables: readonly CableSolution[];
  readonly sources: readonly SourceSolution[];
  readonly out_W: number;
  readonly load_W: number;
  readonly stripCopper_W: number;
  readonly cable_W: number;
  /** Watts out of the drivers less everything consumed; rounding only. */
  readonly imbalance_W: number;
  /** Largest current unaccounted for at any node; under 1 nA. */
  readonly residual_A: number;
  readonly newtonSteps: number;
  /** Where the solver came to rest: a start for the next solution of a circuit of the same shape. */
  readonly departure_V: Float64Array;
}

/** Turns the state of a network back into runs, cables and drivers. */
export function readSolution(
  description: CircuitDescription,
  network: Network,
  plan: NetworkPlan,
  point: OperatingPoint,
): CircuitSolution {
  let bank = 0;
  const runs = description.runs.map((run, r): RunSolution => {
    const places = network.runs[r]!;
    const pads = { places, plan, departure_V: point.departure_V };
    const channels = run.channels.map((channel, c) => {
      const first = network.banks[bank++]!.firstLoad;
      const unit_V = point.load_V.slice(first, first + run.unitCount);
      const unit_A = point.load_A.slice(first, first + run.unitCount);
      const returnPad_V = padVolts(run, pads, 1 + c);
      const { strip_degC } = run;
      return readChannel(channel, { unit_V, unit_A, feed_V: places.feed_V, returnPad_V, strip_degC });
    });
    return readRun(run, channels, padVolts(run, pads, 0), runWatts(run, r, { network, plan, point }));
  });
  const cables = readCables(description, network, plan, point);
  const sources = readSources(description, cables);
  const total = (parts: readonly number[]): number => parts.reduce((sum, part) => sum + part, 0);
  const out_W = total(sources.map((source) => source.out_W));
  const load_W = total(runs.map((run) => run.load_W));
  const stripCopper_W = total(runs.map((run) => run.copper_W));
  const cable_W = total(cables.map((cable) => cable.lost_W));
  return {
    runs,
    cables,
    sources,
    out_W,
    load_W,
    stripCopper_W,
    cable_W,
    imbalance_W: out_W - load_W - stripCopper_W - cable_W,
    residual_A: point.residual_A,
    newtonSteps: point.steps,
    departure_V: point.departure_V,
  };
}

/**
 * Watts of the lamps of a run, and those lost in its rails and joints.
 * @param r its place among the runs of the network
 */
export function runWatts(
  run: Run,
  r: number,
  {
    network,
    plan,
    point,
  }: { readonly network: Network; readonly plan: NetworkPlan; readonly point: OperatingPoint },
): Pick<RunSolution, 'load_W' | 'copper_W'> {
  const { firstLoad, firstLadder, endLadder } = network.runs[r]!;
  const endLoad = firstLoad + run.unitCount * run.channels.length;
  let [load_W, copper_W] = [0, 0];
  for (let e = firstLoad; e < endLoad; e++) load_W += point.load_V[e]! * point.load_A[e]!;
  for (let l = firstLadder; l < endLadder; l++) {
    copper_W += linkLoss_W(plan.condensed[l]!, network.link_S, point.departure_V);
  }
  return { load_W, copper_W };
}

/** A cut line without a cable carries the mean of its neighbours: equal copper lies on both sides. */
function padVolts(
  { unitCount }: Run,
  of: { readonly places: RunPlaces; readonly plan: NetworkPlan; readonly departure_V: Float64Array },
  rail: number,
): Float64Array {
  const { firstNode, railCount, base_V, pads } = of.places;
  const u_V = of.departure_V;
  const railBase_V = rail === 0 ? base_V : 0;
  const first = firstNode + rail;
  const last = first + (unitCount - 1) * railCount;
  const pad_V = new Float64Array(unitCount + 1);
  pad_V[0] = railBase_V + u_V[first]!;
  pad_V[unitCount] = railBase_V + u_V[last]!;
  for (let cutLine = 1, node = first; cutLine < unitCount; cutLine++, node += railCount) {
    pad_V[cutLine] = railBase_V + (u_V[node]! + u_V[node + railCount]!) / 2;
  }
  for (const [cutLine, pad] of pads)
    pad_V[cutLine] = railBase_V + u_V[of.plan.unknownOfJunction[pad + rail]!]!;
  return pad_V;
}

/**
 * Volts and light of a channel. A warm strip draws more and gives less light for it: what it draws beyond a cool one is
 * not counted as light, and what it loses by its warmth is.
 */
function readChannel(
  channel: Channel,
  solved: {
    readonly unit_V: Float64Array;
    readonly unit_A: Float64Array;
    readonly feed_V: number;
    readonly returnPad_V: Float64Array;
    readonly strip_degC: number;
  },
): ChannelSolution {
  const { unit_V, unit_A, feed_V, returnPad_V } = solved;
  const nominal_A = nominalCurrent_A(channel.law);
  const full_A = channel.level * nominal_A;
  const warmth = thermalLight(solved.strip_degC);
  const cool = coolLaw(channel.law, channel.lampShift_V);
  const cool_A = (volts: number): number => current_A(cool, volts);
  const light = new Float64Array(unit_A.length);
  let unitsOutsideLightLawCount = 0;
  for (let unit = 0; unit < light.length && full_A > 0; unit++) {
    const ratio = unit_A[unit]! / full_A;
    light[unit] = channel.level * warmth * relativeLight(Math.min(ratio, cool_A(unit_V[unit]!) / nominal_A));
    if (ratio < lightHolds.from || ratio > lightHolds.to) unitsOutsideLightLawCount++;
  }
  const lowestUnit = indexOfLeast(unit_V, 1);
  const highestUnit = indexOfLeast(unit_V, -1);
  const drop_V = feed_V - unit_V[lowestUnit]!;
  return {
    id: channel.id,
    unit_V,
    unit_A,
    light,
    returnPad_V,
    lowest_V: unit_V[lowestUnit]!,
    highest_V: unit_V[highestUnit]!,
    lowestUnit,
    highestUnit,
    drop_V,
    dropRatio: drop_V / channel.law.nominal_V,
    unitsOutsideLightLawCount,
  };
}

function indexOfLeast(values: Float64Array, sign: 1 | -1): number {
  let least = 0;
  for (let i = 1; i < values.length; i++) if (sign * values[i]! < sign * values[least]!) least = i;
  return least;
}

/** What one sees of a run: the light of each channel by its share of the light at nominal. */
function lightTogether(run: Run, channels: readonly ChannelSolution[]): Float64Array {
  const together = new Float64Array(run.unitCount);
  channels.forEach(({ light }, c) => {
    const share = run.channels[c]!.lightShare ?? 1 / channels.length;
    for (let unit = 0; unit < together.length; unit++) together[unit]! += share * light[unit]!;
  });
  return together;
}

function readRun(
  run: Run,
  channels: readonly ChannelSolution[],
  positivePad_V: Float64Array,
  watts: ReturnType<typeof runWatts>,
): RunSolution {
  const light = lightTogether(run, channels);
  const brightest = light.reduce((a, b) => Math.max(a, b), 0);
  return {
    id: run.id,
    positivePad_V,
    channels,
    light,
    ...watts,
    lowest_V: Math.min(...channels.map((channel) => channel.lowest_V)),
    drop_V: Math.max(...channels.map((channel) => channel.drop_V)),
    dropRatio: Math.max(...channels.map((channel) => channel.dropRatio)),
    lightFall: brightest > 0 ? 1 - light.reduce((a, b) => Math.min(a, b)) / brightest : 0,
  };
}

/** Currents from the departures, not the potentials: the difference of two near numbers keeps its digits. */
function readCables(
  description: CircuitDescription,
  network: Network,
  plan: NetworkPlan,
  point: OperatingPoint,
): readonly CableSolution[] {
  const { base_V, conductorFrom, conductorTo, conductor_S } = network;
  const bases_V = conductorBase_V(network);
  const departure_V = (unknown: number): number => point.departure_V[unknown] ?? 0;
  const read = (e: number, sign: 1 | -1): ConductorSolution => {
    const from_V = departure_V(plan.conductor.a[e]!);
    const to_V = departure_V(plan.conductor.b[e]!);
    const drop_V = from_V - to_V + bases_V[e]!;
    return {
      current_A: sign * drop_V * conductor_S[e]!,
      from_V: base_V[conductorFrom[e]!]! + from_V,
      to_V: base_V[conductorTo[e]!]! + to_V,
      lost_W: drop_V ** 2 * conductor_S[e]!,
    };
  };
  return description.cables.map((cable, c) => {
    const first = network.cableConductor[c]!;
    const positive = read(first, 1);
    const returns = cable.returns.map((_, i) => read(first + 1 + i, -1));
    const lost_W = returns.reduce((sum, one) => sum + one.lost_W, positive.lost_W);
    return { id: cable.id, positive, returns, lost_W };
  });
}

function readSources(
  description: CircuitDescription,
  cables: readonly CableSolution[],
): readonly SourceSolution[] {
  const out_A = new Map(description.sources.map(({ id }) => [id, 0]));
  const add = (terminal: Terminal, current_A: number): void => {
    if ('source' in terminal) out_A.set(terminal.source, out_A.get(terminal.source)! + current_A);
  };
  description.cables.forEach(({ positive }, c) => {
    add(positive.from, cables[c]!.positive.current_A);
    add(positive.to, -cables[c]!.positive.current_A);
  });
  return description.sources.map(({ id, set_V }) => {
    const current_A = out_A.get(id)!;
    return { id, current_A, out_W: set_V * current_A };
  });
}
