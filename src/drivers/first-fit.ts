import { keepsTo } from '../numeric/tolerance.ts';
import {
  type Group,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
  placesInOrder,
  roomForLoads_W,
} from './loads.ts';

interface OpenOutput {
  readonly zone: string | null;
  readonly loads: Load[];
}

interface OpenDriver {
  readonly place: number;
  readonly outputs: OpenOutput[];
}

/** What is being filled: the question, and drivers of one of its models. */
interface Filling {
  readonly given: LoadsToAllocate;
  readonly model: number;
}

const ofOutput_W = ({ loads }: OpenOutput, { given: { outputOwn_W = 0 } }: Filling): number =>
  loads.reduce((sum, load) => sum + load.watts, outputOwn_W);

const carried_W = ({ outputs }: OpenDriver, filling: Filling): number =>
  outputs.reduce((sum, output) => sum + ofOutput_W(output, filling), 0);

function carries(place: number, load: Load, { given, model }: Filling): boolean {
  const limit_W = roomForLoads_W(given, { model, place });
  return limit_W > 0 && keepsTo(load.watts, limit_W);
}

/** The nearest place whose outputs can carry the load at all; null for none. */
function placeFor(load: Load, filling: Filling): number | null {
  const able = placesInOrder(filling.given).filter((place) => carries(place, load, filling));
  const distance_m = (place: number): number => load.placeDistances_m[place]!;
  return able.reduce<number | null>(
    (best, place) => (best === null || distance_m(place) < distance_m(best) ? place : best),
    null,
  );
}

/** First output of the driver that takes the load, a fresh one if the driver has it, else undefined. */
function outputFor(load: Load, driver: OpenDriver, filling: Filling): OpenOutput | undefined {
  const { given, model } = filling;
  const { outputCount, outputsDimTogether, usable_W } = given.models[model]!;
  const limit_W = outputLimit_W(given, { model, place: driver.place });
  const fits = (own_W: number): boolean =>
    keepsTo(carried_W(driver, filling) + own_W + load.watts, usable_W[driver.place]!);
  if (!fits(0)) return undefined;
  const open = driver.outputs.find(
    (output) => output.zone === load.zone && keepsTo(ofOutput_W(output, filling) + load.watts, limit_W),
  );
  if (open || driver.outputs.length >= outputCount) return open;
  const isOfOthers = driver.outputs.some(({ zone }) => zone !== load.zone);
  if ((outputsDimTogether && isOfOthers) || !fits(given.outputOwn_W ?? 0)) return undefined;
  const fresh: OpenOutput = { zone: load.zone, loads: [] };
  driver.outputs.push(fresh);
  return fresh;
}

function put(load: Load, place: number, drivers: OpenDriver[], filling: Filling): void {
  for (const driver of drivers) {
    const output = driver.place === place ? outputFor(load, driver, filling) : undefined;
    if (output) {
      output.loads.push(load);
      return;
    }
  }
  drivers.push({ place, outputs: [{ zone: load.zone, loads: [load] }] });
}

/**
 * Shares loads out over drivers of one model by first-fit decreasing: largest load first, each at its nearest place that
 * can carry it, to the first output there with room. Equal loads and equal places are taken in their order.
 *
 * @param model index of the model
 * @returns what each driver carries, in the order they were opened; null where some load is too large for the model
 * At one place, with one output each and one zone, it uses at most 11/9 of the least number plus 6/9: Dosa, The tight
 * bound of first fit decreasing bin packing, 2007 (from memory). Check: `tests/drivers/first-fit.test.ts`.
 */
export function firstFit(given: LoadsToAllocate, model: number): Group[] | null {
  const filling = { given, model };
  const drivers: OpenDriver[] = [];
  for (const load of given.loads.toSorted((a, b) => b.watts - a.watts)) {
    const place = placeFor(load, filling);
    if (place === null) return null;
    put(load, place, drivers, filling);
  }
  const order = new Map(given.loads.map((load, i) => [load, i]));
  const inOrder = (loads: readonly Load[]): Load[] => loads.toSorted((a, b) => order.get(a)! - order.get(b)!);
  return drivers.map(({ place, outputs }) => ({
    ...{ model, place },
    outputs: outputs.map(({ loads }) => inOrder(loads)),
  }));
}
