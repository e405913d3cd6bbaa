import type { Place } from '../outcome.ts';
import type { LaidCable } from '../set-out/cable-ways.ts';
import { partnerOf } from '../sizing/circuit-of-job.ts';
import type { Settled } from '../sizing/settle.ts';
import { mm } from '../words.ts';
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

const railsOf: Readonly<Record<LaidCable['conductors'], readonly Rail[]>> = {
  both: ['plus', 'minus'],
  positive: ['plus'],
  return: ['minus'],
};

function farEnd({ to, id }: LaidCable): Pick<Spot, 'name' | 'place'> {
  if (to.kind === 'pad' && to.feedPoint)
    return {
      name: `feed point ${to.feedPoint} or in its cable ${id}`,
      place: { feedPoint: to.feedPoint, cable: id, run: to.run },
    };
  return { name: `the end of cable ${id} at ${to.kind === 'pad' ? to.run : to.id}`, place: { cable: id } };
}

function cableSpots(circuit: OutputCircuit, settled: Settled): Spot[] {
  const { wired } = settled;
  const { layout } = wired.job.cables;
  const own = new Set(circuit.description.cables.map(({ id }) => id));
  const laid = wired.cables.filter(({ id }) => own.has(partnerOf(id, wired)));
  const fromOutput = laid.filter(({ from }) => from.kind === 'output');
  const several = new Set(fromOutput.map(({ id }) => partnerOf(id, wired))).size > 1;
  const isNear = layout === 'radial' || layout === 'trunk' ? several : false;
  return laid.flatMap((cable) => {
    const common = {
      output: circuit.output,
      cable: partnerOf(cable.id, wired),
      rails: railsOf[cable.conductors],
    };
    const near = {
      name: `the driver's end of cable ${cable.id}`,
      place: { cable: cable.id },
      ...common,
      inLoop: false,
    };
    const far = { ...farEnd(cable), ...common, inLoop: true };
    return isNear && fromOutput.includes(cable) ? [far, near] : [far];
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

/**
 * Every place where an extra resistance may sit behind an output: its terminals, where both rails count as one
 * because all current of the output passes both; the far end of every cable; the driver's end of every cable where
 * an output has several and loops tell its two ends apart; every joint that is not a feed point too.
 */
export function spotsOf(circuit: OutputCircuit, settled: Settled): Spot[] {
  const terminal: Spot = {
    name: `the terminals of output ${circuit.output}`,
    place: { driver: circuit.driver },
    output: circuit.output,
    cable: terminalOf(circuit.output),
    rails: ['plus'],
    inLoop: false,
  };
  return [terminal, ...cableSpots(circuit, settled), ...jointSpots(circuit, settled)];
}
