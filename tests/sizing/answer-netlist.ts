import type { Simulation } from 'eecircuit-engine';
import type { Cable, CableEnd } from '../../src/answer/cables.ts';
import type { Run } from '../../src/circuit/description.ts';
import type { Job, Sizing } from '../../src/index.ts';
import { answered, type Read, readRun, type SimulatedChannel, writeRun } from '../circuit/netlist.ts';

/** What the simulator answers of a wall: volts and amps as the answer gives them, by the same names. */
export interface SimulatedWall {
  /** By run, each channel in the order of the strip. */
  readonly channels: ReadonlyMap<string, readonly SimulatedChannel[]>;
  /** By `run/cut line`: plus, then the minus of each channel, over the minus of the driver output. */
  readonly pads: ReadonlyMap<string, readonly number[]>;
  /** By leg, each core in its order. */
  readonly cores: ReadonlyMap<string, readonly number[]>;
  readonly fuse_A: ReadonlyMap<string, number>;
  /** By leg: lost in contacts at pads, taps and blocks. */
  readonly contacts_W: ReadonlyMap<string, number>;
}

type Leg = Cable['legs'][number];

/** Copper of 100 % conductivity, per kelvin from 20 degC: IEC 60028 (secondary). */
const warmer = (degC: number): number => 1 + 0.00393 * (degC - 20);

/** A run as the set-out, the data sheet of the strip and the temperature in the answer describe it. */
function stripOf({ setOut, circuit, products: { strip } }: Sizing, job: Job, r: number): Run {
  const { id, unitCount, jointLines } = setOut.runs[r]!;
  const levels = circuit.level === 'working' ? job.dimming.levels : strip.channels.map(() => 1);
  return {
    id,
    unitCount,
    unitLength_m: 1 / strip.unitsPerMetre,
    positiveRail_ohm_per_m: strip.railPositive_mohm_per_m / 1000,
    strip_degC: circuit.runs[r]!.strip_degC,
    joints: jointLines.map((cutLine) => ({ cutLine, contact_ohm: job.feeds.joint_mohm / 1000 })),
    channels: strip.channels.map((channel, c) => ({
      id: channel.name,
      returnRail_ohm_per_m: strip.railReturn_mohm_per_m / 1000,
      level: levels[c]!,
      law: {
        kind: strip.law,
        nominal_V: strip.nominal_V,
        unit_W: channel.watts_per_m / strip.unitsPerMetre,
        lampsInSeries: channel.lampsInSeries,
        lampForward_V: channel.lampForward_V,
        slope_V: strip.slope_V,
        dropout_V: strip.dropout_V,
      },
    })),
  };
}

/** Contacts a conductor of a leg goes through: screws of a block, pads, and what a branch or the end of a trunk is clamped to. */
function contactCount(cable: Cable, { from, to }: Leg, isLast: boolean): number {
  const screwed = [from, to].filter(({ kind }) => kind === 'pad' || kind === 'block').length;
  const leaves = from.kind === 'tap' && cable.kind === 'branch';
  const ends = to.kind === 'tap' && isLast;
  return screwed + Number(leaves) + Number(ends);
}

type Rail = 'plus' | number;

/** The wall as the simulator is told it. */
class Netlist {
  readonly lines: string[] = [];
  readonly #numbers = new Map<string, number>();
  readonly #answer: Sizing;

  constructor(answer: Sizing) {
    this.#answer = answer;
  }

  #number(name: string): string {
    if (!this.#numbers.has(name)) this.#numbers.set(name, this.#numbers.size);
    return `n${this.#numbers.get(name)}`;
  }

  readonly resistor = (a: string, b: string, ohm: number): void => {
    this.lines.push(`R${this.lines.length} ${a} ${b} ${Math.max(ohm, 1e-6)}`);
  };

  /** A resistance behind a meter, which is a source of no volts. */
  metered(name: string, a: string, b: string, ohm: number): void {
    this.lines.push(`Vmeter_${name} ${a} behind_${name} 0`);
    this.resistor(`behind_${name}`, b, ohm);
  }

  /** Where a conductor ends. Plus goes on behind the fuse of its way; every minus of a block is one bar. */
  node(end: CableEnd, rail: Rail): string {
    if (end.kind === 'pad') {
      const r = this.#answer.setOut.runs.findIndex(({ id }) => id === end.run);
      return rail === 'plus' ? `p${r}k${end.cutLine}` : `r${r}c${rail}k${end.cutLine}`;
    }
    if (end.kind === 'output') return rail === 'plus' ? this.plusOf(end.id) : this.minusOf(end.id);
    if (end.kind === 'dimmer')
      return this.#number(
        rail === 'plus' ? `${end.id} plus` : `${end.id} ${end.side} ${end.side === 'in' ? 'minus' : rail}`,
      );
    if (end.kind === 'tap') return this.#number(`${end.id} ${rail}`);
    const block = this.#answer.installation.blocks.find(({ id }) => id === end.id)!;
    const fuse = block.ways.find(({ number }) => number === end.way)?.fuse ?? null;
    return rail === 'plus' && fuse ? this.behind(fuse.id) : this.bar(end.id, rail);
  }

  plusOf = (output: string): string => this.#number(`${output} plus`);
  minusOf = (output: string): string => this.#number(`${output} minus`);
  /** A block behind a dimmer has a bar for each channel, any other one minus. */
  bar = (block: string, rail: Rail): string => {
    const { output } = this.#answer.installation.blocks.find(({ id }) => id === block)!;
    const isDimmed = this.#answer.installation.dimmers.some((dimmer) => dimmer.output === output);
    return this.#number(`${block} bar ${rail === 'plus' || isDimmed ? rail : 'minus'}`);
  };
  behind = (fuse: string): string => this.#number(`${fuse} out`);
}

const meter = (leg: number, core: number): string => `${leg}_${core}`;

/** Legs of all cables, each with its own, in one order. */
const legsOf = ({ cables }: Sizing) =>
  cables.flatMap((cable) =>
    cable.legs.map((leg, i) => ({ cable, leg, isLast: i === cable.legs.length - 1 })),
  );

/** Which rail each core of a cable is. */
function railsOf({ conductors, kind, from }: Cable, channelCount: number): Rail[] {
  // An output has one plus and one minus.
  const isPair = kind === 'link' && from.kind === 'output';
  const homes = Array.from({ length: isPair ? 1 : channelCount }, (_, c) => c);
  return [...(conductors === 'return' ? [] : ['plus' as const]), ...(conductors === 'positive' ? [] : homes)];
}

function writeLegs(list: Netlist, answer: Sizing, job: Job): void {
  const { strip } = answer.products;
  legsOf(answer).forEach(({ cable, leg, isLast }, l) => {
    const copper_ohm = (leg.loop_ohm / (cable.conductors === 'both' ? 2 : 1)) * warmer(job.cables.cable_degC);
    const contacts_ohm = (contactCount(cable, leg, isLast) * job.feeds.terminal_mohm) / 1000;
    railsOf(cable, strip.channels.length).forEach((rail, core) => {
      const [from, to] = [list.node(leg.from, rail), list.node(leg.to, rail)];
      const ohm = copper_ohm + contacts_ohm;
      if (rail === 'plus') list.metered(meter(l, core), from, to, ohm);
      else list.metered(meter(l, core), to, from, ohm);
    });
  });
}

/** Each channel of a dimmer is switched between its own minus and the one that goes home. */
function writeDimmers(list: Netlist, { installation, products: { strip, dimmer } }: Sizing): void {
  for (const { id } of installation.dimmers)
    strip.channels.forEach((_, c) => {
      const [out, home] = (['out', 'in'] as const).map((side) => list.node({ kind: 'dimmer', id, side }, c));
      list.resistor(out!, home!, dimmer!.resistance_mohm / 1000);
    });
}

const fusesOf = ({ installation }: Sizing) =>
  installation.blocks.flatMap(({ id, ways }) =>
    ways.flatMap(({ fuse }) => (fuse ? [{ block: id, fuse }] : [])),
  );

/** A fuse lies between the bar of its block and the plus of its way. */
function writeFuses(list: Netlist, answer: Sizing): void {
  fusesOf(answer).forEach(({ block, fuse }, f) => {
    list.metered(`fuse${f}`, list.bar(block, 'plus'), list.behind(fuse.id), fuse.resistance_mohm / 1000);
  });
}

const outputsOf = ({ cables }: Sizing): string[] => [...new Set(cables.map(({ output }) => output))];

function writeSources(list: Netlist, answer: Sizing): void {
  outputsOf(answer).forEach((output, s) => {
    list.lines.push(`Vdriver${s} ${list.plusOf(output)} ${list.minusOf(output)} ${answer.set_V}`);
    // Outputs are isolated from one another, so that each may be tied to the ground that a simulator needs.
    list.lines.push(`Vground${s} ${list.minusOf(output)} 0 0`);
  });
}

/**
 * Puts a sized wall to the general circuit simulator, from its answer alone: legs with their loops, lengths and ends, ways of
 * blocks with their fuses, what a contact and a joint of the job have, rails, law and temperature of the strip. It shares
 * nothing with the network the engine builds, nor with the branches it builds that from.
 */
export async function simulateWall(simulator: Simulation, job: Job, answer: Sizing): Promise<SimulatedWall> {
  const list = new Netlist(answer);
  const strips = answer.setOut.runs.map((_, r) => stripOf(answer, job, r));
  writeSources(list, answer);
  writeFuses(list, answer);
  writeLegs(list, answer, job);
  writeDimmers(list, answer);
  strips.forEach((strip, r) => {
    writeRun(list.lines, list.resistor, strip, r);
  });
  const read = await answered(simulator, list.lines);
  return {
    channels: new Map(strips.map((strip, r) => [strip.id, readRun(strip, r, read)])),
    pads: readPads(list, answer, read),
    ...readLegs(answer, job, read),
    fuse_A: readFuses(answer, read),
  };
}

function readPads(list: Netlist, { circuit, products }: Sizing, read: Read): Map<string, number[]> {
  const rails: Rail[] = ['plus', ...products.strip.channels.map((_, c) => c)];
  const pads = circuit.runs.flatMap(({ run, pads: of }) => of.map(({ cutLine }) => ({ run, cutLine })));
  return new Map(
    pads.map(({ run, cutLine }) => {
      const at = { kind: 'pad', run, cutLine, feedPoint: null } as const;
      return [`${run}/${cutLine}`, rails.map((rail) => read(`v(${list.node(at, rail)})`))];
    }),
  );
}

function readLegs(answer: Sizing, job: Job, read: Read): Pick<SimulatedWall, 'cores' | 'contacts_W'> {
  const channelCount = answer.products.strip.channels.length;
  const legs = legsOf(answer).map(({ cable, leg, isLast }, l) => {
    const amps = railsOf(cable, channelCount).map((_, core) => read(`i(vmeter_${meter(l, core)})`));
    const ohm = (contactCount(cable, leg, isLast) * job.feeds.terminal_mohm) / 1000;
    return { id: leg.id, amps, contacts_W: amps.reduce((sum, current_A) => sum + current_A ** 2 * ohm, 0) };
  });
  return {
    cores: new Map(legs.map(({ id, amps }) => [id, amps])),
    contacts_W: new Map(legs.map(({ id, contacts_W }) => [id, contacts_W])),
  };
}

const readFuses = (answer: Sizing, read: Read): Map<string, number> =>
  new Map(fusesOf(answer).map(({ fuse }, f) => [fuse.id, read(`i(vmeter_fuse${f})`)]));
