import { resistanceAt } from './copper.ts';
import {
  type CircuitDescription,
  type Conductor,
  conductorsOf,
  type Run,
  type Terminal,
} from './description.ts';
import { type Reach, returnRail } from './reach.ts';
import { type WarmLaw, warmLaw } from './strip-law.ts';

/**
 * A circuit as nodes, branches and loads.
 *
 * Every place is a site: a source, a tap, a cut unit, or a cut line where a cable lands. A site holds one node
 * for each rail. The potential of a node is its base plus a departure; the base is the source's volts on positive
 * rails and zero on returns, so the departures are volt drops, and small drops keep their digits.
 *
 * Each island has one source at zero; every other source floats: its two nodes move together, one unknown, which
 * is why what leaves its plus must come back to its minus.
 */
export interface Network {
  /** First node of each site; one more than the sites. Sources come first, in their order, two nodes each. */
  readonly siteNode: Int32Array;
  /** 1 for each source whose minus is the zero of its island. */
  readonly isGrounded: Uint8Array;
  readonly base_V: Float64Array;
  readonly branchFrom: Int32Array;
  readonly branchTo: Int32Array;
  readonly branch_ohm: Float64Array;
  readonly loadPlus: Int32Array;
  readonly loadMinus: Int32Array;
  /** Loads of one channel of one run, unit after unit. */
  readonly banks: readonly Bank[];
  readonly runs: readonly RunPlaces[];
  /** First branch of each cable: the positive conductor, then the returns in their order. */
  readonly cableBranch: readonly number[];
}

/** A cut line of a run. */
export interface PadPlace {
  readonly run: string;
  readonly cutLine: number;
}

export interface Bank {
  readonly law: WarmLaw;
  readonly level: number;
  readonly firstLoad: number;
  readonly unitCount: number;
}

/** Where a run's nodes and branches are. A site of a run holds the positive node, then a return per channel. */
export interface RunPlaces {
  readonly firstNode: number;
  readonly railCount: number;
  /** Highest volts set at any source that copper joins to the run's positive rail. */
  readonly feed_V: number;
  /** First node of the site at each cut line where a cable lands. */
  readonly pads: ReadonlyMap<number, number>;
  readonly firstBranch: number;
  readonly endBranch: number;
}

/**
 * Least resistance of a branch, ohm. A cable of no length still has a node at each end; at 10 A this costs 10 uV.
 */
const leastBranch_ohm = 1e-6;

/**
 * Builds the network of a description that has passed `checkCircuit`.
 * @param reach what `followCopper` found in this description
 * @param probe a cut line that gets nodes although no cable lands there
 */
export function buildNetwork(description: CircuitDescription, reach: Reach, probe?: PadPlace): Network {
  const landed = landings(description, probe);
  const draft = emptyDraft(description, landed);
  const islandBase_V = (terminal: Terminal, rail: string): number =>
    rail === 'positive' ? (description.sources[reach.islandOf(terminal, rail)]?.set_V ?? 0) : 0;

  const isGrounded = Uint8Array.from(description.sources, ({ id }, s) => {
    return reach.islandOf({ source: id }, 'positive') === s ? 1 : 0;
  });
  for (const { set_V } of description.sources) addSite(draft, [set_V, 0]);
  const tapNode = addTaps(draft, description, islandBase_V);
  const runs = description.runs.map((run) => {
    const feeders = reach.sourcesOf({ run: run.id, cutLine: 0 }, 'positive');
    const feed_V = Math.max(...[...feeders].map((s) => description.sources[s]!.set_V));
    return { feed_V, ...addRun(draft, run, landed.get(run.id) ?? [], islandBase_V) };
  });

  const sourceAt = new Map(description.sources.map(({ id }, s) => [id, s]));
  const runAt = new Map(description.runs.map((run, r) => [run.id, { run, places: runs[r]! }]));
  const nodeAt = (terminal: Terminal, channel: string | undefined): number => {
    if ('source' in terminal) return 2 * sourceAt.get(terminal.source)! + (channel === undefined ? 0 : 1);
    if ('tap' in terminal) return tapNode.get(`${terminal.tap} ${railName(channel)}`)!;
    const { run, places } = runAt.get(terminal.run)!;
    return places.pads.get(terminal.cutLine)! + railNumber(run, channel);
  };
  const cableBranch = description.cables.map(({ positive, returns }) => {
    const first = draft.branchCount;
    addConductor(draft, positive, nodeAt(positive.from, undefined), nodeAt(positive.to, undefined));
    for (const one of returns) {
      addConductor(draft, one, nodeAt(one.from, one.channel), nodeAt(one.to, one.channel));
    }
    return first;
  });
  return {
    siteNode: draft.siteNode.slice(0, draft.siteCount + 1),
    isGrounded,
    base_V: draft.base_V.slice(0, draft.nodeCount),
    branchFrom: draft.from.slice(0, draft.branchCount),
    branchTo: draft.to.slice(0, draft.branchCount),
    branch_ohm: draft.ohm.slice(0, draft.branchCount),
    ...addLoads(description.runs, runs),
    runs,
    cableBranch,
  };
}

/** A network being written down, in arrays that are large enough, filled up to the counts. */
interface Draft {
  readonly siteNode: Int32Array;
  readonly base_V: Float64Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly ohm: Float64Array;
  siteCount: number;
  nodeCount: number;
  branchCount: number;
}

type Landings = ReadonlyMap<string, readonly number[]>;

function emptyDraft(description: CircuitDescription, landed: Landings): Draft {
  let [sites, nodes, branches] = [description.sources.length, 2 * description.sources.length, 0];
  for (const run of description.runs) {
    const rails = 1 + run.channels.length;
    const places = run.unitCount + (landed.get(run.id)?.length ?? 0);
    sites += places;
    nodes += rails * places;
    branches += rails * places;
  }
  for (const { returns } of description.cables) {
    branches += 1 + returns.length;
    // A cable brings at most this many new rails to the taps at its two ends.
    nodes += 2 * (1 + returns.length);
  }
  return {
    siteNode: new Int32Array(sites + description.taps.length + 1),
    base_V: new Float64Array(nodes),
    from: new Int32Array(branches),
    to: new Int32Array(branches),
    ohm: new Float64Array(branches),
    siteCount: 0,
    nodeCount: 0,
    branchCount: 0,
  };
}

type BaseOf = (terminal: Terminal, rail: string) => number;

const railName = (channel: string | undefined): string =>
  channel === undefined ? 'positive' : returnRail(channel);

const railNumber = (run: Run, channel: string | undefined): number =>
  channel === undefined ? 0 : 1 + run.channels.findIndex(({ id }) => id === channel);

/** Adds sites with one node for each base, and returns the first node of the first. */
function addSites(draft: Draft, bases_V: readonly number[], count: number): number {
  const first = draft.nodeCount;
  const { base_V, siteNode } = draft;
  let node = first;
  for (let site = 1; site <= count; site++) {
    for (let rail = 0; rail < bases_V.length; rail++) base_V[node++] = bases_V[rail]!;
    siteNode[draft.siteCount + site] = node;
  }
  draft.siteCount += count;
  draft.nodeCount = node;
  return first;
}

const addSite = (draft: Draft, bases_V: readonly number[]): number => addSites(draft, bases_V, 1);

function addBranch(draft: Draft, from: number, to: number, ohm: number): void {
  draft.from[draft.branchCount] = from;
  draft.to[draft.branchCount] = to;
  draft.ohm[draft.branchCount++] = Math.max(ohm, leastBranch_ohm);
}

function addConductor(draft: Draft, conductor: Conductor, from: number, to: number): void {
  const padCount = [conductor.from, conductor.to].filter((terminal) => 'run' in terminal).length;
  addBranch(draft, from, to, conductor.length_m * conductor.ohm_per_m + padCount * conductor.contact_ohm);
}

/** Gives each tap a node for every rail that a cable brings to it. */
function addTaps(draft: Draft, description: CircuitDescription, baseOf: BaseOf): ReadonlyMap<string, number> {
  const rails = new Map<string, Set<string>>(description.taps.map(({ id }) => [id, new Set()]));
  for (const { positive, returns } of description.cables) {
    for (const conductor of [positive, ...returns]) {
      const rail = railName('channel' in conductor ? (conductor.channel as string) : undefined);
      for (const end of [conductor.from, conductor.to]) if ('tap' in end) rails.get(end.tap)!.add(rail);
    }
  }
  const nodes = new Map<string, number>();
  for (const [tap, names] of rails) {
    const first = addSite(
      draft,
      [...names].map((rail) => baseOf({ tap }, rail)),
    );
    [...names].forEach((rail, i) => {
      nodes.set(`${tap} ${rail}`, first + i);
    });
  }
  return nodes;
}

/** Cut lines of each run where a cable lands. */
function landings(description: CircuitDescription, probe: PadPlace | undefined): Landings {
  const landed = new Map<string, Set<number>>();
  if (probe !== undefined) landed.set(probe.run, new Set([probe.cutLine]));
  for (const { from, to } of description.cables.flatMap(conductorsOf)) {
    for (const end of [from, to]) {
      if (!('run' in end)) continue;
      const lines = landed.get(end.run) ?? new Set();
      landed.set(end.run, lines.add(end.cutLine));
    }
  }
  return new Map([...landed].map(([run, lines]) => [run, [...lines]]));
}

function addRun(
  draft: Draft,
  run: Run,
  padLines: readonly number[],
  baseOf: BaseOf,
): Omit<RunPlaces, 'feed_V'> {
  const start: Terminal = { run: run.id, cutLine: 0 };
  const bases_V = [baseOf(start, 'positive'), ...run.channels.map(() => 0)];
  const firstNode = addSites(draft, bases_V, run.unitCount);
  const pads = new Map(padLines.map((cutLine) => [cutLine, addSite(draft, bases_V)]));
  const firstBranch = draft.branchCount;
  addRails(draft, run, { firstNode, pads });
  return { firstNode, railCount: bases_V.length, pads, firstBranch, endBranch: draft.branchCount };
}

/** Half a unit of copper, and half of a joint, lies on each side of every cut line. */
function addRails(draft: Draft, run: Run, places: Pick<RunPlaces, 'firstNode' | 'pads'>): void {
  const { unitCount } = run;
  const joint_ohm = new Float64Array(unitCount + 1);
  for (const { cutLine, contact_ohm } of run.joints) joint_ohm[cutLine] = contact_ohm;
  const padNode = new Int32Array(unitCount + 1).fill(-1);
  for (const [cutLine, node] of places.pads) padNode[cutLine] = node;
  const rails_ohm_per_m = [
    run.positiveRail_ohm_per_m,
    ...run.channels.map((channel) => channel.returnRail_ohm_per_m),
  ];
  rails_ohm_per_m.forEach((at20_ohm_per_m, rail) => {
    const half_ohm = (resistanceAt(at20_ohm_per_m, run.strip_degC) * run.unitLength_m) / 2;
    for (let cutLine = 0; cutLine <= unitCount; cutLine++) {
      const side_ohm = half_ohm + joint_ohm[cutLine]! / 2;
      const before = places.firstNode + (cutLine - 1) * rails_ohm_per_m.length + rail;
      const after = before + rails_ohm_per_m.length;
      const pad = padNode[cutLine]!;
      if (pad < 0) {
        if (cutLine > 0 && cutLine < unitCount) addBranch(draft, before, after, 2 * side_ohm);
      } else {
        if (cutLine > 0) addBranch(draft, before, pad + rail, side_ohm);
        if (cutLine < unitCount) addBranch(draft, pad + rail, after, side_ohm);
      }
    }
  });
}

function addLoads(
  runs: readonly Run[],
  places: readonly RunPlaces[],
): Pick<Network, 'loadPlus' | 'loadMinus' | 'banks'> {
  const loadCount = runs.reduce((sum, run) => sum + run.unitCount * run.channels.length, 0);
  const loadPlus = new Int32Array(loadCount);
  const loadMinus = new Int32Array(loadCount);
  const banks: Bank[] = [];
  let load = 0;
  runs.forEach((run, r) => {
    const { firstNode, railCount } = places[r]!;
    run.channels.forEach(({ law, level, lampShift_V }, c) => {
      const warm = warmLaw(law, run.strip_degC, lampShift_V);
      banks.push({ law: warm, level, firstLoad: load, unitCount: run.unitCount });
      for (let unit = 0; unit < run.unitCount; unit++) {
        loadPlus[load] = firstNode + unit * railCount;
        loadMinus[load++] = firstNode + unit * railCount + 1 + c;
      }
    });
  });
  return { loadPlus, loadMinus, banks };
}
