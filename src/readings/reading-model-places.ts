import type { Branch } from '../installation/plan.ts';
import type { Place } from '../outcome.ts';
import { partnerOf } from '../sizing/circuit-of-job.ts';
import type { Settled } from '../sizing/settle.ts';
import { cableEndText, mm, naming } from '../words.ts';
import { jointAt, type OutputCircuit, partingLines, terminalOf } from './reading-model-circuit.ts';
import type { Rail } from './reading-model-loops.ts';

/** Where an extra resistance may sit: a cable of an output's circuit, by the rail. */
export interface Spot {
  /** What a reader calls the place. */
  readonly name: string;
  readonly place: Place;
  readonly output: string;
  readonly cable: string;
  readonly rails: readonly Rail[];
  /** Whether a loop along the cable passes it; the driver's end of a cable is taken off for that. */
  readonly inLoop: boolean;
}

const railsOf: Readonly<Record<Branch['conductors'], readonly Rail[]>> = {
  both: ['plus', 'minus'],
  positive: ['plus'],
  return: ['minus'],
};

function farEnd({ to, id }: Branch): Pick<Spot, 'name' | 'place'> {
  if (to.kind === 'pad' && to.feedPoint)
    return {
      name: `feed point ${to.feedPoint} or in its cable ${id}`,
      place: { feedPoint: to.feedPoint, cable: id, run: to.run },
    };
  return { name: `the end of cable ${id} at ${cableEndText(to)}`, place: { cable: id } };
}

/** Whether a branch leaves what hands on the current of an output. */
const isHead = ({ from }: Branch): boolean =>
  from.kind === 'output' || from.kind === 'dimmer' || from.kind === 'block';

/** Whether a branch is part of a way that no loop is measured along: back to the output, or on from a run. */
const goesRound = ({ from, to }: Branch): boolean =>
  from.kind === 'pad' ||
  to.kind === 'output' ||
  (to.kind === 'block' && to.way !== null && from.kind === 'tap');

/** A fuse that several cables share, with its holder. */
function fuseSpot(fuse: Branch, output: string): Spot {
  return {
    name: `fuse ${fuse.id} or its holder`,
    place: {},
    output,
    cable: fuse.id,
    rails: ['plus'],
    inLoop: false,
  };
}

function cableSpots(circuit: OutputCircuit, { wired }: Settled): Spot[] {
  const { installation } = wired;
  const own = new Set(circuit.description.cables.map(({ id }) => id));
  const links = new Set(installation.cables.filter(({ kind }) => kind === 'link').map(({ id }) => id));
  const branches = installation.branches.filter(
    ({ id, cable }) => own.has(partnerOf(id, wired)) && !links.has(cable ?? ''),
  );
  const heads = branches.filter(isHead);
  const several = new Set(heads.map(({ id }) => partnerOf(id, wired))).size > 1;
  const isNear = several && !branches.some(goesRound);
  return branches.flatMap((branch) => {
    if (branch.cable === null) return [fuseSpot(branch, circuit.output)];
    const common = {
      output: circuit.output,
      cable: partnerOf(branch.id, wired),
      rails: railsOf[branch.conductors],
    };
    const near = {
      name: `the near end of cable ${branch.cable} at ${cableEndText(branch.from)}`,
      place: { cable: branch.cable },
      ...common,
      inLoop: false,
    };
    const far = { ...farEnd(branch), ...common, inLoop: true };
    return isNear && heads.includes(branch) ? [far, near] : [far];
  });
}

function jointSpots(circuit: OutputCircuit, { wired }: Settled): Spot[] {
  return [...circuit.partsOfRun.keys()].flatMap((run) =>
    partingLines(run, wired).map((line) => ({
      name: `the joint ${mm((1000 * line) / wired.products.strip.unitsPerMetre)} from the start of run ${run}`,
      place: { run },
      output: circuit.output,
      cable: jointAt(run, line),
      rails: ['plus', 'minus'] as const,
      inLoop: true,
    })),
  );
}

/** Terminals of an output, and with them the cables that hand all of its current on. */
function terminalSpot({ output, driver }: OutputCircuit, { wired }: Settled): Spot {
  const links = wired.installation.cables.filter((cable) => cable.kind === 'link' && cable.output === output);
  const ids = links.map(({ id }) => id);
  return {
    name: `the terminals of output ${output}${ids.length > 0 ? ` or ${naming('cable', ids)}` : ''}`,
    place: { driver },
    output,
    cable: terminalOf(output),
    rails: ['plus'],
    inLoop: false,
  };
}

/**
 * Every place where an extra resistance may sit behind an output: its terminals with the cables that hand all of its
 * current on, where both rails count as one because all of it passes both; the far end of every cable; the near end of
 * every cable where an output has several and loops tell its two ends apart; every fuse that several cables share; every
 * joint that is not a feed point too.
 */
export function spotsOf(circuit: OutputCircuit, settled: Settled): Spot[] {
  return [terminalSpot(circuit, settled), ...cableSpots(circuit, settled), ...jointSpots(circuit, settled)];
}
