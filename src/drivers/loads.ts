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

/** A driver model the job may be built with. */
export interface DriverModel {
  readonly name: string;
  readonly rated_W: number;
  readonly outputCount: number;
  /** Of one output. */
  readonly current_A: number;
  /** Whether its outputs serve one zone only. */
  readonly outputsDimTogether: boolean;
  /** Of a whole driver at each place, after reserve and derating; 0 where the place is too warm. */
  readonly usable_W: readonly number[];
  /** Part of a place that one takes up: a quarter where four go in, more than 1 where none does. */
  readonly placeShare: (place: number) => number;
  /** How many of it there are; null for as many as it takes. */
  readonly stock: number | null;
  /** Null where nobody knows it. */
  readonly price_cents: number | null;
}

export interface LoadsToAllocate {
  /** In their order along the wall. */
  readonly loads: readonly Load[];
  /** At least one; between equals the first is taken. */
  readonly models: readonly DriverModel[];
  /** Whether drivers of these models have room together in a place. */
  readonly hasRoom: (place: number, models: readonly number[]) => boolean;
  readonly set_V: number;
  /** The places one after the other as one meets them, by index: decides between equals, and numbers the drivers. */
  readonly placeOrder?: readonly number[];
  /** Ceiling of one output where the chosen rules have one; reserve and derating do not lower it. */
  readonly outputCeiling_W: number | null;
  /** What stands behind each output in use takes for itself, such as a dimmer; nothing unless given. */
  readonly outputOwn_W?: number;
}

/** A driver of some model at some place, both by index. */
export interface Stand {
  readonly model: number;
  readonly place: number;
}

/** What one driver carries, output by output. */
export interface Group extends Stand {
  readonly outputs: readonly (readonly Load[])[];
}

/** Watts one output may carry at a place: the least of usable watts, `current limit * volts`, and the ceiling. */
export function outputLimit_W(given: LoadsToAllocate, { model, place }: Stand): number {
  const { current_A, usable_W } = given.models[model]!;
  return Math.min(
    usable_W[place]!,
    current_A * given.set_V,
    given.outputCeiling_W ?? Number.POSITIVE_INFINITY,
  );
}

/** Watts of loads one output may carry at a place, beside what stands behind it. */
export const roomForLoads_W = (given: LoadsToAllocate, at: Stand): number =>
  outputLimit_W(given, at) - (given.outputOwn_W ?? 0);

/** Places in the order they are met; as listed unless said otherwise. */
export const placesInOrder = ({ placeOrder, models }: LoadsToAllocate): readonly number[] =>
  placeOrder ?? models[0]!.usable_W.map((_, place) => place);

/** Every model at every place, places first, as they are met. */
export const standsOf = (given: LoadsToAllocate): Stand[] =>
  placesInOrder(given).flatMap((place) => given.models.map((_, model) => ({ model, place })));

/** Something there is only so much of, and what a driver takes of it. */
export interface Scarce {
  readonly limit: number;
  readonly takes: (at: Stand) => number;
  /** Whether there is enough of it, however much each takes by that count. */
  readonly isEnough: (stands: readonly Stand[]) => boolean;
}

/** Drivers in stock, model by model. */
export const stocksOf = ({ models }: LoadsToAllocate): Scarce[] =>
  models.flatMap(({ stock }, i) =>
    stock === null
      ? []
      : [
          {
            limit: stock,
            takes: ({ model }) => (model === i ? 1 : 0),
            isEnough: (stands) => stands.filter(({ model }) => model === i).length <= stock,
          },
        ],
  );

/** Room in each place; what a model takes of it is counted once, when it is first asked for. */
export const roomsOf = ({ models, hasRoom }: LoadsToAllocate): Scarce[] =>
  models[0]!.usable_W.map((_, i) => {
    const shares: number[] = [];
    const shareOf = (model: number): number => (shares[model] ??= models[model]!.placeShare(i));
    return {
      limit: 1,
      takes: ({ model, place }) => (place === i ? shareOf(model) : 0),
      isEnough: (stands) =>
        hasRoom(
          i,
          stands.filter(({ place }) => place === i).map(({ model }) => model),
        ),
    };
  });
