import type { Run } from '../answer/set-out.ts';
import type { DriverPlace, Job } from '../job/job.ts';
import { remembered } from '../numeric/remembered.ts';
import { found, type Outcome } from '../outcome.ts';
import { branchesOf, type Resistances } from './branches.ts';
import { countTogether, leavingCount } from './bunching.ts';
import { rateCable } from './cable-rating.ts';
import {
  betweenDevices,
  exitOf,
  pathLength_mm,
  reversed,
  toExit,
  type WayStart,
  wayHeight_mm,
} from './cable-routes.ts';
import type { FuseFamilyName } from './fuse-families.ts';
import { fuseBefore, type HeadEnd, planHeadEnd } from './head-end.ts';
import type { InstallationIssue } from './issues.ts';
import { layOutput } from './layouts.ts';
import { type Housed, layOut, type PlaceLayout, type PlaceToLayOut } from './place-layout.ts';
import {
  type CableProduct,
  type CountedPath,
  type Installation,
  type LaidCable,
  type Path,
  type PlannedCable,
  type PlannedTap,
  type Point,
  servedBy,
} from './plan.ts';

/** A case with its outgoing terminals at one end of its length. */
interface Case {
  readonly length_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  readonly clearance_mm: number;
}

/** A driver output to be wired, and the runs it carries in the order of the wall. */
export interface OutputToWire {
  readonly id: string;
  readonly driver: string;
  /** Index of its driver's place. */
  readonly place: number;
  readonly runs: readonly string[];
  /** How its cables are laid, and along which edge of the panel. */
  readonly layout: Job['cables']['layout'];
  readonly way: Job['cables']['way'];
}

/** Everything that decides how a wall is wired. */
export interface InstallationToPlan {
  readonly runs: readonly Run[];
  readonly outputs: readonly OutputToWire[];
  readonly panel: Job['panel'];
  readonly cables: Job['cables'];
  readonly places: readonly DriverPlace[];
  readonly cable: CableProduct;
  readonly trunk: CableProduct;
  /** Sizes a link may be made of, from thin to thick. */
  readonly linkSizes: readonly CableProduct[];
  readonly driver: Case & { readonly current_A: number; readonly terminalConductors: number };
  /** Between every output and its cables; null for none. */
  readonly dimmer: Case | null;
  /** Current of each run at full, in the order of `runs`. */
  readonly run_A: readonly number[];
  /** Air in each place, and round a cable that lies beside a strip. */
  readonly place_degC: readonly number[];
  readonly slot_degC: number;
  readonly room_degC: number;
  readonly resistances: Resistances;
  readonly fuses: FuseFamilyName;
}

/** A driver limits somewhere between 105 and 150 % of its rating (memory); the most it may be. */
export const limitOverRating = 1.5;

/** To make off a short cable between two devices of one place, each end (common practice). */
const linkTail_mm = 100;

/** A block on a rail: so wide for the way in, so much more for each way out (typical of the trade, from memory). */
const blockCase = (wayCount: number): Case => ({
  ...{ length_mm: 60, height_mm: 45, clearance_mm: 10 },
  width_mm: 20 + 12 * wayCount,
});

interface Laid {
  readonly output: OutputToWire;
  readonly start: WayStart;
  readonly cables: readonly LaidCable[];
}

function startOf(output: OutputToWire, given: InstallationToPlan): WayStart {
  const place = given.places[output.place]!;
  const way_mm = wayHeight_mm(given.panel.height_mm, { ...given.cables, way: output.way });
  if (place.kind === 'remote')
    return { exit: { x_mm: place.x_mm, y_mm: way_mm }, remote_mm: place.cable_mm ?? 0, way_mm };
  return { exit: exitOf(place, way_mm, given.panel.width_mm), remote_mm: 0, way_mm };
}

function layAll(given: InstallationToPlan): Outcome<Laid[], InstallationIssue> {
  const byId = new Map(given.runs.map((run) => [run.id, run]));
  const all: Laid[] = [];
  for (const output of given.outputs) {
    const start = startOf(output, given);
    const runs = output.runs.map((id) => byId.get(id)!);
    const cables = layOutput({ ...start, id: output.id, runs }, output.layout);
    if (!cables.ok) return cables;
    all.push({ output, start, cables: cables.value });
  }
  return found(all);
}

/** What is round a cable, degC: computed where it is known, and never less than the job gives. */
function airOf(path: Pick<Path, 'in'>, place: number, given: InstallationToPlan): number {
  const typed = given.cables.cable_degC;
  if (path.in === 'place') return Math.max(typed, given.place_degC[place]!);
  if (path.in === 'slot') return Math.max(typed, given.slot_degC);
  return path.in === 'remote' ? Math.max(typed, given.room_degC) : typed;
}

type Count = (path: Path, place: number) => CountedPath;

/** Counts circuits side by side: outside the places where they lie, inside them all that leave the place. */
function counting(laid: readonly Laid[], given: InstallationToPlan): Count {
  const outside = countTogether(laid.flatMap(({ cables }) => cables));
  const inside = given.places.map((_, i) =>
    laid
      .filter(({ output }) => output.place === i)
      .reduce((sum, { cables }) => sum + leavingCount(cables), 0),
  );
  return (path, place) => ({
    ...path,
    togetherCount: Math.max(given.cables.grouped, outside.get(path) ?? inside[place]!),
    air_degC: airOf(path, place, given),
  });
}

/** Current of every cable should any other leg, run or feed be dead: all that its busiest leg could be left to carry. */
function designs_A(laid: readonly Laid[], given: InstallationToPlan): ReadonlyMap<string, number> {
  const run_A = new Map(given.runs.map((run, i) => [run.id, given.run_A[i]!]));
  const runOfFeed = new Map(given.runs.flatMap((run) => run.feedPoints.map((f) => [f.id, run.id] as const)));
  const design = (cable: LaidCable): number =>
    [...new Set(servedBy(cable).map((feed) => runOfFeed.get(feed)!))].reduce(
      (sum, run) => sum + run_A.get(run)!,
      0,
    );
  return new Map(laid.flatMap(({ cables }) => cables.map((cable) => [cable.id, design(cable)] as const)));
}

const productOf = ({ kind }: LaidCable, { cable, trunk }: InstallationToPlan): CableProduct =>
  kind === 'trunk' ? trunk : cable;

function inPlace(given: InstallationToPlan, place: number, count: Count): CountedPath {
  const { x_mm, y_mm } = given.places[place]!;
  return count({ in: 'place', from: { x_mm, y_mm }, to: { x_mm, y_mm }, length_mm: 0 }, place);
}

function headEnds(laid: readonly Laid[], given: InstallationToPlan, count: Count): HeadEnd[] {
  const design_A = designs_A(laid, given);
  return laid.map(({ output, cables }) => {
    const capacity_A = new Map(
      cables.map((cable) => {
        const paths = cable.legs.flatMap((leg) => leg.paths).map((path) => count(path, output.place));
        const leaves = cable.kind !== 'branch' && cable.kind !== 'run to run';
        const stretches = leaves ? [inPlace(given, output.place, count), ...paths] : paths;
        return [cable.id, rateCable(productOf(cable, given), stretches).capacity_A] as const;
      }),
    );
    return planHeadEnd({
      output: output.id,
      cables,
      capacity_A,
      design_A,
      source: { limit_A: limitOverRating * given.driver.current_A, fuses: given.fuses },
      terminalConductors: given.driver.terminalConductors,
      hasDimmer: given.dimmer !== null,
    });
  });
}

/** Where drivers, dimmers and blocks stand, and the terminals cables leave and enter by. */
interface Housing {
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

/** What stands in a place, one after the other: each driver, then the dimmer and the block of each of its outputs. */
function housedIn(place: number, heads: readonly HeadEnd[], given: InstallationToPlan): Housed[] {
  const here = given.outputs.flatMap((output, i) =>
    output.place === place ? [{ output, head: heads[i]! }] : [],
  );
  return here.flatMap(({ output, head: { dimmer, block } }, i) => [
    ...(here[i - 1]?.output.driver === output.driver ? [] : [{ ...caseOf(given.driver), id: output.driver }]),
    ...(dimmer && given.dimmer ? [{ ...caseOf(given.dimmer), id: dimmer.id, follows: true }] : []),
    ...(block ? [{ id: block.id, ...blockCase(block.ways.length), follows: true }] : []),
  ]);
}

function house(heads: readonly HeadEnd[], given: InstallationToPlan): Housing {
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

type End = LaidCable['legs'][number]['from'];

/** The device an end of a cable is made off to inside a place; null for what lies on the wall. */
const deviceOf = (end: End, output: OutputToWire): string | null => {
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

/** A cable with the part of its way that lies inside its place. */
function withInside(cable: LaidCable, laid: Laid, housing: Housing, given: InstallationToPlan): LaidCable {
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
    const between = to === null ? outward : reversed(fromHole(reversed(outward), hole));
    return { ...leg, paths: [...out, ...between, ...home] };
  });
  return { ...cable, legs };
}

interface Sized {
  readonly laid: Laid;
  readonly head: HeadEnd;
  readonly count: Count;
  readonly design_A: number;
}

/** The thinnest of the sizes that carries what the driver may give; the thickest where none does. */
function linkSize(stretches: readonly CountedPath[], given: InstallationToPlan): CableProduct {
  const needed_A = limitOverRating * given.driver.current_A;
  const fits = given.linkSizes.find((size) => rateCable(size, stretches).capacity_A >= needed_A);
  return fits ?? given.linkSizes.at(-1)!;
}

function planned(
  cable: LaidCable,
  { laid, head, count, design_A }: Sized,
  given: InstallationToPlan,
): PlannedCable {
  const isLink = cable.kind === 'link';
  const counted = cable.legs.flatMap(({ paths }) => paths).map((path) => count(path, laid.output.place));
  const lies = counted.length > 0 ? counted : [inPlace(given, laid.output.place, count)];
  const stretches = isLink ? lies.map((path) => ({ ...path, togetherCount: 1 })) : lies;
  const product = isLink ? linkSize(stretches, given) : productOf(cable, given);
  const rating = rateCable(product, stretches);
  const way_mm = pathLength_mm(stretches);
  const tails_mm = 2 * (isLink ? linkTail_mm : given.cables.tail_mm);
  const fuse = fuseBefore(cable, head.cables, head.block);
  const byDriver =
    design_A <= rating.capacity_A && limitOverRating * given.driver.current_A <= rating.capacity_A;
  return {
    ...cable,
    product,
    stretches,
    way_mm,
    tails_mm,
    length_mm: (way_mm + tails_mm) * (1 + given.cables.allowance),
    design_A,
    ...rating,
    fuse,
    protectedBy: fuse ? 'fuse' : byDriver ? 'driver' : 'nothing',
  };
}

/** Taps on the trunks of an output: each where the leg that comes to it ends. */
function tapsOn({ cables, start: { exit, way_mm } }: Laid): PlannedTap[] {
  const trunks = cables.filter(({ kind }) => kind === 'trunk');
  return trunks.flatMap(({ id, legs }) => {
    let at: Point = { x_mm: exit.x_mm, y_mm: way_mm };
    return legs.flatMap(({ to, paths }) => {
      at = paths.at(-1)?.to ?? at;
      return to.kind === 'tap' ? [{ id: to.id, cable: id, x_mm: at.x_mm, y_mm: at.y_mm }] : [];
    });
  });
}

/**
 * Wires a wall: every cable of every output in the job's layout with its way from the terminals it leaves, how many lie
 * side by side in each stretch and what air is round them, what it may carry there, the blocks and fuses that takes, where
 * all of them stand, and the elements of the circuit. One graph, from which circuit, papers and pictures are read.
 *
 * @param given.run_A current of each run at full; what protects a cable is chosen for the whole load it could be left with
 * Refuses a layout that the runs cannot be fed in. Check: `tests/installation/plan-installation.test.ts`.
 */
export function planInstallation(given: InstallationToPlan): Outcome<Installation, InstallationIssue> {
  const laid = layAll(given);
  if (!laid.ok) return laid;
  const count = counting(laid.value, given);
  const heads = headEnds(laid.value, given, count);
  const housing = house(heads, given);
  const wired = laid.value.map((each, i) => ({ ...each, cables: [...heads[i]!.links, ...heads[i]!.cables] }));
  const design_A = designs_A(wired, given);
  const cables = wired.flatMap((each, i) =>
    each.cables.map((cable) =>
      planned(
        withInside(cable, each, housing, given),
        { laid: each, head: heads[i]!, count, design_A: design_A.get(cable.id)! },
        given,
      ),
    ),
  );
  const blocks = heads.flatMap(({ block }) => block ?? []);
  return found({
    cables,
    blocks,
    dimmers: heads.flatMap(({ dimmer }) => dimmer ?? []),
    taps: laid.value.flatMap(tapsOn),
    branches: branchesOf(cables, blocks, given.resistances),
    layouts: housing.layouts,
  });
}
