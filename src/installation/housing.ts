import type { CableEnd } from '../answer/cables.ts';
import type { DriverPlace } from '../job/job.ts';
import { remembered } from '../numeric/remembered.ts';
import { betweenDevices, reversed, toExit } from './cable-routes.ts';
import type { HeadEnd } from './head-end.ts';
import type { Case, InstallationToPlan, Laid, OutputToWire } from './installation-to-plan.ts';
import { type Housed, layOut, type PlaceLayout, type PlaceToLayOut } from './place-layout.ts';
import type { LaidCable, Path, Point } from './plan.ts';

/** A block on a rail: so wide for the way in, so much more for each way out (typical of the trade, from memory). */
const blockCase = (wayCount: number): Case => ({
  ...{ length_mm: 60, height_mm: 45, clearance_mm: 10 },
  width_mm: 20 + 12 * wayCount,
});

/** Where drivers, dimmers and blocks stand, and the terminals cables leave and enter by. */
export interface Housing {
  readonly layouts: readonly PlaceLayout[];
  readonly out: (device: string, place: number) => Point;
  readonly in: (device: string, place: number) => Point;
}

const caseOf = ({ length_mm, width_mm, height_mm, clearance_mm }: Case): Case => ({
  length_mm,
  width_mm,
  height_mm,
  clearance_mm,
});

interface PlaceToFill {
  readonly place: PlaceToLayOut;
  readonly housed: readonly Housed[];
  readonly faces: DriverPlace['terminalsFace'];
}

/** The same cases come to the same places from keystroke to keystroke, and from round to round. */
const filled = remembered(({ place, housed, faces }: PlaceToFill) => layOut(place, housed, faces), 32);

function fill(place: DriverPlace, housed: readonly Housed[]): PlaceLayout {
  const { x_mm, y_mm, width_mm, height_mm, depth_mm, terminalsFace } = place;
  return filled({ place: { x_mm, y_mm, width_mm, height_mm, depth_mm }, housed, faces: terminalsFace });
}

/** A driver with what stands behind it, one after the other. */
export type CaseRow = readonly Case[];

const rowsIn = (rows: readonly CaseRow[]): Housed[] =>
  rows.flatMap((row, n) =>
    row.map((each, i) => ({ ...caseOf(each), id: `${n}.${i}`, ...(i > 0 ? { follows: true } : {}) })),
  );

/** Whether drivers, each with what stands behind it, all have room in a place. Blocks are not counted. */
export const haveRoom = (rows: readonly CaseRow[], place: DriverPlace): boolean =>
  fill(place, rowsIn(rows)).without.length === 0;

/** How many drivers of one kind have room in a place, up to the most that is asked; by halving, since fewer go in as well. */
export function roomFor(row: CaseRow, place: DriverPlace, most: number): number {
  let [fits, tooMany] = [0, most + 1];
  while (tooMany - fits > 1) {
    const tried = Math.ceil((fits + tooMany) / 2);
    if (
      haveRoom(
        Array.from({ length: tried }, () => row),
        place,
      )
    )
      fits = tried;
    else tooMany = tried;
  }
  return fits;
}

/** What stands in a place, one after the other: each driver, then the dimmer and the block of each of its outputs. */
function housedIn(place: number, heads: readonly HeadEnd[], given: InstallationToPlan): Housed[] {
  const here = given.outputs.flatMap((output, i) =>
    output.place === place ? [{ output, head: heads[i]! }] : [],
  );
  return here.flatMap(({ output, head: { dimmer, block } }, i) => [
    ...(here[i - 1]?.output.driver === output.driver
      ? []
      : [{ ...caseOf(given.models[output.model]!), id: output.driver }]),
    ...(dimmer && given.dimmer ? [{ ...caseOf(given.dimmer), id: dimmer.id, follows: true }] : []),
    ...(block ? [{ id: block.id, ...blockCase(block.ways.length), follows: true }] : []),
  ]);
}

/** Lays out every place with what the head ends put into it; what has no room counts as standing in its middle. */
export function house(heads: readonly HeadEnd[], given: InstallationToPlan): Housing {
  const layouts = given.places.map((place, i) => fill(place, housedIn(i, heads, given)));
  const stands = new Map(layouts.flatMap(({ standing }) => standing.map((each) => [each.id, each] as const)));
  const middle = (place: number): Point => {
    const { x_mm, y_mm, width_mm, height_mm } = given.places[place]!;
    return { x_mm: x_mm + width_mm / 2, y_mm: y_mm + height_mm / 2 };
  };
  return {
    layouts,
    out: (device, place) => stands.get(device)?.out ?? middle(place),
    in: (device, place) => stands.get(device)?.in ?? middle(place),
  };
}

/** The device an end of a cable is made off to inside a place; null for what lies on the wall. */
const deviceOf = (end: CableEnd, output: OutputToWire): string | null => {
  if (end.kind === 'output') return output.driver;
  return end.kind === 'dimmer' || end.kind === 'block' ? end.id : null;
};

/** Where cables leave the box of a place: a remote one by the middle of its top, since its height above the way says nothing. */
function holeOf({ output, start }: Laid, given: InstallationToPlan): Point {
  const { kind, x_mm, y_mm, width_mm, height_mm } = given.places[output.place]!;
  return kind === 'remote' ? { x_mm: x_mm + width_mm / 2, y_mm: y_mm + height_mm } : start.exit;
}

/** A way that leaves a place, begun at the hole of its box: between a remote place and the panel only its length counts. */
const fromHole = (paths: readonly Path[], hole: Point): Path[] =>
  paths.map((each, i) => (i === 0 && each.in === 'remote' ? { ...each, from: hole } : each));

/** A way that comes home to a place, ended there; all other pieces stay the ones that were counted. */
const toHole = (paths: readonly Path[], hole: Point): Path[] =>
  paths.map((each, i) => (i === paths.length - 1 && each.in === 'remote' ? { ...each, to: hole } : each));

/** A cable with the part of its way that lies inside its place. */
export function withInside(
  cable: LaidCable,
  laid: Laid,
  housing: Housing,
  given: InstallationToPlan,
): LaidCable {
  const { output } = laid;
  const hole = holeOf(laid, given);
  const legs = cable.legs.map((leg) => {
    const from = deviceOf(leg.from, output);
    const to = deviceOf(leg.to, output);
    if (from !== null && to !== null)
      return { ...leg, paths: betweenDevices(housing.out(from, output.place), housing.in(to, output.place)) };
    const out = from === null ? [] : toExit(housing.out(from, output.place), hole);
    const home = to === null ? [] : reversed(toExit(housing.out(to, output.place), hole));
    const outward = from === null ? leg.paths : fromHole(leg.paths, hole);
    const between = to === null ? outward : toHole(outward, hole);
    return { ...leg, paths: [...out, ...between, ...home] };
  });
  return { ...cable, legs };
}
