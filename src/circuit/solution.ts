import type { Channel, CircuitDescription, Run, Terminal } from './description.ts';
import type { Network, RunPlaces } from './network.ts';
import type { NetworkPlan, OperatingPoint } from './operating-point.ts';
import { lightHolds, nominalCurrent_A, relativeLight } from './strip-law.ts';

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
  /** How much less light the dimmest unit gives than the brightest of the same run, 0 to 1. */
  readonly lightFall: number;
  /** Units whose current while lit is outside 25 to 130 % of nominal, where the light law does not hold. */
  readonly unitsOutsideLightLawCount: number;
}

export interface RunSolution {
  readonly id: string;
  /** Potential of the positive rail at each cut line, counted from the driver's minus. */
  readonly positivePad_V: Float64Array;
  readonly channels: readonly ChannelSolution[];
  readonly load_W: number;
  /** Lost in both rails and in joints. */
  readonly copper_W: number;
  /** Figures of the channel that is worst in each. */
  readonly lowest_V: number;
  readonly drop_V: number;
  readonly dropRatio: number;
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
  const node_V = potentials(network, plan, point);
  const branch_A = branchCurrents(network, plan, point);
  let bank = 0;
  const runs = description.runs.map((run, r): RunSolution => {
    const places = network.runs[r]!;
    const channels = run.channels.map((channel, c) => {
      const first = network.banks[bank++]!.firstLoad;
      const unit_V = point.load_V.slice(first, first + run.unitCount);
      const unit_A = point.load_A.slice(first, first + run.unitCount);
      return readChannel(channel, {
        unit_V,
        unit_A,
        feed_V: places.feed_V,
        returnPad_V: padVolts(run, places, 1 + c, node_V),
      });
    });
    return readRun(run, channels, padVolts(run, places, 0, node_V), copperLoss_W(network, branch_A, places));
  });
  const cables = readCables(description, network, node_V, branch_A);
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

function potentials(network: Network, plan: NetworkPlan, point: OperatingPoint): Float64Array {
  const node_V = network.base_V.slice();
  for (let node = 0; node < node_V.length; node++) {
    const unknown = plan.unknownOfNode[node]!;
    if (unknown < plan.factor.count) node_V[node]! += point.departure_V[unknown]!;
  }
  return node_V;
}

/** From the departures, not the potentials: the difference of two near numbers keeps its digits. */
function branchCurrents(network: Network, plan: NetworkPlan, point: OperatingPoint): Float64Array {
  const { branchFrom, branchTo, base_V, branch_ohm } = network;
  const { count } = plan.factor;
  const moved_V = new Float64Array(count + 1);
  moved_V.set(point.departure_V);
  const branch_A = new Float64Array(branch_ohm.length);
  for (let e = 0; e < branch_A.length; e++) {
    const bases_V = base_V[branchFrom[e]!]! - base_V[branchTo[e]!]!;
    const drop_V = moved_V[plan.branch.a[e]!]! - moved_V[plan.branch.b[e]!]! + bases_V;
    branch_A[e] = drop_V / branch_ohm[e]!;
  }
  return branch_A;
}

function copperLoss_W(network: Network, branch_A: Float64Array, places: RunPlaces): number {
  let lost_W = 0;
  for (let e = places.firstBranch; e < places.endBranch; e++) {
    lost_W += branch_A[e]! * branch_A[e]! * network.branch_ohm[e]!;
  }
  return lost_W;
}

/** A cut line without a cable carries the mean of its neighbours: equal copper lies on both sides. */
function padVolts(run: Run, places: RunPlaces, rail: number, node_V: Float64Array): Float64Array {
  const { firstNode, railCount, pads } = places;
  const pad_V = new Float64Array(run.unitCount + 1);
  for (let cutLine = 0; cutLine <= run.unitCount; cutLine++) {
    const before = firstNode + Math.max(0, cutLine - 1) * railCount + rail;
    const after = firstNode + Math.min(run.unitCount - 1, cutLine) * railCount + rail;
    pad_V[cutLine] = (node_V[before]! + node_V[after]!) / 2;
  }
  for (const [cutLine, pad] of pads) pad_V[cutLine] = node_V[pad + rail]!;
  return pad_V;
}

function readChannel(
  channel: Channel,
  solved: {
    readonly unit_V: Float64Array;
    readonly unit_A: Float64Array;
    readonly feed_V: number;
    readonly returnPad_V: Float64Array;
  },
): ChannelSolution {
  const { unit_V, unit_A, feed_V, returnPad_V } = solved;
  const full_A = channel.level * nominalCurrent_A(channel.law);
  const light = new Float64Array(unit_A.length);
  let unitsOutsideLightLawCount = 0;
  for (let unit = 0; unit < light.length && full_A > 0; unit++) {
    const ratio = unit_A[unit]! / full_A;
    light[unit] = channel.level * relativeLight(ratio);
    if (ratio < lightHolds.from || ratio > lightHolds.to) unitsOutsideLightLawCount++;
  }
  const lowestUnit = indexOfLeast(unit_V, 1);
  const highestUnit = indexOfLeast(unit_V, -1);
  const drop_V = feed_V - unit_V[lowestUnit]!;
  const brightest = light[highestUnit]!;
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
    lightFall: brightest > 0 ? 1 - light[lowestUnit]! / brightest : 0,
    unitsOutsideLightLawCount,
  };
}

function indexOfLeast(values: Float64Array, sign: 1 | -1): number {
  let least = 0;
  for (let i = 1; i < values.length; i++) if (sign * values[i]! < sign * values[least]!) least = i;
  return least;
}

function readRun(
  run: Run,
  channels: readonly ChannelSolution[],
  positivePad_V: Float64Array,
  copper_W: number,
): RunSolution {
  let load_W = 0;
  for (const { unit_V, unit_A } of channels) {
    for (let unit = 0; unit < unit_V.length; unit++) load_W += unit_V[unit]! * unit_A[unit]!;
  }
  return {
    id: run.id,
    positivePad_V,
    channels,
    load_W,
    copper_W,
    lowest_V: Math.min(...channels.map((channel) => channel.lowest_V)),
    drop_V: Math.max(...channels.map((channel) => channel.drop_V)),
    dropRatio: Math.max(...channels.map((channel) => channel.dropRatio)),
    lightFall: Math.max(...channels.map((channel) => channel.lightFall)),
  };
}

function readCables(
  description: CircuitDescription,
  network: Network,
  node_V: Float64Array,
  branch_A: Float64Array,
): readonly CableSolution[] {
  const read = (branch: number, sign: 1 | -1): ConductorSolution => ({
    current_A: sign * branch_A[branch]!,
    from_V: node_V[network.branchFrom[branch]!]!,
    to_V: node_V[network.branchTo[branch]!]!,
    lost_W: branch_A[branch]! ** 2 * network.branch_ohm[branch]!,
  });
  return description.cables.map((cable, c) => {
    const first = network.cableBranch[c]!;
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
