import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { CircuitDescription } from '../circuit/description.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import type { LoopPath } from '../hand-over/dead-test.ts';
import { worstChannel } from '../sizing/channels.ts';
import { partnerOf } from '../sizing/circuit-of-job.ts';
import { dimmerOwn_A } from '../sizing/drivers-of-job.ts';
import type { Settled } from '../sizing/settle.ts';
import type { OutputCircuit } from './reading-model-circuit.ts';

/** One box of the test sheet to be predicted. */
export interface Box {
  readonly row: string;
  readonly quantity: 'loop' | 'noLoad' | 'loaded' | 'current';
  /** What the row's loop passes; null where it has none. */
  readonly path: LoopPath | null;
  /** What of the reading the meter leaves open by itself, one standard deviation. */
  readonly spread: number;
  /** Whether the meter showed the loop to be open: it is predicted in siemens then. */
  readonly isOpen: boolean;
}

/** A solved circuit of one output, as a reader of a meter finds it. */
interface Lit {
  readonly description: CircuitDescription;
  readonly solution: CircuitSolution;
}

/** What a meter shows with all lit; no-load volts are those the driver is set to. */
export interface Row {
  /** The run the row is at; null for an output. */
  readonly run: string | null;
  readonly volts: (lit: Lit) => number;
  /** Missing at the end of a run, where there is no cable to measure. */
  readonly amps?: (lit: Lit) => number;
}

function outputRow({ wired }: Settled): Row {
  const own_A = dimmerOwn_A(wired);
  return {
    run: null,
    volts: ({ description }) => description.sources[0]!.set_V,
    amps: ({ solution }) => solution.sources[0]!.current_A + own_A,
  };
}

function feedRow(feedPoint: FeedPoint, circuit: OutputCircuit, { wired }: Settled): Row | undefined {
  const branch = wired.installation.branches.find(
    ({ to }) => to.kind === 'pad' && to.feedPoint === feedPoint.id,
  );
  if (!branch) return undefined;
  const id = partnerOf(branch.id, wired);
  const at = circuit.description.cables.findIndex((cable) => cable.id === id);
  return {
    run: feedPoint.run,
    volts: ({ solution }) => {
      const { positive, returns } = solution.cables[at]!;
      return positive.to_V - returns.reduce((sum, { to_V }) => sum + to_V, 0) / returns.length;
    },
    amps: ({ solution }) => solution.cables[at]!.positive.current_A,
  };
}

/** The last unit at an end, of the channel that is worst in the settled job. */
function endRow(run: Run, end: 'start' | 'finish', circuit: OutputCircuit, settled: Settled): Row {
  const { channels } = settled.solution.runs.find(({ id }) => id === run.id)!;
  const channel = channels.indexOf(worstChannel(channels));
  const part = circuit.partsOfRun.get(run.id)!.at(end === 'start' ? 0 : -1)!;
  const at = circuit.description.runs.findIndex(({ id }) => id === part);
  return {
    run: run.id,
    volts: ({ solution }) => solution.runs[at]!.channels[channel]!.unit_V.at(end === 'start' ? 0 : -1)!,
  };
}

function rowsOfRun(run: Run, circuit: OutputCircuit, settled: Settled): (readonly [string, Row])[] {
  const feeds = run.feedPoints.flatMap((feedPoint) => {
    const row = feedRow(feedPoint, circuit, settled);
    return row ? [[feedPoint.id, row] as const] : [];
  });
  const ends = (['start', 'finish'] as const).map((end) => {
    const cutLine = end === 'start' ? 0 : run.unitCount;
    const here = run.feedPoints.find((f) => f.cutLine === cutLine && f.conductors === 'both');
    const fed = feeds.find(([id]) => id === here?.id);
    return [`${run.id} ${end}`, fed?.[1] ?? endRow(run, end, circuit, settled)] as const;
  });
  return [...feeds, ...ends];
}

/** The rows of the test sheet that belong to one output, by their ids. */
export function rowsOf(circuit: OutputCircuit, settled: Settled): ReadonlyMap<string, Row> {
  const runs = settled.wired.runs.filter(({ id }) => circuit.partsOfRun.has(id));
  return new Map([
    [circuit.output, outputRow(settled)] as const,
    ...runs.flatMap((run) => rowsOfRun(run, circuit, settled)),
  ]);
}
