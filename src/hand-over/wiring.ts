import type { Cable, CircuitRun, Driver, DriverOutput, FeedPoint, Run } from '../answer/sizing.ts';
import type { HandOverInput } from './input.ts';

/** A driver output together with its driver. */
export interface OutputOfDriver {
  readonly driver: Driver;
  readonly output: DriverOutput;
}

/** Every driver output in use, driver by driver. */
export function outputsOf(input: HandOverInput): OutputOfDriver[] {
  return input.drivers.drivers.flatMap((driver) => driver.outputs.map((output) => ({ driver, output })));
}

/** Every feed point, run by run. */
export function feedPointsOf(input: HandOverInput): FeedPoint[] {
  return input.setOut.runs.flatMap((run) => run.feedPoints);
}

/** Cables a feed point draws through, from the driver on. */
export function cablesTo(feedPoint: FeedPoint, input: HandOverInput): Cable[] {
  return input.cables.filter((cable) => cable.serves.includes(feedPoint.id));
}

/** The run of that id; a missing one is a broken precondition. */
export function runOf(id: string, input: HandOverInput): Run {
  return present(
    input.setOut.runs.find((run) => run.id === id),
    `run ${id}`,
  );
}

/** The solved run of that id; a missing one is a broken precondition. */
export function solvedRun(id: string, input: HandOverInput): CircuitRun {
  return present(
    input.circuit.runs.find((run) => run.run === id),
    `solved run ${id}`,
  );
}

function present<Value>(value: Value | undefined, what: string): Value {
  if (value === undefined) throw new RangeError(`the hand-over lacks ${what}`);
  return value;
}

/** Current and volts at a feed point from the solved network, or undefined where it was not solved by itself. */
export function solvedFeed(
  feedPoint: FeedPoint,
  input: HandOverInput,
): CircuitRun['feed_A'][number] | undefined {
  return solvedRun(feedPoint.run, input).feed_A.find((feed) => feed.feedPoint === feedPoint.id);
}

/** Names of all zones an output or a cable serves, each once. */
export function zonesOfRuns(runs: readonly string[], input: HandOverInput): string {
  const names = runs.flatMap((id) => runOf(id, input).zone ?? []);
  return [...new Set(names)].join(', ');
}

/** Which polarity lands at a feed point, in words: a spreadsheet takes a cell that begins with a sign for a sum. */
export const polarity = { both: 'plus and minus', positive: 'plus only', return: 'minus only' } as const;

/** Ids as a reader wants them: neighbours in the order of the set-out drawn together, none left out. */
export function listed(ids: readonly string[], inOrder: readonly string[]): string {
  const stretches: string[][] = [];
  for (const [i, id] of inOrder.entries()) {
    if (!ids.includes(id)) continue;
    const open = stretches.at(-1);
    if (open && open.at(-1) === inOrder[i - 1]) open.push(id);
    else stretches.push([id]);
  }
  return stretches.map((s) => (s.length < 3 ? s.join(', ') : `${s[0]} to ${s.at(-1)}`)).join(', ');
}
