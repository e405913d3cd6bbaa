import type { Run, SetOut } from '../answer/set-out.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { class2_W } from '../clauses.ts';
import { type Allocation, shareOut } from '../drivers/allocation.ts';
import type { SolvedOutput } from '../drivers/answer.ts';
import { usableWatts } from '../drivers/derating.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import { type DriverModel, type Load, type LoadsToAllocate, outputLimit_W } from '../drivers/loads.ts';
import type { ShareEffort } from '../drivers/share-effort.ts';
import { plainlyCostLeast } from '../drivers/share-least.ts';
import { roundCorners, turnsOf } from '../installation/across-panels.ts';
import { alongWay, pathLength_mm, toPad, wayStart } from '../installation/cable-routes.ts';
import { type CaseRow, haveRoom, roomFor } from '../installation/housing.ts';
import type { OutputToWire } from '../installation/installation-to-plan.ts';
import { roundOpenings } from '../installation/round-openings.ts';
import { wayHeight_mm, wiringOf } from '../job/cable-way.ts';
import type { Job } from '../job/job.ts';
import { cornersOfWall } from '../job/panels.ts';
import { driverChoices, driverModels, modelOf, type Products } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import { keepsTo } from '../numeric/tolerance.ts';
import type { Outcome } from '../outcome.ts';
import type { WiredJob } from './circuit-of-job.ts';
import { circuitShare, electricalLevels } from './dimming-of-job.ts';
import { nominal_W_per_m } from './light-of-job.ts';

/** From each driver place along the way of the run's zone to its first feed point, from the hole in the place on, m. */
function distances_m(job: Job, run: Run): number[] {
  const { panel, cables, drivers } = job;
  const way_mm = wayHeight_mm(panel.height_mm, { ...cables, ...wiringOf(job, run.zone) });
  const feed = run.feedPoints[0]!;
  const turns = turnsOf(cornersOfWall(job), job.section.available_mm);
  return drivers.places.map((place) => {
    const start = wayStart(place, way_mm, panel.width_mm);
    const straight = [...alongWay(start, feed.x_mm), ...toPad(feed, run, way_mm)];
    return pathLength_mm(roundCorners(roundOpenings(straight, job), turns)) / 1000;
  });
}

/** Loads of the runs by given watts, in the order of the set-out. */
export function loadsOf(job: Job, runs: readonly Run[], watts: readonly number[]): Load[] {
  const placeDistances_m = distancesOf(job)(runs);
  return runs.map((run, i) => ({
    run: run.id,
    watts: watts[i]!,
    zone: run.zone,
    placeDistances_m: placeDistances_m[i]!,
  }));
}

/** Distances stay while watts settle. */
const distancesOf = rememberedFor((job: Job) =>
  rememberedFor((runs: readonly Run[]) => runs.map((run) => distances_m(job, run))),
);

/**
 * Where the iteration starts: every unit at nominal, at the levels the circuit of its zone is solved at. The watts that
 * count come from the solved network.
 */
export function nominalWatts({ runs }: SetOut, products: Products, job: Job): number[] {
  const full_W_per_m = nominal_W_per_m(products.strip);
  const shares = new Map(runs.map(({ zone }) => [zone, circuitShare(job, products, zone)]));
  return runs.map((run) => (run.strip_mm / 1000) * shares.get(run.zone)! * full_W_per_m);
}

/** Driver places from left to right and upwards, by their index in the job, however they were listed. */
function placeOrder({ drivers: { places } }: Job): number[] {
  const text = places.map(({ name, ...place }) => `${JSON.stringify(place)}${name}`);
  return places
    .map((_, i) => i)
    .sort(
      (a, b) =>
        places[a]!.x_mm - places[b]!.x_mm ||
        places[a]!.y_mm - places[b]!.y_mm ||
        (text[a]! < text[b]! ? -1 : 1),
    );
}

/** Watts of a zone over those of its busiest channel, at the levels its circuit is solved at; endless where all are off. */
function overBusiest(job: Job, products: Products, zone: string | null): number {
  const levels = electricalLevels(job, products, zone);
  const watts = products.strip.channels.map(({ watts_per_m }, i) => levels[i]! * watts_per_m);
  const busiest = Math.max(...watts);
  return busiest > 0 ? watts.reduce((a, b) => a + b, 0) / busiest : Number.POSITIVE_INFINITY;
}

/**
 * Watts at which the busiest channel of the dimmer behind an output carries its rating: `rating * volts * (watts of all
 * channels / watts of that one)`, least of the zones, and what the dimmer takes itself; the ceiling of the job where that
 * is lower, which unless typed is that of a Class 2 source where the rules know one.
 */
function outputCeiling_W(job: Job, products: Products, loads: readonly Load[]): number | null {
  const { dimmer } = products;
  const asked_W = job.drivers.outputCeiling_W ?? class2_W(job.site.rules, setVoltage_V(job, products));
  if (dimmer === null) return asked_W;
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  const least = Math.min(...zones.map((zone) => overBusiest(job, products, zone)));
  const through_W = dimmer.channel_A * setVoltage_V(job, products) * least;
  return Math.min(through_W + dimmer.ownLoss_W, asked_W ?? Number.POSITIVE_INFINITY);
}

/** More drivers than this in one place are not told apart when its room is counted. */
const mostCounted = 40;

/** The models a job allows, with what each may give and how much room one takes, place by place. */
function modelsOf(
  job: Job,
  products: Products,
  air_degC: readonly number[],
  mostDrivers: number,
): DriverModel[] {
  const { drivers, dimming } = job;
  const most = Math.min(mostDrivers, mostCounted);
  return driverModels(products).map((driver, i) => ({
    ...driver,
    outputsDimTogether: driver.outputsDimTogether && dimming.control !== 'dimmer',
    usable_W: air_degC.map((ambient_degC) => usableWatts(driver, { ambient_degC, reserve: drivers.reserve })),
    placeShare: (place) => 1 / roomFor(rowOf(driver, products), drivers.places[place]!, most),
    stock: driverChoices(job)[i]!.stock,
  }));
}

/** A driver and the dimmer behind it. */
const rowOf = (driver: CaseRow[number], { dimmer }: Products): CaseRow => [
  driver,
  ...(dimmer === null ? [] : [dimmer]),
];

function allocationInput(
  job: Job,
  products: Products,
  loads: readonly Load[],
  air_degC: readonly number[],
): LoadsToAllocate {
  const sheets = driverModels(products);
  return {
    loads,
    models: modelsOf(job, products, air_degC, loads.length),
    hasRoom: (place, models) =>
      haveRoom(
        models.map((model) => rowOf(sheets[model]!, products)),
        job.drivers.places[place]!,
      ),
    set_V: setVoltage_V(job, products),
    placeOrder: placeOrder(job),
    outputCeiling_W: outputCeiling_W(job, products, loads),
    outputOwn_W: products.dimmer?.ownLoss_W ?? 0,
  };
}

/** Shares loads out over drivers with the air as warm as given at each place, with so much trouble. */
export function allocate(
  job: Job,
  products: Products,
  {
    loads,
    air_degC,
    effort,
  }: {
    readonly loads: readonly Load[];
    readonly air_degC: readonly number[];
    readonly effort: ShareEffort;
  },
): Outcome<Allocation, DriversIssue> {
  return shareOut(allocationInput(job, products, loads, air_degC), effort);
}

/** Loads and air that an allocation was not made for. */
interface Fresh {
  readonly job: Job;
  readonly products: Products;
  readonly loads: readonly Load[];
  readonly air_degC: readonly number[];
}

/** Whether an allocation made for other watts and cooler air still keeps every output and driver within its limits. */
function keepsWithin(allocation: Allocation, given: LoadsToAllocate): boolean {
  const watts = new Map(given.loads.map((load) => [load.run, load.watts]));
  const own_W = given.outputOwn_W ?? 0;
  const carried = (runs: readonly string[]): number =>
    runs.reduce((sum, run) => sum + watts.get(run)!, own_W);
  const delivered = (outputs: Allocation['drivers'][number]['outputs']): number =>
    outputs.reduce((sum, { runs }) => sum + carried(runs), 0);
  return allocation.drivers.every(
    (driver) =>
      keepsTo(delivered(driver.outputs), given.models[driver.model]!.usable_W[driver.place]!) &&
      driver.outputs.every((output) => keepsTo(carried(output.runs), outputLimit_W(given, driver))),
  );
}

/** An allocation with what its outputs may carry as it is asked now. */
function withLimitsOf(given: LoadsToAllocate, allocation: Allocation): Allocation {
  const drivers = allocation.drivers.map((driver) => {
    const limit_W = outputLimit_W(given, driver);
    return { ...driver, outputs: driver.outputs.map((output) => ({ ...output, limit_W })) };
  });
  return { ...allocation, drivers };
}

/**
 * What an allocation made for other watts and cooler air is still worth: whether it `holds` all limits, and whether it is plain,
 * without sharing out anew, that no other would cost less; and the same with what its outputs may carry in that air.
 */
export function stillWorth(
  allocation: Allocation,
  { job, products, loads, air_degC }: Fresh,
): { readonly holds: boolean; readonly isPlainlyLeast: boolean; readonly limited: Allocation } {
  const given = allocationInput(job, products, loads, air_degC);
  const holds = keepsWithin(allocation, given);
  const isPlainlyLeast = holds && plainlyCostLeast(allocation.drivers, given);
  return { holds, isPlainlyLeast, limited: withLimitsOf(given, allocation) };
}

/** How far the volts of the drivers in use may be off either way, as a ratio: that of the loosest. */
export const voltTolerance = ({ drivers }: Allocation, products: Products): number =>
  Math.max(0, ...drivers.map((driver) => modelOf(products, driver).tolerance));

/** The outputs of an allocation, their driver and its place, what they feed, and how their zone is wired. */
export function outputsToWire(allocation: Allocation, job: Job): OutputToWire[] {
  return allocation.drivers.flatMap(({ id: driver, model, place, outputs }) =>
    outputs.map(({ id, runs, zone }) => ({ id, driver, model, place, runs, ...wiringOf(job, zone) })),
  );
}

/** What the dimmer behind an output takes from it for itself, at the volts it is set to, A; 0 where there is none. */
export const dimmerOwn_A = ({ job, products }: Pick<WiredJob, 'job' | 'products'>): number =>
  (products.dimmer?.ownLoss_W ?? 0) / setVoltage_V(job, products);

/**
 * What the outputs really deliver: from the solved network, and what the dimmer behind each takes itself, whatever its level.
 * @param shares average watts of each output over those of the solved network
 */
export function solvedOutputs(
  solution: CircuitSolution,
  wired: Pick<WiredJob, 'job' | 'products'>,
  shares: ReadonlyMap<string, number>,
): Map<string, SolvedOutput> {
  const own_W = wired.products.dimmer?.ownLoss_W ?? 0;
  const own_A = dimmerOwn_A(wired);
  const solved = ({ id, out_W, current_A }: CircuitSolution['sources'][number]): SolvedOutput => ({
    ...{ watts: out_W + own_W, current_A: current_A + own_A },
    average_W: shares.get(id)! * out_W + own_W,
  });
  return new Map(solution.sources.map((source) => [source.id, solved(source)]));
}

/**
 * Watts each run asks of its output, cable loss included: its own watts plus its part of what the output
 * delivers beyond the runs on it. With a cable of its own for every run that part is close to its own loss.
 */
export function solvedWatts(solution: CircuitSolution, wired: WiredJob, allocation: Allocation): number[] {
  const outputs = allocation.drivers.flatMap((driver) => driver.outputs);
  const own = new Map(solution.runs.map((run) => [run.id, run.load_W + run.copper_W]));
  const factor = new Map(
    outputs.flatMap((output) => {
      const delivered = solution.sources.find((s) => s.id === output.id)!.out_W;
      const carried = output.runs.reduce((sum, run) => sum + own.get(run)!, 0);
      return output.runs.map((run) => [run, carried > 0 ? delivered / carried : 1] as const);
    }),
  );
  return wired.runs.map((run) => own.get(run.id)! * factor.get(run.id)!);
}
