import { resistanceAt } from './copper.ts';
import {
  type CircuitDescription,
  type Conductor,
  conductor_ohm,
  conductorsOf,
  type Run,
  type Terminal,
} from './description.ts';
import { oneMinusTaps, type Rail, type Reach, railAtTap } from './reach.ts';
import { type WarmLaw, warmLaw } from './strip-law.ts';

/**
 * A circuit as ladders and junctions.
 *
 * Junctions are the nodes of sources, taps and pads (cut lines where a cable lands): a site holds one for each of
 * its rails, and conductors of cables join them. The cut units of a run between two pads, or between a pad and a
 * free end, are a ladder: links of rail copper lengthwise, lamps across. Nothing but its pads connects a ladder
 * to the rest, so the solver condenses it onto them and the circuit to be solved has no more nodes than it has pads.
 *
 * The potential of a node is its base plus a departure; the base is the source's volts on positive rails and
 * zero on returns, so the departures are volt drops, and small drops keep their digits.
 *
 * Each island has one source at zero; every other source floats: its two junctions move together, one unknown,
 * which is why what leaves its plus must come back to its minus.
 */
export interface Network {
  /** Nodes of cut units, unit after unit: the positive rail, then a return for each channel. */
  readonly unitNodeCount: number;
  /** Conductance of each link of rail, S; see `Ladder` for which is where. */
  readonly link_S: Float64Array;
  readonly ladders: readonly Ladder[];
  /** Loads of one channel of one run, unit after unit. */
  readonly banks: readonly Bank[];
  readonly runs: readonly RunPlaces[];
  /** First junction of each site; one more than the sites. Sources come first, in their order, two each. */
  readonly siteJunction: Int32Array;
  /** 1 for each source whose minus is the zero of its island. */
  readonly isGrounded: Uint8Array;
  /** Of each junction. */
  readonly base_V: Float64Array;
  readonly conductorFrom: Int32Array;
  readonly conductorTo: Int32Array;
  readonly conductor_S: Float64Array;
  /** First conductor of each cable: the positive one, then the returns in their order. */
  readonly cableConductor: readonly number[];
}

/** A cut line of a run. */
export interface PadPlace {
  readonly run: string;
  readonly cutLine: number;
}

/** Cut units of a run without a pad between them. */
export interface Ladder {
  readonly firstNode: number;
  readonly endNode: number;
  readonly railCount: number;
  /** The link before node n is number `n + linkShift`, the one after it `n + railCount + linkShift`. */
  readonly linkShift: number;
  /** First junction of the pad before the first unit and after the last; -1 at a free end, whose links are 0 S. */
  readonly padBefore: number;
  readonly padAfter: number;
}

export interface Bank {
  readonly law: WarmLaw;
  readonly level: number;
  readonly firstLoad: number;
  readonly unitCount: number;
  /** Volts of the run's positive rail without any drop. */
  readonly base_V: number;
  /** Nodes of its first unit; those of the next unit follow after `railCount` nodes. */
  readonly plus: number;
  readonly minus: number;
  readonly railCount: number;
}

/** Where the nodes of a run are. */
export interface RunPlaces {
  readonly firstNode: number;
  readonly railCount: number;
  /** Its links and the loads of its channels, one after the other. */
  readonly firstLink: number;
  readonly firstLoad: number;
  readonly base_V: number;
  /** Highest volts set at any source that copper joins to the run's positive rail. */
  readonly feed_V: number;
  /** First junction of the pad at each cut line where a cable lands. */
  readonly pads: ReadonlyMap<number, number>;
  /** Its ladders, from the start of the run to its finish: the first, and one more than the last. */
  readonly firstLadder: number;
  readonly endLadder: number;
}

/**
 * Least resistance of a conductor or link, ohm. A cable of no length still has a node at each end; at 10 A this
 * costs 10 uV.
 */
const least_ohm = 1e-6;

/**
 * Builds the network of a description that has passed `checkCircuit`.
 * @param reach what `followCopper` found in this description
 * @param probe a cut line that gets junctions although no cable lands there
 */
export function buildNetwork(description: CircuitDescription, reach: Reach, probe?: PadPlace): Network {
  const draft = emptyDraft();
  const islandBase_V = (terminal: Terminal, rail: Rail): number =>
    rail === undefined ? (description.sources[reach.islandOf(terminal, rail)]?.set_V ?? 0) : 0;

  const isGrounded = Uint8Array.from(description.sources, ({ id }, s) => {
    return reach.islandOf({ source: id }, undefined) === s ? 1 : 0;
  });
  for (const { set_V } of description.sources) addSite(draft, [set_V, 0]);
  const oneMinus = oneMinusTaps(description.taps);
  const tapJunctions = addTaps(draft, description, oneMinus, islandBase_V);
  const landed = landings(description, probe);
  const runs = description.runs.map((run) => {
    const start: Terminal = { run: run.id, cutLine: 0 };
    const feeders = reach.sourcesOf(start, undefined);
    const feed_V = Math.max(...[...feeders].map((s) => description.sources[s]!.set_V));
    const base_V = islandBase_V(start, undefined);
    return { feed_V, ...addRun(draft, run, landed.get(run.id) ?? [], base_V) };
  });

  const sourceAt = new Map(description.sources.map(({ id }, s) => [id, s]));
  const runAt = new Map(description.runs.map((run, r) => [run.id, { run, places: runs[r]! }]));
  const junctionAt = (terminal: Terminal, rail: Rail): number => {
    if ('source' in terminal) return 2 * sourceAt.get(terminal.source)! + (rail === undefined ? 0 : 1);
    if ('tap' in terminal)
      return tapJunctions.get(terminal.tap)!.get(railAtTap(terminal.tap, rail, oneMinus))!;
    const { run, places } = runAt.get(terminal.run)!;
    return places.pads.get(terminal.cutLine)! + railNumber(run, rail);
  };
  const cableConductor = description.cables.map(({ positive, returns }) => {
    const first = draft.conductor_S.length;
    addConductor(draft, positive, junctionAt(positive.from, undefined), junctionAt(positive.to, undefined));
    for (const one of returns) {
      addConductor(draft, one, junctionAt(one.from, one.channel), junctionAt(one.to, one.channel));
    }
    return first;
  });
  return {
    ...stripsOf(description.runs, runs),
    unitNodeCount: draft.unitNodeCount,
    ladders: draft.ladders,
    runs,
    siteJunction: Int32Array.from(draft.siteJunction),
    isGrounded,
    base_V: Float64Array.from(draft.base_V),
    conductorFrom: Int32Array.from(draft.conductorFrom),
    conductorTo: Int32Array.from(draft.conductorTo),
    conductor_S: Float64Array.from(draft.conductor_S),
    cableConductor,
  };
}

/**
 * The same network with its strips at other temperatures, which change the copper of the rails and the law of the lamps.
 * @param runs those it was built of, in their order
 */
export function networkAt(network: Network, runs: readonly Run[]): Network {
  return { ...network, ...stripsOf(runs, network.runs) };
}

/** A network being written down. */
interface Draft {
  readonly ladders: Ladder[];
  readonly siteJunction: number[];
  readonly base_V: number[];
  readonly conductorFrom: number[];
  readonly conductorTo: number[];
  readonly conductor_S: number[];
  unitNodeCount: number;
  linkCount: number;
  loadCount: number;
}

type Landings = ReadonlyMap<string, readonly number[]>;

function emptyDraft(): Draft {
  return {
    ladders: [],
    siteJunction: [0],
    base_V: [],
    conductorFrom: [],
    conductorTo: [],
    conductor_S: [],
    unitNodeCount: 0,
    linkCount: 0,
    loadCount: 0,
  };
}

type BaseOf = (terminal: Terminal, rail: Rail) => number;

const railNumber = (run: Run, rail: Rail): number =>
  rail === undefined ? 0 : 1 + run.channels.findIndex(({ id }) => id === rail);

/** Adds a site with one junction for each base, and returns the first. */
function addSite(draft: Draft, bases_V: readonly number[]): number {
  const first = draft.base_V.length;
  draft.base_V.push(...bases_V);
  draft.siteJunction.push(draft.base_V.length);
  return first;
}

function addConductor(draft: Draft, conductor: Conductor, from: number, to: number): void {
  draft.conductorFrom.push(from);
  draft.conductorTo.push(to);
  draft.conductor_S.push(1 / Math.max(conductor_ohm(conductor), least_ohm));
}

/** Gives each tap a junction for every rail that a cable brings to it. */
function addTaps(
  draft: Draft,
  { taps, cables }: CircuitDescription,
  oneMinus: ReadonlySet<string>,
  baseOf: BaseOf,
): ReadonlyMap<string, ReadonlyMap<Rail, number>> {
  const rails = new Map(taps.map(({ id }) => [id, new Set<Rail>()]));
  const bring = ({ from, to }: Conductor, rail: Rail): void => {
    for (const end of [from, to])
      if ('tap' in end) rails.get(end.tap)!.add(railAtTap(end.tap, rail, oneMinus));
  };
  for (const { positive, returns } of taps.length > 0 ? cables : []) {
    bring(positive, undefined);
    for (const one of returns) bring(one, one.channel);
  }
  return new Map(
    [...rails].map(([tap, brought]) => {
      const names = [...brought];
      const bases_V = names.map((rail) => baseOf({ tap }, rail));
      const first = addSite(draft, bases_V);
      return [tap, new Map(names.map((rail, i) => [rail, first + i]))];
    }),
  );
}

/** Cut lines of each run where a cable lands. */
function landings(description: CircuitDescription, probe: PadPlace | undefined): Landings {
  const landed = new Map<string, number[]>();
  const land = (run: string, cutLine: number): void => {
    const lines = landed.get(run);
    if (lines === undefined) landed.set(run, [cutLine]);
    else if (!lines.includes(cutLine)) lines.push(cutLine);
  };
  if (probe !== undefined) land(probe.run, probe.cutLine);
  for (const cable of description.cables) {
    for (const { from, to } of conductorsOf(cable)) {
      if ('run' in from) land(from.run, from.cutLine);
      if ('run' in to) land(to.run, to.cutLine);
    }
  }
  return landed;
}

function addRun(
  draft: Draft,
  run: Run,
  landed: readonly number[],
  base_V: number,
): Omit<RunPlaces, 'feed_V'> {
  const railCount = 1 + run.channels.length;
  const { unitNodeCount: firstNode, linkCount: firstLink, loadCount: firstLoad } = draft;
  const firstLadder = draft.ladders.length;
  const bases_V = [base_V, ...run.channels.map(() => 0)];
  const cutLines = [...landed].sort((a, b) => a - b);
  const pads = new Map(cutLines.map((cutLine) => [cutLine, addSite(draft, bases_V)]));
  addLadders(draft, run, { firstNode, firstLink, railCount, pads });
  draft.unitNodeCount += run.unitCount * railCount;
  draft.linkCount += (run.unitCount + 1) * railCount;
  draft.loadCount += run.unitCount * run.channels.length;
  const endLadder = draft.ladders.length;
  return { firstNode, railCount, firstLink, firstLoad, base_V, pads, firstLadder, endLadder };
}

/** @param at.pads in the order of their cut lines */
function addLadders(
  draft: Draft,
  run: Run,
  at: Pick<RunPlaces, 'firstNode' | 'firstLink' | 'railCount' | 'pads'>,
): void {
  const { firstNode, firstLink, railCount } = at;
  const linkShift = firstLink - firstNode;
  let [from, padBefore] = [0, -1];
  const addUpTo = (cutLine: number, padAfter: number): void => {
    if (cutLine > from) {
      const [first, end] = [firstNode + from * railCount, firstNode + cutLine * railCount];
      draft.ladders.push({ firstNode: first, endNode: end, railCount, linkShift, padBefore, padAfter });
    }
    [from, padBefore] = [cutLine, padAfter];
  };
  for (const [cutLine, pad] of at.pads) addUpTo(cutLine, pad);
  addUpTo(run.unitCount, -1);
}

/** Links and loads of all runs at the temperatures of their strips. */
function stripsOf(
  runs: readonly Run[],
  places: readonly RunPlaces[],
): { readonly link_S: Float64Array; readonly banks: readonly Bank[] } {
  const linkCount = runs.reduce((sum, run) => sum + (run.unitCount + 1) * (1 + run.channels.length), 0);
  const link_S = new Float64Array(linkCount);
  const banks = runs.flatMap((run, r) => {
    writeLinks(link_S, run, places[r]!);
    return banksOf(run, places[r]!);
  });
  return { link_S, banks };
}

/**
 * Half a unit of copper, and half of a joint, lies on each side of every cut line. Where there is a pad, each half
 * is a link of its own, of the same resistance; beyond a free end there is none.
 */
function writeLinks(link_S: Float64Array, run: Run, { firstLink, pads }: RunPlaces): void {
  const rails_ohm_per_m = [
    run.positiveRail_ohm_per_m,
    ...run.channels.map((channel) => channel.returnRail_ohm_per_m),
  ];
  const { unitCount } = run;
  const joint_ohm = new Map(run.joints.map(({ cutLine, contact_ohm }) => [cutLine, contact_ohm]));
  rails_ohm_per_m.forEach((at20_ohm_per_m, rail) => {
    const unit_ohm = resistanceAt(at20_ohm_per_m, run.strip_degC) * run.unitLength_m;
    const railCount = rails_ohm_per_m.length;
    const link = (cutLine: number): number => firstLink + cutLine * railCount + rail;
    const plain_S = 1 / Math.max(unit_ohm, least_ohm);
    for (let at = link(1); at < link(unitCount); at += railCount) link_S[at] = plain_S;
    for (const [cutLine, ohm] of joint_ohm) link_S[link(cutLine)] = 1 / Math.max(unit_ohm + ohm, least_ohm);
    for (const cutLine of pads.keys()) {
      const side_ohm = (unit_ohm + (joint_ohm.get(cutLine) ?? 0)) / 2;
      link_S[link(cutLine)] = 1 / Math.max(side_ohm, least_ohm);
    }
  });
}

function banksOf(run: Run, { firstNode: plus, firstLoad, railCount, base_V }: RunPlaces): Bank[] {
  const { unitCount } = run;
  return run.channels.map(({ law, level, lampShift_V }, c) => ({
    law: warmLaw(law, run.strip_degC, lampShift_V),
    level,
    firstLoad: firstLoad + c * unitCount,
    unitCount,
    base_V,
    plus,
    minus: plus + 1 + c,
    railCount,
  }));
}
