import { limitOverRating } from '../constants.ts';
import { wayHeight_mm } from '../job/cable-way.ts';
import { found, type Outcome } from '../outcome.ts';
import { roundCorners } from './across-panels.ts';
import { branchesOf } from './branches.ts';
import { rateCable } from './cable-rating.ts';
import { pathLength_mm, type WayStart, wayStart } from './cable-routes.ts';
import { type Count, counting, inPlace } from './counting.ts';
import { fuseBefore, type HeadEnd, planHeadEnd } from './head-end.ts';
import { house, withInside } from './housing.ts';
import type { InstallationToPlan, Laid, OutputToWire } from './installation-to-plan.ts';
import type { InstallationIssue } from './issues.ts';
import { layOutput } from './layouts.ts';
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
import { roundOpenings } from './round-openings.ts';

/** To make off a short cable between two devices of one place, each end (common practice). */
const linkTail_mm = 100;

function startOf(output: OutputToWire, given: InstallationToPlan): WayStart {
  const place = given.places[output.place]!;
  const way_mm = wayHeight_mm(given.panel.height_mm, { ...given.cables, way: output.way });
  return wayStart(place, way_mm, given.panel.width_mm);
}

/** A cable led round openings, and as long as the corners of the wall make it. */
function pastOpeningsAndCorners(cable: LaidCable, given: InstallationToPlan): LaidCable {
  if (given.openings.length === 0 && given.turns.length === 0) return cable;
  const led = (paths: readonly Path[]): readonly Path[] =>
    roundCorners(roundOpenings(paths, given), given.turns);
  return { ...cable, legs: cable.legs.map((leg) => ({ ...leg, paths: led(leg.paths) })) };
}

function layAll(given: InstallationToPlan): Outcome<Laid[], InstallationIssue> {
  const byId = new Map(given.runs.map((run) => [run.id, run]));
  const all: Laid[] = [];
  for (const output of given.outputs) {
    const start = startOf(output, given);
    const runs = output.runs.map((id) => byId.get(id)!);
    const cables = layOutput({ ...start, id: output.id, runs }, output.layout);
    if (!cables.ok) return cables;
    all.push({ output, start, cables: cables.value.map((cable) => pastOpeningsAndCorners(cable, given)) });
  }
  return found(all);
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

function headEnds(laid: readonly Laid[], given: InstallationToPlan, count: Count): HeadEnd[] {
  const design_A = designs_A(laid, given);
  return laid.map(({ output, cables }) => {
    const { current_A, terminalConductors } = given.models[output.model]!;
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
      source: { limit_A: limitOverRating * current_A, fuses: given.fuses },
      terminalConductors,
      hasDimmer: given.dimmer !== null,
    });
  });
}

interface Sized {
  readonly laid: Laid;
  readonly head: HeadEnd;
  readonly count: Count;
  readonly design_A: number;
}

/** The thinnest of the sizes that carries what the driver may give; the thickest where none does. */
function linkSize(
  stretches: readonly CountedPath[],
  limit_A: number,
  sizes: readonly CableProduct[],
): CableProduct {
  return sizes.find((size) => rateCable(size, stretches).capacity_A >= limit_A) ?? sizes.at(-1)!;
}

function planned(
  cable: LaidCable,
  { laid, head, count, design_A }: Sized,
  given: InstallationToPlan,
): PlannedCable {
  const isLink = cable.kind === 'link';
  const { current_A: source_A } = given.models[laid.output.model]!;
  const limit_A = limitOverRating * source_A;
  const counted = cable.legs.flatMap(({ paths }) => paths).map((path) => count(path, laid.output.place));
  const lies = counted.length > 0 ? counted : [inPlace(given, laid.output.place, count)];
  const stretches = isLink ? lies.map((path) => ({ ...path, togetherCount: 1 })) : lies;
  const product = isLink ? linkSize(stretches, limit_A, given.linkSizes) : productOf(cable, given);
  const rating = rateCable(product, stretches);
  const way_mm = pathLength_mm(stretches);
  const tails_mm = 2 * (isLink ? linkTail_mm : given.cables.tail_mm);
  const fuse = fuseBefore(cable, head.cables, head.block);
  const byDriver = design_A <= rating.capacity_A && limit_A <= rating.capacity_A;
  return {
    id: cable.id,
    kind: cable.kind,
    output: cable.output,
    conductors: cable.conductors,
    legs: cable.legs,
    product,
    stretches,
    source_A,
    way_mm,
    tails_mm,
    length_mm: (way_mm + tails_mm) * (1 + given.cables.allowance),
    design_A,
    capacity_A: rating.capacity_A,
    rating: rating.rating,
    worstStretch: rating.worstStretch,
    capacityNote: rating.capacityNote,
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
