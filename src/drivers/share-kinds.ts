import { keepsTo } from '../numeric/tolerance.ts';
import { type DriverModel, type LoadsToAllocate, outputLimit_W, placesInOrder } from './loads.ts';

/** What drivers are chosen by, first figure first: cents and drivers where every model has a price, else drivers and rated W. */
export type Cost = readonly [first: number, second: number];

/** Whether prices decide: where one model has none, none counts. */
export const isPriced = ({ models }: Pick<LoadsToAllocate, 'models'>): boolean =>
  models.every(({ price_cents }) => price_cents !== null);

/** What one driver of a model adds. */
export const costOf = (
  { price_cents, rated_W }: Pick<DriverModel, 'price_cents' | 'rated_W'>,
  priced: boolean,
): Cost => (priced ? [price_cents!, 1] : [1, rated_W]);

/** What drivers cost together. */
export function costOfAll(
  drivers: readonly { readonly model: number }[],
  given: Pick<LoadsToAllocate, 'models'>,
): Cost {
  const priced = isPriced(given);
  const each = drivers.map(({ model }) => costOf(given.models[model]!, priced));
  const sum = (figure: 0 | 1): number => each.reduce((all, cost) => all + cost[figure], 0);
  return [sum(0), sum(1)];
}

/** Below 0 where `a` is less, by its first figure that differs by more than rounding. */
export function compareCosts(a: Cost, b: Cost): number {
  const differs = (i: 0 | 1): boolean => Math.abs(a[i] - b[i]) > 1e-9 * Math.max(1, Math.abs(a[i]));
  if (differs(0)) return a[0] - b[0];
  return differs(1) ? a[1] - b[1] : 0;
}

/** Drivers of one model at places where each may give as much. */
export interface Kind {
  readonly model: number;
  readonly places: readonly number[];
  readonly outputCount: number;
  readonly usable_W: number;
  /** Of one output, what stands behind it included. */
  readonly output_W: number;
  /** What stands behind each output takes. */
  readonly own_W: number;
  /** All its loads are of one zone: one output, or outputs dimmed together. */
  readonly isOfOneZone: boolean;
  readonly cost: Cost;
}

/** A limit with the rounding that `keepsTo` forgives. */
const upTo = (limit: number): number => limit + 1e-9 * Math.abs(limit);

function kindAt(given: LoadsToAllocate, model: number, places: readonly number[]): Kind {
  const { usable_W, outputCount, outputsDimTogether } = given.models[model]!;
  const place = places[0]!;
  return {
    ...{ model, places, outputCount, own_W: given.outputOwn_W ?? 0 },
    usable_W: upTo(usable_W[place]!),
    output_W: upTo(outputLimit_W(given, { model, place })),
    isOfOneZone: outputCount === 1 || outputsDimTogether,
    cost: costOf(given.models[model]!, isPriced(given)),
  };
}

/** Every model at every sort of place that gives anything, the roomiest places of each first. */
export function kindsOf(given: LoadsToAllocate): Kind[] {
  return given.models.flatMap(({ usable_W }, model) => {
    const open = placesInOrder(given).filter((place) => usable_W[place]! > 0);
    const levels = [...new Set(open.map((place) => usable_W[place]!))].sort((a, b) => b - a);
    const apart = levels.filter((level, i) => i === 0 || !keepsTo(levels[i - 1]!, level));
    return apart
      .map((level, i) =>
        open.filter(
          (place) => keepsTo(usable_W[place]!, level) && !keepsTo(usable_W[place]!, apart[i + 1] ?? 0),
        ),
      )
      .map((places) =>
        kindAt(
          given,
          model,
          places.toSorted((a, b) => usable_W[a]! - usable_W[b]!),
        ),
      )
      .filter(({ output_W, own_W }) => output_W > own_W);
  });
}

/** The roomiest kind of each model, since all of a model cost as much. */
export const roomiest = (kinds: readonly Kind[]): Kind[] =>
  kinds.filter((kind, i) => kinds.findIndex(({ model }) => model === kind.model) === i);

/** Watts of loads that go onto one driver at most. */
export const roomOfDriver_W = ({ usable_W, output_W, own_W, outputCount }: Kind): number =>
  Math.min(usable_W - own_W, outputCount * (output_W - own_W));
