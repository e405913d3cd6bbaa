import {
  type Cable,
  type CircuitDescription,
  type Conductor,
  pairedCable,
  type Run,
  type Terminal,
} from '../circuit/description.ts';
import { partnerOf, type WiredJob } from '../sizing/circuit-of-job.ts';
import type { Settled } from '../sizing/settle.ts';

/**
 * The circuit of one output, with a cable wherever an extra resistance may sit: one of no length from the output's
 * terminals to all cables on it, and one across every joint, whose rails then have ohms of their own.
 */
export interface OutputCircuit {
  readonly driver: string;
  readonly output: string;
  /** The parts of every run, in order, by the run's id. */
  readonly partsOfRun: ReadonlyMap<string, readonly string[]>;
  readonly description: CircuitDescription;
}

/** Ids of the cables that stand for something else, and of the parts of a run between joints. */
export const terminalOf = (output: string): string => `${output} terminal`;
export const jointAt = (run: string, cutLine: number): string => `${run} joint ${cutLine}`;
export const partOf = (run: string, part: number): string => `${run} part ${part}`;

/** One ohm figure as a conductor: a metre of so many ohms. */
const lump = (ohm: number) => ({ length_m: 1, ohm_per_m: ohm, contact_ohm: 0 });

/** Joints that part a run; a joint at a feed point stays inside it, because the pad lies in its middle. */
export function partingLines(run: string, wired: WiredJob): number[] {
  const { jointLines, feedPoints } = wired.runs.find(({ id }) => id === run)!;
  return jointLines.filter((line) => feedPoints.every(({ cutLine }) => cutLine !== line));
}

interface Parted {
  readonly parts: readonly Run[];
  readonly links: readonly Cable[];
  /** Where a cut line of the run is now. */
  readonly at: (cutLine: number) => Terminal;
}

function part(run: Run, wired: WiredJob): Parted {
  const lines = partingLines(run.id, wired);
  const bounds = [0, ...lines, run.unitCount];
  const parts = bounds.slice(1).map((end, i) => {
    const from = bounds[i]!;
    const joints = run.joints
      .filter(({ cutLine }) => cutLine > from && cutLine < end)
      .map((joint) => ({ ...joint, cutLine: joint.cutLine - from }));
    return { ...run, id: partOf(run.id, i), unitCount: end - from, joints };
  });
  const links = lines.map((line, i) =>
    pairedCable({
      id: jointAt(run.id, line),
      channels: run.channels.map(({ id }) => id),
      from: { run: partOf(run.id, i), cutLine: line - bounds[i]! },
      to: { run: partOf(run.id, i + 1), cutLine: 0 },
      ...lump(run.joints.find(({ cutLine }) => cutLine === line)!.contact_ohm),
    }),
  );
  const at = (cutLine: number): Terminal => {
    const i = bounds.slice(1).findIndex((end) => cutLine <= end);
    return { run: partOf(run.id, i), cutLine: cutLine - bounds[i]! };
  };
  return { parts, links, at };
}

type Move = (terminal: Terminal) => Terminal;

function moveEnds<C extends Conductor>(conductor: C, move: Move): C {
  return { ...conductor, from: move(conductor.from), to: move(conductor.to) };
}

const tapsOf = (cables: readonly Cable[]): string[] => [
  ...new Set(
    cables.flatMap(({ positive: { from, to } }) =>
      [from, to].flatMap((end) => ('tap' in end ? [end.tap] : [])),
    ),
  ),
];

interface OutputOfDriver {
  readonly driver: string;
  readonly id: string;
  readonly runs: readonly string[];
}

function circuitOf(output: OutputOfDriver, settled: Settled): OutputCircuit {
  const { wired, description } = settled;
  const runs = description.runs.filter(({ id }) => output.runs.includes(id));
  const parted = new Map(runs.map((run) => [run.id, part(run, wired)]));
  const feeds = wired.runs.filter(({ id }) => parted.has(id)).flatMap((run) => run.feedPoints);
  const fed = new Set(feeds.map(({ id }) => id));
  const branches = wired.installation.branches.filter(({ serves }) => serves.some((id) => fed.has(id)));
  const own = new Set(branches.map(({ id }) => partnerOf(id, wired)));
  const move: Move = (terminal) => {
    if ('source' in terminal) return { tap: terminalOf(terminal.source) };
    return 'run' in terminal ? parted.get(terminal.run)!.at(terminal.cutLine) : terminal;
  };
  const terminal = pairedCable({
    id: terminalOf(output.id),
    channels: runs[0]!.channels.slice(0, 1).map(({ id }) => id),
    from: { source: output.id },
    to: { tap: terminalOf(output.id) },
    ...lump(0),
  });
  const cables = description.cables
    .filter(({ id }) => own.has(id))
    .map((cable) => ({
      ...cable,
      positive: moveEnds(cable.positive, move),
      returns: cable.returns.map((one) => moveEnds(one, move)),
    }));
  const all = [terminal, ...cables, ...[...parted.values()].flatMap(({ links }) => links)];
  return {
    driver: output.driver,
    output: output.id,
    partsOfRun: new Map([...parted].map(([run, { parts }]) => [run, parts.map(({ id }) => id)])),
    description: {
      sources: description.sources.filter(({ id }) => id === output.id),
      taps: tapsOf(all).map((id) => ({
        id,
        hasOneMinus:
          id === terminalOf(output.id) || description.taps.some((tap) => tap.id === id && tap.hasOneMinus),
      })),
      runs: [...parted.values()].flatMap(({ parts }) => parts),
      cables: all,
    },
  };
}

/**
 * The circuits of all outputs of a settled job, each by itself: what goes wrong behind one output changes nothing
 * behind another, because every driver holds its own volts. The terminal costs 1 micro-ohm, the least a branch has.
 */
export function outputCircuits(settled: Settled): OutputCircuit[] {
  const outputs = settled.allocation.drivers.flatMap((driver) =>
    driver.outputs.map(({ id, runs }) => ({ driver: driver.id, id, runs })),
  );
  return outputs.map((output) => circuitOf(output, settled));
}

/** The circuit with more ohms in one rail of one cable; every return of a cable counts as its minus. */
export function withExtra(
  description: CircuitDescription,
  extra: { readonly cable: string; readonly rail: 'plus' | 'minus'; readonly ohm: number },
): CircuitDescription {
  const worse = <C extends Conductor>(conductor: C): C => ({
    ...conductor,
    series_ohm: (conductor.series_ohm ?? 0) + extra.ohm,
  });
  const cables = description.cables.map((cable) => {
    if (cable.id !== extra.cable) return cable;
    return extra.rail === 'plus'
      ? { ...cable, positive: worse(cable.positive) }
      : { ...cable, returns: cable.returns.map(worse) };
  });
  return { ...description, cables };
}

/** The circuit with a run that draws nothing. */
export function withoutLoads(
  description: CircuitDescription,
  partIds: readonly string[],
): CircuitDescription {
  const runs = description.runs.map((run) =>
    partIds.includes(run.id)
      ? { ...run, channels: run.channels.map((channel) => ({ ...channel, level: 0 })) }
      : run,
  );
  return { ...description, runs };
}
