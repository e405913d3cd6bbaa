import { keepsTo } from '../numeric/tolerance.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { type Contiguous, contiguous } from './contiguous.ts';
import { firstFit } from './first-fit.ts';
import type { DriversIssue } from './issues.ts';
import {
  type Group,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
  placesInOrder,
  roomForLoads_W,
  roomsOf,
  type Scarce,
  type Stand,
  standsOf,
  stocksOf,
} from './loads.ts';
import { leastDriverCount } from './lower-bound.ts';

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

/** The row of loads: zone by zone as one meets them, each in its order along the wall. */
function inRow({ loads }: LoadsToAllocate): Load[] {
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  return zones.flatMap((zone) => loads.filter((load) => load.zone === zone));
}

/** What was found, and how good that is known to be. */
interface Shared {
  readonly groups: readonly Group[];
  readonly how: string;
}

const neighbours =
  'Runs side by side on each driver: fewest drivers, then least rated watts, then shortest cable, then evenly loaded';

/** The least number by first-fit decreasing with one model throughout, where that many can be had. */
function scattered(given: LoadsToAllocate, scarce: readonly Scarce[]): readonly Group[] | null {
  const each = given.models.flatMap((_, model) => {
    const groups = firstFit(given, model);
    return groups?.length && scarce.every((one) => one.isEnough(groups)) ? [groups] : [];
  });
  return each.toSorted((a, b) => a.length - b.length)[0] ?? null;
}

function sharedWithin(given: LoadsToAllocate, scarce: readonly Scarce[]): Shared | null {
  const row: Contiguous | null = contiguous({ ...given, loads: inRow(given) }, scarce);
  const loose = scattered(given, scarce);
  if (loose !== null && (row === null || loose.length < row.groups.length)) {
    const more = row === null ? 'cannot be done' : `would take ${row.groups.length}`;
    return {
      groups: loose,
      how: `Largest load first, each to the first output with room at its nearest driver place (first-fit decreasing), since runs side by side ${more}.`,
    };
  }
  return row && { groups: row.groups, how: `${neighbours}${row.isWhole ? ' (every way tried)' : ''}.` };
}

/** Within stock and room; where that cannot be done, within stock; and else as if there were enough of both. */
function shared(given: LoadsToAllocate): Shared {
  const [stocks, rooms] = [stocksOf(given), roomsOf(given)];
  return (
    sharedWithin(given, [...stocks, ...rooms]) ?? sharedWithin(given, stocks) ?? sharedWithin(given, [])!
  );
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

function methodText(how: string, driverCount: number, lowerBoundCount: number): string {
  if (driverCount === lowerBoundCount) return `${how} No allocation can use fewer drivers.`;
  return `${how} Not shown to be the least number of all: at least ${lowerBoundCount} drivers are needed, this uses ${driverCount}.`;
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
 * Allocates whole loads to driver outputs: neighbours along the wall together, on the fewest drivers of the models the job
 * allows (`contiguous`); where loads taken from anywhere need fewer drivers of one model (`firstFit`), so. An output carries
 * loads of one zone; outputs keep to their own limit, drivers to their usable watts, models to their stock and places to their
 * room, as far as that can be done. Driver ids D1, D2 ... go place by place, outputs D1.1, D1.2 ...; outputs left unused are
 * not listed.
 *
 * @param given watts 0 or more, in the order of the wall; one distance, usable_W and share for each place
 * @returns drivers, the method in words, and a number of drivers below which no allocation can go
 * Refuses `load-larger-than-output` (each such run by name) and `driver-place-too-warm` (no place gives anything).
 * Check: `tests/drivers/allocation.test.ts`.
 */
export function allocateLoads(given: LoadsToAllocate): Outcome<Allocation, DriversIssue> {
  checkInput(given);
  const issues = issuesOf(given);
  if (issues.length > 0) return refused(...issues);
  const { groups, how } = shared(given);
  const rank = (place: number): number => placesInOrder(given).indexOf(place);
  const drivers = groups
    .toSorted((a, b) => rank(a.place) - rank(b.place))
    .map((group, index) => numbered(group, index, given));
  // A load of nothing but rounding can put the bound one too high.
  const lowerBoundCount = Math.min(boundOf(given), drivers.length);
  return found({ drivers, method: methodText(how, drivers.length, lowerBoundCount), lowerBoundCount });
}
