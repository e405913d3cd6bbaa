import type { Driver, DriverOutput, DriversAnswer, OnBreaker, PlacedCase } from '../answer/drivers.ts';
import { counted } from '../words.ts';
import type { AllocatedDriver, AllocatedOutput, Allocation } from './allocation.ts';
import { ambientDerating, caseTemperature_degC, type DriverRating, driverLifeRatio } from './derating.ts';
import {
  type Breaker,
  breakerName,
  countOnBreaker,
  mainsSide,
  noTripPeak_A,
  shareOnBreakers,
} from './mains.ts';

/** A driver as its data sheet describes it: everything this question uses. */
interface DriverSheet extends DriverRating {
  readonly name: string;
  readonly efficiency: number;
  readonly powerFactor: number;
  readonly inrush_A: number;
  readonly inrush_us: number;
  readonly perBreakerB16: number | null;
  readonly caseLimit_degC: number;
  /** Whether the number of drivers on a B16 was entered from the maker's sheet. */
  readonly isPerBreakerPrinted: boolean;
  /** Whether its inrush was. */
  readonly isInrushPrinted: boolean;
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
  /** In the order of the allocation's models. */
  readonly models: readonly DriverSheet[];
  /** In the order of the allocation's places. */
  readonly places: readonly PlaceForDrivers[];
  readonly mains_V: number;
  readonly breaker: Breaker;
  /** From the mains with every light dimmed to nothing; null where the mains go off with the light. */
  readonly standby_W: number | null;
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
  const sheet = given.models[allocated.model]!;
  const outputs = allocated.outputs.map((output) => describeOutput(output, given));
  const watts = outputs.reduce((sum, output) => sum + output.watts, 0);
  const average_W = allocated.outputs.reduce((sum, output) => sum + solvedOf(output, given).average_W, 0);
  const air = { ambient_degC: place.air_degC, load: average_W / sheet.rated_W };
  const mains = mainsSide({ ...sheet, watts, mains_V: given.mains_V });
  const case_degC = caseTemperature_degC(sheet, air);
  return {
    id: allocated.id,
    name: sheet.name,
    model: allocated.model,
    place: place.name,
    ...cornerOf(allocated.id, place),
    outputs,
    rated_W: sheet.rated_W,
    derating: ambientDerating(sheet, place.fullAir_degC),
    derated_degC: place.fullAir_degC,
    ambient_degC: place.air_degC,
    case_degC,
    lifeRatio: driverLifeRatio({ ...sheet, case_degC }),
    watts,
    average_W,
    ...mains,
    loss_W: mainsSide({ ...sheet, watts: average_W, mains_V: given.mains_V }).loss_W,
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

/** How many of a model one breaker may start together. */
function onBreaker(model: number, { models, mains_V, breaker }: DriversToDescribe): OnBreaker {
  const sheet = models[model]!;
  const { input_A } = mainsSide({ ...sheet, watts: sheet.rated_W, mains_V });
  const { name, isPerBreakerPrinted: isPrinted, isInrushPrinted } = sheet;
  return { model, name, isInrushPrinted, ...countOnBreaker({ ...sheet, input_A, isPrinted }, breaker) };
}

/** "9 drivers", or of several models "9 of the 24 V 60 W driver or 7 of the 24 V 100 W driver". */
const mostText = (each: readonly OnBreaker[]): string =>
  each.length === 1
    ? counted(each[0]!.mostDrivers, 'driver')
    : each.map(({ mostDrivers, name }) => `${mostDrivers} of the ${name}`).join(' or ');

/** How many drivers a breaker may start, and which hang on which. */
function breakerAnswer(drivers: readonly Driver[], given: DriversToDescribe): DriversAnswer['breaker'] {
  const { breaker, models: sheets } = given;
  const inUse =
    drivers.length === 0 ? [0] : [...new Set(drivers.map(({ model }) => model))].sort((a, b) => a - b);
  const models = inUse.map((model) => onBreaker(model, given));
  const onMains = drivers.map(({ id, input_A, model }) => ({
    ...{ id, input_A, inrush_A: sheets[model]!.inrush_A },
    mostDrivers: models.find((each) => each.model === model)!.mostDrivers,
  }));
  const loads = shareOnBreakers(onMains).map((load) => ({ ...load, drivers: [...load.drivers] }));
  return {
    ...{ ...breaker, name: breakerName(breaker), peak_A: noTripPeak_A(breaker) },
    ...{ models, most: mostText(models), loads },
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
  const sum = (pick: (driver: Driver) => number) => drivers.reduce((s, driver) => s + pick(driver), 0);
  return {
    drivers,
    places: given.places.map((_, index) => describePlace(index, drivers, given)),
    method: given.allocation.method,
    sharing: given.allocation.sharing,
    lowerBoundCount: given.allocation.lowerBoundCount,
    input_W: sum((driver) => driver.input_W),
    input_A: sum((driver) => driver.input_A),
    standby_W: given.standby_W,
    breaker: breakerAnswer(drivers, given),
  };
}
