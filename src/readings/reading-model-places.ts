import type { Place } from '../outcome.ts';
import { partnerOf } from '../sizing/circuit-of-job.ts';
import type { Settled } from '../sizing/settle.ts';
import { cableEndText, mm } from '../words.ts';
import { jointAt, type OutputCircuit, partingLines, terminalOf } from './reading-model-circuit.ts';
import type { Rail } from './reading-model-loops.ts';

/** An element of the circuit between two ends. */
type Branch = Settled['wired']['installation']['branches'][number];

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
function fuseSpot(fuse: Branch, { output, driver }: OutputCircuit): Spot {
  return {
    name: `fuse ${fuse.id} or its holder`,
    place: { driver },
    output,
    cable: fuse.id,
    rails: ['plus'],
    inLoop: false,
  };
}

/** Branches behind an output that are no link and no dimmer. */
function branchesBehind({ description }: OutputCircuit, { wired }: Settled): Branch[] {
  const own = new Set(description.cables.map(({ id }) => id));
  const { branches, cables } = wired.installation;
  const links = new Set(cables.filter(({ kind }) => kind === 'link').map(({ id }) => id));
  const isDimmer = ({ cable, to }: Branch): boolean => cable === null && to.kind === 'dimmer';
  return branches.filter(
    (branch) => own.has(partnerOf(branch.id, wired)) && !links.has(branch.cable ?? '') && !isDimmer(branch),
  );
}

/** Shared fuses that carry all of an output, so that nothing tells them from its terminals. */
function wholeFuses(branches: readonly Branch[]): Branch[] {
  const atBar = branches.filter((branch) => isHead(branch) && !isBehindFuse(branch));
  return atBar.length === 1 ? atBar.filter(({ cable }) => cable === null) : [];
}

/** Whether a branch leaves a way whose fuse is an element of its own. */
const isBehindFuse = ({ from }: Branch): boolean => from.kind === 'block' && from.way !== null;

/** What the near end of a branch is made off to. */
function nearEnd({ id, cable, from }: Branch, { wired }: Settled): string {
  const legs = wired.installation.cables.find((each) => each.id === cable)!.legs;
  return cableEndText(legs.find((leg) => leg.id === id)?.from ?? from);
}

/** A near end of a cable in words. */
const nearName = (branch: Branch, settled: Settled): string =>
  `the near end of cable ${branch.cable} at ${nearEnd(branch, settled)}`;

/** Near ends of the cables of an output. */
const headsOf = (branches: readonly Branch[]): Branch[] =>
  branches.filter((branch) => isHead(branch) && branch.cable !== null);

/** Whether more than one cable leaves, so that a near end has less than all of the current of the output. */
const areSeveral = (heads: readonly Branch[], { wired }: Settled): boolean =>
  new Set(heads.map(({ id }) => partnerOf(id, wired))).size > 1;

function cableSpots(circuit: OutputCircuit, settled: Settled): Spot[] {
  const branches = branchesBehind(circuit, settled);
  const whole = wholeFuses(branches);
  const heads = headsOf(branches);
  const isNear = areSeveral(heads, settled) && !branches.some(goesRound);
  return branches.flatMap((branch) => {
    if (branch.cable === null) return whole.includes(branch) ? [] : [fuseSpot(branch, circuit)];
    const common = {
      output: circuit.output,
      cable: partnerOf(branch.id, settled.wired),
      rails: railsOf[branch.conductors],
    };
    const near = {
      name: nearName(branch, settled),
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

/** What passes all the current of an output: its terminals, links, a fuse, and the near end of a cable that is alone. */
function terminalNames(circuit: OutputCircuit, settled: Settled): string[] {
  const { output } = circuit;
  const branches = branchesBehind(circuit, settled);
  const heads = headsOf(branches);
  const isAlone = !areSeveral(heads, settled) && heads.some(({ from }) => from.kind !== 'output');
  const { installation } = settled.wired;
  const links = installation.cables.filter((each) => each.kind === 'link' && each.output === output);
  const dimmers = installation.dimmers.filter((each) => each.output === output);
  return [
    `the terminals of output ${output}`,
    ...links.map(({ id }) => `cable ${id}`),
    ...dimmers.map(({ id }) => `dimmer ${id}`),
    ...wholeFuses(branches).map(({ id }) => `fuse ${id}`),
    ...(isAlone ? heads.map((head) => nearName(head, settled)) : []),
  ];
}

function terminalSpot(circuit: OutputCircuit, settled: Settled): Spot {
  const { output, driver } = circuit;
  const names = terminalNames(circuit, settled);
  return {
    name: names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`,
    place: { driver },
    output,
    cable: terminalOf(output),
    rails: ['plus'],
    inLoop: false,
  };
}

/**
 * Every place where an extra resistance may sit behind an output: its terminals with the cables that hand all of its
 * current on and a fuse all of it passes, where both rails count as one because it passes both; the far end of every cable;
 * the near end of every cable where an output has several and loops tell its two ends apart; every fuse that several cables share; every
 * joint that is not a feed point too.
 */
export function spotsOf(circuit: OutputCircuit, settled: Settled): Spot[] {
  return [terminalSpot(circuit, settled), ...cableSpots(circuit, settled), ...jointSpots(circuit, settled)];
}
