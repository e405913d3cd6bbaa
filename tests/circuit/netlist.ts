import { Simulation } from 'eecircuit-engine';
import type { CircuitDescription, Conductor, Run, Terminal } from '../../src/circuit/description.ts';

/** Thermal voltage at 27 degC with the simulator's own constants, so that its diode is the law's diode. */
const thermal_V = (1.38064852e-23 * 300.15) / 1.6021766208e-19;

/** Tight enough that the simulator's last step leaves 1e-10 V, loose enough that it sees itself converge. */
const tightOptions = '.options reltol=1e-7 abstol=1e-10 vntol=1e-8 gmin=1e-15 itl1=500';

export interface SimulatedChannel {
  readonly unit_V: number[];
  readonly unit_A: number[];
}

/** What the simulator answers: volts and amps by `run/channel`, amps by source. */
export interface Simulated {
  readonly channels: ReadonlyMap<string, SimulatedChannel>;
  readonly source_A: ReadonlyMap<string, number>;
  /** Processor time it took, ms. */
  readonly solve_ms: number;
}

/** A started simulator; keep one per test file, and under sixty runs. */
export async function startSimulator(): Promise<Simulation> {
  const simulator = new Simulation();
  await simulator.start();
  return simulator;
}

/** Reads a value of the simulator's by its name: `v(node)`, or `i(source)`. */
export type Read = (name: string) => number;

/** Puts a netlist to the simulator, and reads off what it answers; throws where it complains. */
export async function answered(simulator: Simulation, lines: readonly string[]): Promise<Read> {
  simulator.setNetList(['circuit under test', tightOptions, ...lines, '.op', '.end'].join('\n'));
  const result = await simulator.runSim();
  const errors = simulator.getError();
  if (errors.length > 0 || result.dataType !== 'real') throw new Error(`simulator: ${errors.join('; ')}`);
  const values = new Map(result.data.map(({ name, values: [value] }) => [name, value!]));
  return (name) => {
    const value = values.get(name);
    if (value === undefined) throw new Error(`simulator gave no ${name}`);
    return value;
  };
}

/** Volts and amps of every unit of a run that `writeRun` has written, channel by channel. */
export function readRun(run: Run, r: number, read: Read): SimulatedChannel[] {
  const units = Array.from({ length: run.unitCount }, (_, u) => u);
  const volts = (node: string): number => read(`v(${node})`);
  return run.channels.map((channel, c) => {
    const unit_V = units.map((u) => volts(`p${r}u${u}`) - volts(`r${r}c${c}u${u}`));
    const { resistance_ohm, nominal_A } = constants(run, c);
    const unit_A = units.map((u) => {
      if (channel.level === 0) return 0;
      const plus_V = volts(channel.law.kind === 'resistor' ? `p${r}u${u}` : `e${r}c${c}u${u}`);
      const pair_A = (channel.level * (plus_V - volts(`m${r}c${c}u${u}`))) / resistance_ohm;
      return channel.law.kind === 'resistor' ? pair_A : Math.min(pair_A, channel.level * nominal_A);
    });
    return { unit_V, unit_A };
  });
}

/**
 * Puts a circuit to the simulator. Written from the description alone, with every cut line a node, so that it
 * shares nothing with the network builder: a unit is a diode and a resistor in series; a regulated unit copies
 * its volts to such a pair and draws the pair's current or the nominal one, whichever is less.
 */
export async function simulate(simulator: Simulation, description: CircuitDescription): Promise<Simulated> {
  const lines = netlist(description);
  const before = process.cpuUsage();
  const read = await answered(simulator, lines);
  const { user, system } = process.cpuUsage(before);
  const channels = new Map(
    description.runs.flatMap((run, r) =>
      readRun(run, r, read).map((each, c) => [`${run.id}/${run.channels[c]!.id}`, each] as const),
    ),
  );
  const source_A = new Map(description.sources.map(({ id }, s) => [id, -read(`i(v${s})`)]));
  return { channels, source_A, solve_ms: (user + system) / 1000 };
}

/** Constants of the strip law straight from its definition. */
function constants(run: Run, c: number) {
  const { law } = run.channels[c]!;
  const nominal_A = law.unit_W / law.nominal_V;
  const forward_V = law.lampForward_V - 0.002 * (run.strip_degC - 25);
  const saturation_A = nominal_A / (Math.exp(forward_V / law.slope_V) - 1);
  const spare_V =
    law.kind === 'resistor' ? law.nominal_V - law.lampsInSeries * law.lampForward_V : law.dropout_V;
  return { nominal_A, saturation_A, resistance_ohm: spare_V / nominal_A };
}

function netlist(description: CircuitDescription): string[] {
  const lines: string[] = [];
  const resistor = (a: string, b: string, ohm: number): void => {
    lines.push(`R${lines.length} ${a} ${b} ${Math.max(ohm, 1e-6)}`);
  };
  description.sources.forEach(({ set_V }, s) => {
    lines.push(`V${s} sp${s} sm${s} ${set_V}`);
    if (s === 0) lines.push(`Vground sm${s} 0 0`);
    else lines.push(`Rground${s} sm${s} 0 1e8`);
  });
  description.runs.forEach((run, r) => {
    writeRun(lines, resistor, run, r);
  });
  const node = (terminal: Terminal, channel?: string): string => {
    if ('source' in terminal) {
      const s = description.sources.findIndex(({ id }) => id === terminal.source);
      return channel === undefined ? `sp${s}` : `sm${s}`;
    }
    if ('tap' in terminal) {
      const t = description.taps.findIndex(({ id }) => id === terminal.tap);
      const rail = description.taps[t]!.hasOneMinus ? 'minus' : channel;
      return channel === undefined ? `tp${t}` : `t${t}c${rail}`;
    }
    const r = description.runs.findIndex(({ id }) => id === terminal.run);
    const c = description.runs[r]!.channels.findIndex(({ id }) => id === channel);
    return channel === undefined ? `p${r}k${terminal.cutLine}` : `r${r}c${c}k${terminal.cutLine}`;
  };
  const conductor = (one: Conductor, channel?: string): void => {
    const pads = Number('run' in one.from) + Number('run' in one.to);
    resistor(
      node(one.from, channel),
      node(one.to, channel),
      one.length_m * one.ohm_per_m + pads * one.contact_ohm + (one.series_ohm ?? 0),
    );
  };
  for (const cable of description.cables) {
    conductor(cable.positive);
    for (const one of cable.returns) conductor(one, one.channel);
  }
  return lines;
}

/**
 * Writes a run: its rails, half a unit at a time, with its joints, and the lamps of every unit. Nodes are `p0k3` and `r0c1k3` at
 * cut line 3 of run 0, plus and the return of channel 1, and `p0u3`, `r0c1u3` at the middle of unit 3.
 */
export function writeRun(
  lines: string[],
  resistor: (a: string, b: string, ohm: number) => void,
  run: Run,
  r: number,
): void {
  const warm = 1 + 0.00393 * (run.strip_degC - 20);
  const joint = (k: number): number => run.joints.find(({ cutLine }) => cutLine === k)?.contact_ohm ?? 0;
  const rail = (name: string, ohm_per_m: number): void => {
    const half = (ohm_per_m * warm * run.unitLength_m) / 2;
    for (let u = 0; u < run.unitCount; u++) {
      resistor(`${name}k${u}`, `${name}u${u}`, half + joint(u) / 2);
      resistor(`${name}u${u}`, `${name}k${u + 1}`, half + joint(u + 1) / 2);
    }
  };
  rail(`p${r}`, run.positiveRail_ohm_per_m);
  run.channels.forEach(({ returnRail_ohm_per_m, law, level }, c) => {
    rail(`r${r}c${c}`, returnRail_ohm_per_m);
    const { nominal_A, saturation_A, resistance_ohm } = constants(run, c);
    lines.push(
      `.model D${r}c${c} D(IS=${level * saturation_A} N=${(law.lampsInSeries * law.slope_V) / thermal_V})`,
    );
    for (let u = 0; u < run.unitCount && level > 0; u++) {
      const at = `${r}c${c}u${u}`;
      if (law.kind === 'resistor') {
        resistor(`p${r}u${u}`, `m${at}`, resistance_ohm / level);
        lines.push(`D${at} m${at} r${at} D${r}c${c}`);
      } else {
        lines.push(`E${at} e${at} 0 p${r}u${u} r${at} 1`);
        resistor(`e${at}`, `m${at}`, resistance_ohm / level);
        lines.push(`D${at} m${at} q${at} D${r}c${c}`);
        lines.push(`Vq${at} q${at} 0 0`);
        lines.push(`B${at} p${r}u${u} r${at} I=min(i(Vq${at}),${level * nominal_A})`);
      }
    }
  });
}
