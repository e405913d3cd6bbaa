import type { Load, LoadsToAllocate, Stand } from '../../src/drivers/loads.ts';

/** What a sharing-out comes to: price or drivers first, then drivers or rated watts, then cable. */
export interface Best {
  readonly cost: readonly [number, number];
  readonly cable_m: number;
}

const forgiving = 1 + 1e-9;

/** Whether loads go onto outputs of a driver, by trying every output for each. */
function goOn(loads: readonly Load[], { model, place }: Stand, given: LoadsToAllocate): boolean {
  const { usable_W, current_A, outputCount, outputsDimTogether } = given.models[model]!;
  const own_W = given.outputOwn_W ?? 0;
  const limit_W =
    Math.min(usable_W[place]!, current_A * given.set_V, given.outputCeiling_W ?? 1e9) * forgiving;
  if (outputsDimTogether && new Set(loads.map(({ zone }) => zone)).size > 1) return false;
  const go = (at: number, outputs: readonly { zone: string | null; watts: number }[]): boolean => {
    const load = loads[at];
    if (!load) return outputs.reduce((sum, { watts }) => sum + watts, 0) <= usable_W[place]! * forgiving;
    const fresh = { zone: load.zone, watts: own_W + load.watts };
    if (outputs.length < outputCount && fresh.watts <= limit_W && go(at + 1, [...outputs, fresh]))
      return true;
    return outputs.some(
      (output, o) =>
        output.zone === load.zone &&
        output.watts + load.watts <= limit_W &&
        go(at + 1, outputs.with(o, { ...output, watts: output.watts + load.watts })),
    );
  };
  return go(0, []);
}

const isBelow = (a: Best, b: Best | undefined): boolean =>
  !b ||
  a.cost[0] < b.cost[0] - 1e-9 ||
  (a.cost[0] < b.cost[0] + 1e-9 &&
    (a.cost[1] < b.cost[1] - 1e-9 || (a.cost[1] < b.cost[1] + 1e-9 && a.cable_m < b.cable_m - 1e-9)));

/**
 * The least of every way to share out: every partition of the loads, every model and place for each part; undefined where
 * none keeps to stock and room. Written apart from the engine.
 */
export function leastOfAll(given: LoadsToAllocate): Best | undefined {
  const { loads, models } = given;
  const priced = models.every(({ price_cents }) => price_cents !== null);
  const stands = models.flatMap(({ usable_W }, model) => usable_W.map((_, place) => ({ model, place })));
  let best: Best | undefined;
  const isEnough = (taken: readonly Stand[]): boolean =>
    models.every(
      ({ stock }, m) => stock === null || taken.filter(({ model }) => model === m).length <= stock,
    ) &&
    models[0]!.usable_W.every((_, p) =>
      given.hasRoom(
        p,
        taken.filter(({ place }) => place === p).map(({ model }) => model),
      ),
    );
  const go = (left: readonly Load[], taken: readonly Stand[], soFar: Best): void => {
    const [first, ...others] = left;
    if (!first) {
      if (isBelow(soFar, best) && isEnough(taken)) best = soFar;
      return;
    }
    for (let mask = 0; mask < 1 << others.length; mask++) {
      const here = [first, ...others.filter((_, i) => mask & (1 << i))];
      const rest = others.filter((_, i) => !(mask & (1 << i)));
      for (const stand of stands) {
        if (!goOn(here, stand, given)) continue;
        const { price_cents, rated_W } = models[stand.model]!;
        const [a, b] = priced ? [price_cents!, 1] : [1, rated_W];
        const cable_m = here.reduce((sum, load) => sum + load.placeDistances_m[stand.place]!, soFar.cable_m);
        go(rest, [...taken, stand], { cost: [soFar.cost[0] + a, soFar.cost[1] + b], cable_m });
      }
    }
  };
  go(loads, [], { cost: [0, 0], cable_m: 0 });
  return best;
}
