import type { CircuitDescription } from '../circuit/description.ts';
import { type CircuitPlan, planCircuit, solvePlanned } from '../circuit/solve-circuit.ts';
import type { Issue, Outcome, Place } from '../outcome.ts';
import { voltTolerance } from '../sizing/drivers-of-job.ts';
import type { Settled } from '../sizing/settle.ts';
import type { Fault } from './fault-fit.ts';
import type { SiteModel } from './fault-on-site.ts';
import { type Box, type Row, rowsOf } from './reading-model-boxes.ts';
import { type OutputCircuit, outputCircuits, withExtra, withoutLoads } from './reading-model-circuit.ts';
import { type Loop, loopOf, type Rail } from './reading-model-loops.ts';
import { type Spot, spotsOf } from './reading-model-places.ts';
import {
  circuitAt,
  ratiosAt,
  type SiteRatios,
  siteSpreads,
  type Unknown,
  unknownsOf,
} from './reading-model-site.ts';

/** The network of a settled job as a model of its readings. */
export interface JobReadings {
  readonly unknowns: readonly Unknown[];
  /**
   * The model with its unknowns so many standard deviations off the plan; those not given are as planned. Shifts
   * are those with something wrong.
   */
  readonly at: (site: readonly number[], wrong: Fault) => SiteModel;
  /** Where a named place is. */
  readonly placeOf: (name: string) => Place;
}

/** Boxes that belong to one output, and the circuit that decides them. */
interface Part {
  readonly circuit: OutputCircuit;
  readonly plan: CircuitPlan;
  readonly boxes: readonly { readonly index: number; readonly box: Box; readonly row: Row }[];
  readonly loops: ReadonlyMap<number, Loop>;
}

/** One rail or both of a spot under the name the fault finding goes by. */
interface NamedSpot {
  readonly name: string;
  readonly spot: Spot;
  readonly rail: Rail;
}

interface Extra extends NamedSpot {
  readonly ohm: number;
}

/** What a part is read with: something more in one cable, one rail of it open, or a run without current. */
interface Change {
  readonly extra?: Extra;
  readonly open?: NamedSpot;
  readonly missing?: string;
  readonly isUnfed?: boolean;
}

interface PartOnSite {
  readonly part: Part;
  readonly description: CircuitDescription;
  readonly ratios: SiteRatios;
  readonly start: Float64Array;
}

function granted<Value>(outcome: Outcome<Value, Issue>): Value {
  if (!outcome.ok) throw new RangeError(`a settled circuit solves: ${outcome.issues[0]!.sentence}`);
  return outcome.value;
}

function partOfOutput(circuit: OutputCircuit, boxes: readonly Box[], settled: Settled): Part {
  const rows = rowsOf(circuit, settled);
  const own = boxes.flatMap((box, index) => {
    const row = rows.get(box.row);
    return row ? [{ index, box, row }] : [];
  });
  const loops = own.flatMap(({ index, box }) =>
    box.quantity === 'loop' && box.path ? [[index, loopOf(box.path, settled.wired)] as const] : [],
  );
  return { circuit, plan: granted(planCircuit(circuit.description)), boxes: own, loops: new Map(loops) };
}

/** What stands for an open conductor in a loop, ohm: far beyond `openFrom_ohm`, and a number. */
const open_ohm = 1e6;

function loopOn(loop: Loop, ratios: SiteRatios, change: Change): number {
  const extra = change.open ? { ...change.open, ohm: open_ohm } : change.extra;
  const own_ohm = loop.stretches.reduce(
    (sum, { cable, copper_ohm, contact_ohm }) => sum + copper_ohm * ratios.cable(cable) + contact_ohm,
    loop.strip_ohm * ratios.strip + loop.contact_ohm,
  );
  const isIn = extra?.spot.inLoop
    ? loop.stretches.some(({ cable, rail }) => cable === extra.spot.cable && rail === extra.rail)
    : false;
  return isIn ? own_ohm + extra!.ohm : own_ohm;
}

function changed(
  description: CircuitDescription,
  { extra, missing }: Change,
  part: Part,
): CircuitDescription {
  if (extra) {
    const { ohm, rail, spot } = extra;
    return withExtra(description, { cable: spot.cable, rail, ohm });
  }
  if (missing === undefined) return description;
  return withoutLoads(description, part.circuit.partsOfRun.get(missing)!);
}

/** Readings of one part, in the order of its boxes. */
function read({ part, description, ratios, start }: PartOnSite, change: Change): number[] {
  const now = changed(description, change, part);
  const lit = { description: now, solution: granted(solvePlanned(part.plan, now, start)) };
  return part.boxes.map(({ index, box, row }) => {
    if (box.quantity === 'loop') {
      const ohm = loopOn(part.loops.get(index)!, ratios, change);
      return box.isOpen ? 1 / ohm : ohm;
    }
    if (change.isUnfed && row.run === change.missing) return 0;
    if (box.quantity === 'noLoad') return now.sources[0]!.set_V;
    return box.quantity === 'loaded' ? row.volts(lit) : row.amps!(lit);
  });
}

/** A part as it is on a site, with its sound state to start from. */
function standOn(part: Part, ratios: SiteRatios, cables: ReadonlySet<string>): PartOnSite {
  const description = circuitAt(part.circuit.description, ratios, cables);
  const { departure_V } = granted(solvePlanned(part.plan, description));
  return { part, description, ratios, start: departure_V };
}

/** A part on a site with what is wrong in it. */
interface Standing extends PartOnSite {
  readonly change: Change;
}

/** Ohms at which the two rails of a place are compared, the most a poor contact adds. */
const compared_ohm = 0.5;
/** Rails closer than this in the sum of squares, two standard deviations of the meters, are one place. */
const apart = 4;

/** The rails of a spot as the given boxes tell them apart: in a run fed at one end nothing does. */
function namedSpots(spot: Spot, sound: PartOnSite): NamedSpot[] {
  const [first, second] = spot.rails;
  const one = { name: spot.name, spot, rail: first! };
  if (!second) return [one];
  const [plus, minus] = spot.rails.map((rail) => read(sound, { extra: { ...one, rail, ohm: compared_ohm } }));
  const distance = sound.part.boxes.reduce(
    (sum, { box }, i) => sum + ((plus![i]! - minus![i]!) / box.spread) ** 2,
    0,
  );
  if (distance < apart) return [one];
  return spot.rails.map((rail) => ({ name: `${spot.name} (${rail})`, spot, rail }));
}

/** Puts the readings of parts into the order of all boxes; those of other parts stay. */
function scatter(into: number[], part: Part, values: readonly number[]): number[] {
  part.boxes.forEach(({ index }, i) => {
    into[index] = values[i]!;
  });
  return into;
}

interface Plan {
  readonly parts: readonly Part[];
  readonly boxes: readonly Box[];
  readonly cables: ReadonlySet<string>;
  readonly unknowns: readonly Unknown[];
  readonly spots: readonly NamedSpot[];
}

const concerns = ({ kind, of }: Unknown, { circuit }: Part): boolean => {
  if (kind === 'volts') return circuit.output === of;
  return kind !== 'length' || circuit.description.cables.some(({ id }) => id === of);
};

/** What one standard deviation of an unknown does to every reading, by central difference; nothing on a site opens a loop. */
function shiftOf(k: number, site: readonly number[], standing: readonly Standing[], plan: Plan): number[] {
  const { boxes, cables, unknowns } = plan;
  const [up, down] = [1, -1].map((step) => {
    const moved = unknowns.map((_, i) => (site[i] ?? 0) + (i === k ? step : 0));
    return ratiosAt(moved, unknowns);
  });
  const shift = Array<number>(boxes.length).fill(0);
  for (const { part, start, change } of standing.filter((one) => concerns(unknowns[k]!, one.part))) {
    const at = (ratios: SiteRatios): number[] =>
      read({ part, ratios, start, description: circuitAt(part.circuit.description, ratios, cables) }, change);
    const [more, less] = [at(up!), at(down!)];
    scatter(
      shift,
      part,
      more.map((x, i) => (x - less[i]!) / 2),
    );
  }
  return shift.map((x, i) => (boxes[i]!.isOpen ? 0 : x));
}

/** What something wrong changes in the part of its output; nothing in the others. */
function changeOf(wrong: Fault, plan: Plan): Change & { readonly output: string } {
  if (wrong.kind === 'none') return { output: '' };
  if (wrong.kind === 'resistance' || wrong.kind === 'open circuit') {
    const named = plan.spots.find(({ name }) => name === wrong.place)!;
    const { output } = named.spot;
    return wrong.kind === 'resistance'
      ? { output, extra: { ...named, ohm: wrong.ohm } }
      : { output, open: named };
  }
  const { circuit } = plan.parts.find((part) => part.circuit.partsOfRun.has(wrong.place))!;
  return { output: circuit.output, missing: wrong.place, isUnfed: wrong.kind === 'unfed run' };
}

/** The model on a site: its readings are straight lines of the unknowns through where they are. */
function onSite(site: readonly number[], wrong: Fault, plan: Plan): SiteModel {
  const { parts, boxes, cables, unknowns, spots } = plan;
  const ratios = ratiosAt(site, unknowns);
  const { output: worse, ...there } = changeOf(wrong, plan);
  const standing = parts.map((part) => ({
    ...standOn(part, ratios, cables),
    change: part.circuit.output === worse ? there : {},
  }));
  const sound = Array<number>(boxes.length).fill(0);
  for (const one of standing) scatter(sound, one.part, read(one, {}));
  const shifts = unknowns.map((_, k) => shiftOf(k, site, standing, plan));
  const back = (values: readonly number[]): number[] =>
    values.map((x, i) => shifts.reduce((sum, shift, k) => sum - (site[k] ?? 0) * shift[i]!, x));
  return {
    shifts,
    predict: (now) => {
      const { output, ...change } = changeOf(now, plan);
      const one = standing.find(({ part }) => part.circuit.output === output);
      return back(one ? scatter([...sound], one.part, read(one, change)) : sound);
    },
    resistancePlaces: spots.map(({ name }) => name),
    ...(boxes.some(({ isOpen }) => isOpen)
      ? { openPlaces: spots.filter(({ spot }) => spot.inLoop).map(({ name }) => name) }
      : {}),
    runs: parts.flatMap(({ circuit }) => [...circuit.partsOfRun.keys()]),
  };
}

/**
 * The network of a settled job as a model of what meters read on it: volts and amps from the solved circuit of the
 * output concerned, loops from copper and contacts at 20 degC, for the job as planned and with one thing wrong.
 *
 * Each output is planned once and solved by itself, from its sound state. The two rails of a place are told apart
 * where the boxes do. Away from the plan `predict` gives the straight lines that meet the readings there, so that
 * with `shifts` it holds for any site nearby: `f(site) - J*site`.
 *
 * @param boxes those that were measured; where a loop is open, loops alone, since nothing is energised with one
 * Refuses nothing; a job that did not settle throws `RangeError`. Strips of several channels count with all their
 * returns alike. Check: `tests/readings/reading-model.test.ts`.
 */
export function jobReadings(settled: Settled, boxes: readonly Box[]): JobReadings {
  const circuits = outputCircuits(settled);
  const parts = circuits.map((circuit) => partOfOutput(circuit, boxes, settled));
  const cables = settled.description.cables.map(({ id }) => id);
  const spreads = siteSpreads(voltTolerance(settled.allocation, settled.wired.products));
  const unknowns = unknownsOf(
    circuits.map(({ output }) => output),
    cables,
    spreads,
  );
  const planned = ratiosAt([], unknowns);
  const spots = parts.flatMap((part) => {
    const sound = standOn(part, planned, new Set(cables));
    return spotsOf(part.circuit, settled).flatMap((spot) => namedSpots(spot, sound));
  });
  const plan = { parts, boxes, cables: new Set(cables), unknowns, spots };
  return {
    unknowns,
    at: (site, wrong) => onSite(site, wrong, plan),
    placeOf: (name) => spots.find((one) => one.name === name)?.spot.place ?? { run: name },
  };
}
