import { keepsTo } from '../numeric/tolerance.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { DriversIssue } from './issues.ts';
import { leastDriverCount } from './lower-bound.ts';

/** One run, or one feed of a run that is fed from two outputs. */
export interface Load {
  readonly run: string;
  /** From the solved network, cable loss included, at the unfavourable end of its band. */
  readonly watts: number;
  /** What it is dimmed together with; loads of no zone (null) are not dimmed with any zone. */
  readonly zone: string | null;
  /** Cable way to each driver place, in the order of the places. */
  readonly placeDistances_m: readonly number[];
}

/** What limits one driver besides its usable watts. */
export interface DriverLimits {
  readonly name: string;
  readonly outputCount: number;
  /** Of one output. */
  readonly current_A: number;
}

export interface LoadsToAllocate {
  readonly loads: readonly Load[];
  readonly driver: DriverLimits;
  readonly set_V: number;
  /** Of a whole driver at each place, after reserve and derating; 0 where the place is too warm. */
  readonly usable_W: readonly number[];
  /** The places one after the other as one meets them, by index: decides between equals, and numbers the drivers. */
  readonly placeOrder?: readonly number[];
  /** Ceiling of one output where the chosen rules have one; reserve and derating do not lower it. */
  readonly outputCeiling_W: number | null;
  /** What stands behind each output in use takes for itself, such as a dimmer; nothing unless given. */
  readonly outputOwn_W?: number;
}

export interface AllocatedOutput {
  readonly id: string;
  readonly zone: string | null;
  readonly runs: readonly string[];
  readonly watts: number;
  /** The least of usable watts, current limit and ceiling; above 0, since nothing is put where there is none. */
  readonly limit_W: number;
}

export interface AllocatedDriver {
  readonly id: string;
  /** Index of its place. */
  readonly place: number;
  readonly outputs: readonly AllocatedOutput[];
  readonly watts: number;
  readonly usable_W: number;
}

export interface Allocation {
  readonly drivers: readonly AllocatedDriver[];
  readonly method: string;
  readonly lowerBoundCount: number;
}

interface OpenOutput {
  readonly zone: string | null;
  readonly loads: Load[];
}

interface OpenDriver {
  readonly place: number;
  readonly outputs: OpenOutput[];
}

const watts = (loads: readonly Load[]): number => loads.reduce((sum, load) => sum + load.watts, 0);

/** Watts of the loads of an output and of what stands behind it. */
const ofOutput_W = ({ loads }: OpenOutput, { outputOwn_W = 0 }: LoadsToAllocate): number =>
  watts(loads) + outputOwn_W;

const carried = (driver: OpenDriver, given: LoadsToAllocate): number =>
  driver.outputs.reduce((sum, output) => sum + ofOutput_W(output, given), 0);

/** Watts one output may carry at a place: the least of usable watts, `current limit * volts`, and the ceiling. */
export function outputLimit_W(given: LoadsToAllocate, place: number): number {
  const current_W = given.driver.current_A * given.set_V;
  return Math.min(given.usable_W[place]!, current_W, given.outputCeiling_W ?? Number.POSITIVE_INFINITY);
}

function checkInput(given: LoadsToAllocate): void {
  const placeCount = given.usable_W.length;
  if (placeCount === 0) throw new RangeError('no driver place');
  for (const load of given.loads) {
    if (!(load.watts >= 0 && Number.isFinite(load.watts)))
      throw new RangeError(`${load.run}: ${load.watts} W`);
    if (load.placeDistances_m.length !== placeCount) throw new RangeError(`${load.run}: distances to places`);
  }
}

function warmIssue(given: LoadsToAllocate): DriversIssue {
  return {
    code: 'driver-place-too-warm',
    place: { field: 'drivers.places' },
    quantities: { placeCount: given.usable_W.length },
    sentence: `It is too warm for the ${given.driver.name} at every driver place: vent the place, move it into cooler air, share the drivers out over more places, or choose a driver with a higher ambient rating.`,
  };
}

function sizeIssue(load: Load, limit_W: number, given: LoadsToAllocate): DriversIssue {
  return {
    code: 'load-larger-than-output',
    place: { run: load.run, field: 'drivers.entry' },
    quantities: { load_W: load.watts, output_W: limit_W },
    sentence: `Run ${load.run} needs ${load.watts.toFixed(1)} W, and one output of the ${given.driver.name} may carry ${limit_W.toFixed(1)} W: choose a larger driver, feed the run from two outputs, or choose a strip with less power.`,
  };
}

/** Watts of loads one output may carry at a place, beside what stands behind it. */
const roomForLoads_W = (given: LoadsToAllocate, place: number): number =>
  outputLimit_W(given, place) - (given.outputOwn_W ?? 0);

function issuesOf(given: LoadsToAllocate): DriversIssue[] {
  const limit_W = Math.max(...given.usable_W.map((_, place) => roomForLoads_W(given, place)));
  if (given.loads.length > 0 && limit_W <= 0) return [warmIssue(given)];
  return given.loads
    .filter((load) => !keepsTo(load.watts, limit_W))
    .map((load) => sizeIssue(load, limit_W, given));
}

/** Places in the order they are met; as listed unless said otherwise. */
const inOrder = (given: LoadsToAllocate): readonly number[] =>
  given.placeOrder ?? given.usable_W.map((_, place) => place);

/** The nearest place whose outputs can carry the load at all. */
function placeFor(load: Load, given: LoadsToAllocate): number {
  const able = inOrder(given).filter((p) => carries(p, load, given));
  return able.reduce((best, p) => (load.placeDistances_m[p]! < load.placeDistances_m[best]! ? p : best));
}

function carries(place: number, load: Load, given: LoadsToAllocate): boolean {
  const limit_W = roomForLoads_W(given, place);
  return limit_W > 0 && keepsTo(load.watts, limit_W);
}

/** First output of the driver that takes the load, a fresh one if the driver has it, else undefined. */
function outputFor(load: Load, driver: OpenDriver, given: LoadsToAllocate): OpenOutput | undefined {
  const usable_W = given.usable_W[driver.place]!;
  const limit_W = outputLimit_W(given, driver.place);
  if (!keepsTo(carried(driver, given) + load.watts, usable_W)) return undefined;
  const open = driver.outputs.find(
    (output) => output.zone === load.zone && keepsTo(ofOutput_W(output, given) + load.watts, limit_W),
  );
  if (open || driver.outputs.length >= given.driver.outputCount) return open;
  if (!keepsTo(carried(driver, given) + (given.outputOwn_W ?? 0) + load.watts, usable_W)) return undefined;
  const fresh: OpenOutput = { zone: load.zone, loads: [] };
  driver.outputs.push(fresh);
  return fresh;
}

function put(load: Load, drivers: OpenDriver[], given: LoadsToAllocate): void {
  const place = placeFor(load, given);
  for (const driver of drivers) {
    const output = driver.place === place ? outputFor(load, driver, given) : undefined;
    if (output) {
      output.loads.push(load);
      return;
    }
  }
  drivers.push({ place, outputs: [{ zone: load.zone, loads: [load] }] });
}

function numbered(driver: OpenDriver, index: number, given: LoadsToAllocate): AllocatedDriver {
  const id = `D${index + 1}`;
  const order = new Map(given.loads.map((load, i) => [load, i]));
  const outputs = driver.outputs.map((output, i) => ({
    id: `${id}.${i + 1}`,
    zone: output.zone,
    runs: output.loads.toSorted((a, b) => order.get(a)! - order.get(b)!).map((load) => load.run),
    watts: ofOutput_W(output, given),
    limit_W: outputLimit_W(given, driver.place),
  }));
  return {
    id,
    place: driver.place,
    outputs,
    watts: carried(driver, given),
    usable_W: given.usable_W[driver.place]!,
  };
}

function methodText(driverCount: number, lowerBoundCount: number): string {
  const how =
    'Largest load first, each to the first output with room at its nearest driver place (first-fit decreasing).';
  if (driverCount === lowerBoundCount)
    return `${how} No allocation can use fewer drivers; cost and cable are not shown to be least.`;
  return `${how} Not shown to be the least number: at least ${lowerBoundCount} drivers are needed, this uses ${driverCount}.`;
}

/**
 * Allocates whole loads to driver outputs by first-fit decreasing, each load at the nearest place that can
 * carry it. An output carries loads of one zone; outputs keep to their own limit and a driver to its usable watts.
 * Equal loads and equal places are taken in their order. Driver ids D1, D2 ... go place by place, outputs D1.1, D1.2 ...;
 * outputs left unused are not listed.
 *
 * @param given watts 0 or more; one distance and one usable_W for each place
 * @returns drivers, the method in words, and a number of drivers below which no allocation can go
 * Refuses `load-larger-than-output` (each such run by name) and `driver-place-too-warm` (no place gives anything).
 * At one place, with one output each and one zone, it uses at most 11/9 of the least number plus 6/9: Dosa, The
 * tight bound of first fit decreasing bin packing, 2007 (from memory). Check: `tests/drivers/allocation.test.ts`.
 */
export function allocateLoads(given: LoadsToAllocate): Outcome<Allocation, DriversIssue> {
  checkInput(given);
  const issues = issuesOf(given);
  if (issues.length > 0) return refused(...issues);
  const open: OpenDriver[] = [];
  const rank = (place: number): number => inOrder(given).indexOf(place);
  for (const load of given.loads.toSorted((a, b) => b.watts - a.watts)) put(load, open, given);
  const drivers = open
    .toSorted((a, b) => rank(a.place) - rank(b.place))
    .map((driver, index) => numbered(driver, index, given));
  const lowerBoundCount = leastDriverCount(given.loads, {
    usable_W: Math.max(...given.usable_W) - (given.outputOwn_W ?? 0),
    output_W: Math.max(...given.usable_W.map((_, place) => roomForLoads_W(given, place))),
    outputCount: given.driver.outputCount,
  });
  return found({ drivers, method: methodText(drivers.length, lowerBoundCount), lowerBoundCount });
}
