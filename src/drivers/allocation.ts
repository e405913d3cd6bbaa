import { keepsTo } from '../numeric/tolerance.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { DriversIssue } from './issues.ts';
import {
  type Group,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
  placesInOrder,
  roomForLoads_W,
  type Stand,
  standsOf,
} from './loads.ts';
import { leastDriverCount } from './lower-bound.ts';
import { chosenSharing } from './share-choice.ts';
import type { ShareEffort } from './share-effort.ts';
import { methodText, type Sharing, sharingOf } from './share-proof.ts';

export interface AllocatedOutput {
  readonly id: string;
  readonly zone: string | null;
  readonly runs: readonly string[];
  readonly watts: number;
  /** The least of usable watts, current limit and ceiling; above 0, since nothing is put where there is none. */
  readonly limit_W: number;
}

export interface AllocatedDriver extends Stand {
  readonly id: string;
  readonly outputs: readonly AllocatedOutput[];
  readonly watts: number;
  readonly usable_W: number;
  readonly rated_W: number;
}

export interface Allocation {
  readonly drivers: readonly AllocatedDriver[];
  readonly method: string;
  readonly lowerBoundCount: number;
  readonly sharing: Sharing;
}

function checkInput({ loads, models }: LoadsToAllocate): void {
  const placeCount = models[0]?.usable_W.length ?? 0;
  if (placeCount === 0) throw new RangeError('no driver place');
  for (const load of loads) {
    if (!(load.watts >= 0 && Number.isFinite(load.watts)))
      throw new RangeError(`${load.run}: ${load.watts} W`);
    if (load.placeDistances_m.length !== placeCount) throw new RangeError(`${load.run}: distances to places`);
  }
}

function warmIssue({ models }: LoadsToAllocate): DriversIssue {
  return {
    code: 'driver-place-too-warm',
    place: { field: 'drivers.places' },
    quantities: { placeCount: models[0]!.usable_W.length },
    sentence: `It is too warm for the ${models.map(({ name }) => name).join(' or the ')} at every driver place: vent the place, move it into cooler air, share the drivers out over more places, or choose a driver with a higher ambient rating.`,
  };
}

function sizeIssue(load: Load, limit_W: number, name: string): DriversIssue {
  return {
    code: 'load-larger-than-output',
    place: { run: load.run, field: 'drivers.entry' },
    quantities: { load_W: load.watts, output_W: limit_W },
    sentence: `Run ${load.run} needs ${load.watts.toFixed(1)} W, and one output of the ${name} may carry ${limit_W.toFixed(1)} W: choose a larger driver, feed the run from two outputs, or choose a strip with less power.`,
  };
}

function issuesOf(given: LoadsToAllocate): DriversIssue[] {
  const stands = standsOf(given);
  const limit_W = Math.max(...stands.map((at) => roomForLoads_W(given, at)));
  if (given.loads.length > 0 && limit_W <= 0) return [warmIssue(given)];
  const { model } = stands.find((at) => roomForLoads_W(given, at) === limit_W)!;
  return given.loads
    .filter((load) => !keepsTo(load.watts, limit_W))
    .map((load) => sizeIssue(load, limit_W, given.models[model]!.name));
}

function numbered(group: Group, index: number, given: LoadsToAllocate): AllocatedDriver {
  const { model, place } = group;
  const { usable_W, rated_W } = given.models[model]!;
  const id = `D${index + 1}`;
  const outputs = group.outputs.map((loads, i) => ({
    id: `${id}.${i + 1}`,
    zone: loads[0]!.zone,
    runs: loads.map(({ run }) => run),
    watts: loads.reduce((sum, load) => sum + load.watts, given.outputOwn_W ?? 0),
    limit_W: outputLimit_W(given, group),
  }));
  const watts = outputs.reduce((sum, output) => sum + output.watts, 0);
  return { id, model, place, outputs, watts, usable_W: usable_W[place]!, rated_W };
}

/** A number of drivers that no allocation goes below, were all of them of the roomiest there is. */
function boundOf(given: LoadsToAllocate): number {
  const { loads, models, outputOwn_W = 0 } = given;
  return leastDriverCount(loads, {
    usable_W: Math.max(...models.flatMap(({ usable_W }) => usable_W)) - outputOwn_W,
    output_W: Math.max(...standsOf(given).map((at) => roomForLoads_W(given, at))),
    outputCount: Math.max(...models.map(({ outputCount }) => outputCount)),
  });
}

/**
 * Shares whole loads out over driver outputs: least price, then fewest drivers, then shortest cable, of the models the job
 * allows; without prices fewest drivers, then least rated watts. Neighbours along the wall stay together (`contiguous`)
 * unless loads from anywhere cost less (`scattered`), and without prices unless they take fewer drivers. An output carries
 * loads of one zone; outputs keep to their own limit, drivers to their usable watts, models to their stock and places to their
 * room, as far as that can be done. Driver ids D1, D2 ... go place by place, outputs D1.1, D1.2 ...; outputs left unused are
 * not listed.
 *
 * @param given watts 0 or more, in the order of the wall; one distance, usable_W and share for each place
 * @param effort counted steps, after which `sharing` says how far from proved the answer may be
 * @returns drivers, the method in words, how good it is known to be, and a number of drivers below which no allocation can go
 * Refuses `load-larger-than-output` (each such run by name) and `driver-place-too-warm` (no place gives anything).
 * Check: `tests/drivers/allocation.test.ts`, `tests/drivers/share-out.test.ts` (every way there is).
 */
export function shareOut(given: LoadsToAllocate, effort: ShareEffort): Outcome<Allocation, DriversIssue> {
  checkInput(given);
  const issues = issuesOf(given);
  if (issues.length > 0) return refused(...issues);
  const best = chosenSharing(given, effort);
  const rank = (place: number): number => placesInOrder(given).indexOf(place);
  const drivers = best.groups
    .toSorted((a, b) => rank(a.place) - rank(b.place))
    .map((group, index) => numbered(group, index, given));
  const sharing = sharingOf(best, given);
  // A load of nothing but rounding can put the bound one too high.
  const lowerBoundCount = Math.min(Math.max(boundOf(given), sharing.leastCount), drivers.length);
  return found({ drivers, method: methodText(sharing, best, given), lowerBoundCount, sharing });
}
