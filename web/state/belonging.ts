import type { Cable } from '../../src/answer/cables.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Where } from './store.ts';

/** A part of the wiring that can be picked, by its name. */
export type PickedPart = Pick<Where, 'cable' | 'feedPoint' | 'driver'>;

/** What a picked part is called; empty where none is picked. */
export const pickedName = ({ cable, feedPoint, driver }: PickedPart): string =>
  cable ?? feedPoint ?? driver ?? '';

/** What is marked together: everything between a driver and the runs it lights that belongs to what was picked. */
export interface Belonging {
  readonly cables: ReadonlySet<string>;
  readonly feedPoints: ReadonlySet<string>;
  readonly drivers: ReadonlySet<string>;
  /** Blocks, dimmers and taps. */
  readonly devices: ReadonlySet<string>;
  readonly runs: ReadonlySet<string>;
}

type Wiring = Pick<Sizing, 'cables' | 'drivers' | 'setOut'>;

const driverOf = ({ drivers }: Wiring, output: string): string | undefined =>
  drivers.drivers.find(({ outputs }) => outputs.some(({ id }) => id === output))?.id;

/** What lies before a cable on the way from the driver, and what hangs on it: they feed the same points. */
function inLine(one: Cable, other: Cable): boolean {
  const [few, many] = one.serves.length <= other.serves.length ? [one, other] : [other, one];
  return one.output === other.output && few.serves.every((id) => many.serves.includes(id));
}

function cablesOf(wiring: Wiring, { cable, feedPoint, driver }: PickedPart): Cable[] {
  const own = wiring.cables.find(({ id }) => id === cable);
  if (own) return wiring.cables.filter((other) => inLine(own, other));
  if (feedPoint !== undefined) return wiring.cables.filter(({ serves }) => serves.includes(feedPoint));
  if (driver === undefined) return [];
  return wiring.cables.filter(({ output }) => driverOf(wiring, output) === driver);
}

/** Feed points: the one picked, or those that draw through the cable or the driver picked. */
function feedPointsOf({ cables }: Wiring, picked: PickedPart, along: readonly Cable[]): readonly string[] {
  if (picked.feedPoint !== undefined && picked.cable === undefined) return [picked.feedPoint];
  return cables.find(({ id }) => id === picked.cable)?.serves ?? along.flatMap(({ serves }) => serves);
}

/** Devices that a cable is made off to: its block, its dimmer, its tap. */
const devicesOf = ({ legs }: Cable): string[] =>
  legs.flatMap(({ from, to }) =>
    [from, to].flatMap((end) => (end.kind === 'pad' || end.kind === 'output' ? [] : [end.id])),
  );

/** Everything that belongs to a picked cable, feed point or driver; nothing where none of them is picked. */
export function belongingTo(wiring: Wiring, picked: PickedPart = {}): Belonging {
  const along = cablesOf(wiring, picked);
  const points = new Set(feedPointsOf(wiring, picked, along));
  const drivers = [picked.driver, ...along.map(({ output }) => driverOf(wiring, output))];
  return {
    cables: new Set(along.map(({ id }) => id)),
    feedPoints: points,
    drivers: new Set(drivers.filter((id) => id !== undefined)),
    devices: new Set(along.flatMap(devicesOf)),
    runs: new Set(
      wiring.setOut.runs.filter((run) => run.feedPoints.some(({ id }) => points.has(id))).map(({ id }) => id),
    ),
  };
}

/** The part of the wiring that has a name: a cable, a feed point, a driver or one of its outputs. */
export function partNamed({ cables, drivers, setOut }: Wiring, name: string): PickedPart | undefined {
  if (cables.some(({ id }) => id === name)) return { cable: name };
  const driver = drivers.drivers.find(
    (each) => each.id === name || each.outputs.some(({ id }) => id === name),
  );
  if (driver) return { driver: driver.id };
  const isPoint = setOut.runs.some(({ feedPoints }) => feedPoints.some(({ id }) => id === name));
  return isPoint ? { feedPoint: name } : undefined;
}
