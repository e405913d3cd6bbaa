import type { Cable, CableEnd, Leg } from '../answer/cables.ts';
import type { CircuitRun } from '../answer/circuit.ts';
import type { Driver, DriverOutput } from '../answer/drivers.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { DriverData } from '../job/driver.ts';
import { modelOf } from '../job/products.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import { cableEndText } from '../words.ts';
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

const driversByOutput = rememberedFor(
  (input: HandOverInput) =>
    new Map(outputsOf(input).map(({ driver, output }) => [output.id, driver] as const)),
);

const outputsByRun = rememberedFor(
  (input: HandOverInput) =>
    new Map(outputsOf(input).flatMap(({ output }) => output.runs.map((run) => [run, output.id] as const))),
);

/** Data sheet of the driver an output belongs to. */
export const driverOfOutput = (output: string, input: HandOverInput): DriverData =>
  modelOf(input.products, driversByOutput(input).get(output)!);

/** Data sheet of the driver that feeds a run. */
export const driverOfRun = (run: string, input: HandOverInput): DriverData =>
  driverOfOutput(outputsByRun(input).get(run)!, input);

/** A case by where it stands on the panel; in a place far from it the sheet of driver places measures from that place. */
export function onPanel(
  at: { readonly place: string; readonly x_mm: number; readonly y_mm: number } | null,
  { job }: HandOverInput,
): { readonly x_mm: number | null; readonly y_mm: number | null } {
  const isRemote = job.drivers.places.some(({ name, kind }) => name === at?.place && kind === 'remote');
  return at === null || isRemote ? { x_mm: null, y_mm: null } : { x_mm: at.x_mm, y_mm: at.y_mm };
}

/** Every feed point, run by run. */
export const feedPointsOf = rememberedFor((input: HandOverInput): readonly FeedPoint[] =>
  input.setOut.runs.flatMap((run) => run.feedPoints),
);

/** Feed points by id, in the order of the set-out. */
const feedPointsById = rememberedFor(
  (input: HandOverInput) =>
    new Map(feedPointsOf(input).map((feedPoint, place) => [feedPoint.id, { feedPoint, place }])),
);

/** Feed points a cable serves, in the order of the set-out. */
export function servedBy(cable: Cable, input: HandOverInput): FeedPoint[] {
  const known = feedPointsById(input);
  return cable.serves
    .flatMap((id) => known.get(id) ?? [])
    .sort((a, b) => a.place - b.place)
    .map(({ feedPoint }) => feedPoint);
}

const cablesByFeedPoint = rememberedFor((input: HandOverInput) => {
  const cables = new Map<string, Cable[]>();
  for (const cable of input.cables)
    for (const id of cable.serves) {
      const before = cables.get(id);
      if (before) before.push(cable);
      else cables.set(id, [cable]);
    }
  return cables;
});

/** Cables a feed point draws through, from the driver on. */
export function cablesTo(feedPoint: FeedPoint, input: HandOverInput): readonly Cable[] {
  return cablesByFeedPoint(input).get(feedPoint.id) ?? [];
}

/** A part of a cable, and the cable it is a part of. */
export interface LegOfCable {
  readonly cable: Cable;
  readonly leg: Leg;
}

const legsByFeedPoint = rememberedFor(({ cables }: HandOverInput) => {
  const all = new Map<string, LegOfCable[]>();
  for (const cable of cables)
    for (const leg of cable.legs)
      for (const id of leg.serves) {
        const before = all.get(id);
        if (before) before.push({ cable, leg });
        else all.set(id, [{ cable, leg }]);
      }
  return all;
});

/** Parts of cables a feed point draws through, from the driver on. */
export const legsTo = ({ id }: FeedPoint, input: HandOverInput): readonly LegOfCable[] =>
  legsByFeedPoint(input).get(id) ?? [];

const runsById = rememberedFor(
  (input: HandOverInput) => new Map(input.setOut.runs.map((run) => [run.id, run])),
);

const solvedRunsById = rememberedFor(
  (input: HandOverInput) => new Map(input.circuit.runs.map((run) => [run.run, run])),
);

/** The run of that id; a missing one is a broken precondition. */
export function runOf(id: string, input: HandOverInput): Run {
  return present(runsById(input).get(id), `run ${id}`);
}

/** The solved run of that id; a missing one is a broken precondition. */
export function solvedRun(id: string, input: HandOverInput): CircuitRun {
  return present(solvedRunsById(input).get(id), `solved run ${id}`);
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

/** Names of all zones an output or a cable serves, each once; slots in none by the name the job gives them. */
export function zonesOfRuns(runs: readonly string[], input: HandOverInput): string {
  const names = runs.map((id) => runOf(id, input).zone ?? input.job.dimming.restName);
  return [...new Set(names)].filter((name) => name !== '').join(', ');
}

/** Which polarity lands at a feed point, in words: a spreadsheet takes a cell that begins with a sign for a sum. */
export const polarity = { both: 'plus and minus', positive: 'plus only', return: 'minus only' } as const;

const placesIn = rememberedFor(
  (inOrder: readonly string[]) => new Map(inOrder.map((id, place) => [id, place])),
);

/** Ids as a reader wants them: neighbours in the order of the set-out drawn together, none left out. */
export function listed(ids: readonly string[], inOrder: readonly string[]): string {
  const places = placesIn(inOrder);
  const met = [...new Set(ids.flatMap((id) => places.get(id) ?? []))].sort((a, b) => a - b);
  const stretches: string[][] = [];
  for (const [i, place] of met.entries()) {
    if (place - 1 === met[i - 1]) stretches.at(-1)!.push(inOrder[place]!);
    else stretches.push([inOrder[place]!]);
  }
  return stretches.map((s) => (s.length < 3 ? s.join(', ') : `${s[0]} to ${s.at(-1)}`)).join(', ');
}

/** Cables one after the other along the wall, by the first feed point each serves; each kind, by its letter, by itself. */
const alongTheWall = rememberedFor((input: HandOverInput): ReadonlyMap<string, readonly string[]> => {
  const known = feedPointsById(input);
  const place = ({ serves }: Cable): number => Math.min(...serves.map((id) => known.get(id)!.place));
  const inOrder = input.cables
    .map((cable) => ({ id: cable.id, at: place(cable) }))
    .sort((a, b) => a.at - b.at)
    .map(({ id }) => id);
  const letters = [...new Set(inOrder.map((id) => id[0]!))];
  return new Map(letters.map((letter) => [letter, inOrder.filter((id) => id.startsWith(letter))]));
});

/** Cables as one meets them along the wall, kind by kind: "L1.1, C02 to C08, C21 to C26". */
export function listedCables(ids: readonly string[], input: HandOverInput): string {
  const letters = [...new Set(ids.map((id) => id[0]!))];
  return letters
    .map((letter) =>
      listed(
        ids.filter((id) => id.startsWith(letter)),
        alongTheWall(input).get(letter)!,
      ),
    )
    .join(', ');
}

function padText(
  { run, cutLine, feedPoint }: Extract<CableEnd, { kind: 'pad' }>,
  input: HandOverInput,
): string {
  const { unitCount } = runOf(run, input);
  const where = cutLine === 0 ? 'start' : cutLine === unitCount ? 'finish' : `cut line ${cutLine}`;
  return feedPoint === null ? `${run} ${where}` : `${feedPoint}, ${where} of ${run}`;
}

/** What an end of a cable is made off to: "D1.1", "B1.1 in", "B1.1 way 2", "D1.1-T3", "S07-F1, start of S07". */
export function endText(end: CableEnd, input: HandOverInput): string {
  if (end.kind === 'pad') return padText(end, input);
  if (end.kind === 'dimmer') return `${end.id} ${end.side}`;
  return end.kind === 'block' && end.way === null ? `${end.id} in` : cableEndText(end);
}
