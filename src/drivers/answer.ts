import type { Driver, DriverOutput, DriversAnswer, PlacedCase } from '../answer/drivers.ts';
import type { AllocatedDriver, AllocatedOutput, Allocation, DriverLimits } from './allocation.ts';
import { ambientDerating, caseTemperature_degC, type DriverRating, driverLifeRatio } from './derating.ts';
import { type Breaker, countOnBreaker, mainsSide, shareOnBreakers } from './mains.ts';

/** A driver as its data sheet describes it: everything this question uses. */
interface DriverSheet extends DriverLimits, DriverRating {
  readonly efficiency: number;
  readonly powerFactor: number;
  readonly inrush_A: number;
  readonly inrush_us: number;
  readonly perBreakerB16: number | null;
  readonly caseLimit_degC: number;
}

/** Where drivers go: lower left corner from the panel's lower left corner, where each stands, and the air round them. */
interface PlaceForDrivers {
  readonly name: string;
  readonly x_mm: number;
  readonly y_mm: number;
  readonly cases: readonly PlacedCase[];
  /** Drivers for which there is no room. */
  readonly without: readonly string[];
  readonly fitNote: string;
  /** Heat of what stands there besides drivers, on average. */
  readonly dimmers_W: number;
  /** With drivers at their average watts. */
  readonly air_degC: number;
  /** With drivers at all they deliver, which their derating goes by. */
  readonly fullAir_degC: number;
}

/** What an output delivers, a dimmer behind it included. */
export interface SolvedOutput {
  /** In a pulse, where light is dimmed by pulses. */
  readonly watts: number;
  readonly current_A: number;
  /** Over time; less than in a pulse where the dimmer is limited. */
  readonly average_W: number;
}

export interface DriversToDescribe {
  readonly allocation: Allocation;
  readonly driver: DriverSheet;
  /** In the order of the allocation's places. */
  readonly places: readonly PlaceForDrivers[];
  readonly mains_V: number;
  readonly breaker: Breaker;
  /** Whether the number of drivers on a B16 was entered from the maker's sheet. */
  readonly isPerBreakerPrinted: boolean;
  /** Whether its inrush was. */
  readonly isInrushPrinted: boolean;
  /** Solved load of each output. */
  readonly solved: ReadonlyMap<string, SolvedOutput>;
  /** Load of each output over every combination of tolerances, where that was asked. */
  readonly bands?: ReadonlyMap<string, { readonly least: number; readonly greatest: number }>;
}

function solvedOf({ id }: AllocatedOutput, { solved }: DriversToDescribe): SolvedOutput {
  const load = solved.get(id);
  if (!load) throw new RangeError(`no solved load for output ${id}`);
  return load;
}

function describeOutput(output: AllocatedOutput, given: DriversToDescribe): DriverOutput {
  const solved = solvedOf(output, given);
  return {
    id: output.id,
    runs: [...output.runs],
    watts: solved.watts,
    current_A: solved.current_A,
    usable_W: output.limit_W,
    load: solved.watts / output.limit_W,
    band_W: given.bands?.get(output.id) ?? null,
  };
}

/** Where a driver stands: its lower left corner, or that of a place that has no room for it. */
function cornerOf(id: string, { cases, x_mm, y_mm }: PlaceForDrivers): Pick<Driver, 'x_mm' | 'y_mm'> {
  const at = cases.find(({ driver }) => driver === id);
  return at ? { x_mm: at.x_mm, y_mm: at.y_mm } : { x_mm, y_mm };
}

function describeDriver(allocated: AllocatedDriver, given: DriversToDescribe): Driver {
  const place = given.places[allocated.place]!;
  const outputs = allocated.outputs.map((output) => describeOutput(output, given));
  const watts = outputs.reduce((sum, output) => sum + output.watts, 0);
  const average_W = allocated.outputs.reduce((sum, output) => sum + solvedOf(output, given).average_W, 0);
  const air = { ambient_degC: place.air_degC, load: average_W / given.driver.rated_W };
  const mains = mainsSide({ ...given.driver, watts, mains_V: given.mains_V });
  const case_degC = caseTemperature_degC(given.driver, air);
  return {
    id: allocated.id,
    name: given.driver.name,
    place: place.name,
    ...cornerOf(allocated.id, place),
    outputs,
    rated_W: given.driver.rated_W,
    derating: ambientDerating(given.driver, place.fullAir_degC),
    ambient_degC: place.air_degC,
    case_degC,
    lifeRatio: driverLifeRatio({ ...given.driver, case_degC }),
    watts,
    average_W,
    ...mains,
    loss_W: mainsSide({ ...given.driver, watts: average_W, mains_V: given.mains_V }).loss_W,
  };
}

function describePlace(index: number, drivers: readonly Driver[], given: DriversToDescribe) {
  const place = given.places[index]!;
  const here = drivers.filter((_, i) => given.allocation.drivers[i]!.place === index);
  return {
    name: place.name,
    driverCount: here.length,
    fits: place.without.length === 0,
    fitNote: place.fitNote,
    cases: [...place.cases],
    without: [...place.without],
    loss_W: here.reduce((sum, driver) => sum + driver.loss_W, place.dimmers_W),
    air_degC: place.air_degC,
  };
}

/** How many drivers a breaker may start, and which hang on which. */
function breakerAnswer(
  drivers: readonly Driver[],
  full_A: number,
  { driver, breaker, isPerBreakerPrinted, isInrushPrinted }: DriversToDescribe,
): DriversAnswer['breaker'] {
  const atSwitchOn = { ...driver, input_A: full_A, isPrinted: isPerBreakerPrinted };
  const counted = countOnBreaker(atSwitchOn, breaker, drivers.length);
  const onMains = drivers.map(({ id, input_A }) => ({ id, input_A, inrush_A: driver.inrush_A }));
  const loads = shareOnBreakers(onMains, counted.mostDrivers);
  return {
    ...counted,
    isInrushPrinted,
    loads: loads.map((load) => ({ ...load, drivers: [...load.drivers] })),
  };
}

/**
 * The drivers' part of the answer from an allocation and the solved load of its outputs: each driver with its
 * mains side and temperatures, each place with what fits, and the breaker.
 *
 * @param given one place for each place of the allocation; a solved load for each of its outputs
 * A place whose drivers do not fit, or a breaker that no driver suits, is in the answer, not refused.
 * Source: the functions it joins. Check: `tests/drivers/answer.test.ts` (watts in = watts out + heat).
 */
export function describeDrivers(given: DriversToDescribe): DriversAnswer {
  const drivers = given.allocation.drivers.map((allocated) => describeDriver(allocated, given));
  const full = mainsSide({ ...given.driver, watts: given.driver.rated_W, mains_V: given.mains_V });
  const sum = (pick: (driver: Driver) => number) => drivers.reduce((s, driver) => s + pick(driver), 0);
  return {
    drivers,
    places: given.places.map((_, index) => describePlace(index, drivers, given)),
    method: given.allocation.method,
    lowerBoundCount: given.allocation.lowerBoundCount,
    input_W: sum((driver) => driver.input_W),
    input_A: sum((driver) => driver.input_A),
    breaker: breakerAnswer(drivers, full.input_A, given),
  };
}
