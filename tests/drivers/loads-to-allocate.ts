import type { AllocatedDriver } from '../../src/drivers/allocation.ts';
import type { DriverModel, Load, LoadsToAllocate } from '../../src/drivers/loads.ts';

export const load = (
  run: string,
  watts: number,
  zone: string | null = null,
  distances: number[] = [1],
): Load => ({ run, watts, zone, placeDistances_m: distances });

/** A driver of 100 W, 4.17 A and one output, of which 80 W are usable; four go into a place. */
export const model = (change: Partial<DriverModel> = {}): DriverModel => ({
  ...{ name: '24 V 100 W driver', rated_W: 100, outputCount: 1, current_A: 4.17 },
  ...{ outputsDimTogether: false, usable_W: [80], stock: null, price_cents: null },
  ...{ placeShare: () => 0.25, ...change },
});

/** One model, unless others are given. */
export const given = (
  loads: readonly Load[],
  change: Partial<LoadsToAllocate> & { readonly driver?: Partial<DriverModel> } = {},
): LoadsToAllocate => {
  const { driver, models = [model(driver)], ...rest } = change;
  const hasRoom = (place: number, its: readonly number[]): boolean =>
    its.reduce((sum, i) => sum + models[i]!.placeShare(place), 0) <= 1 + 1e-9;
  return { loads, models, hasRoom, set_V: 24, outputCeiling_W: null, ...rest };
};

/** Each driver as "D1 80 W: D1.1 zone R1 R2 80 W". */
export const told = (drivers: readonly AllocatedDriver[]): string[] =>
  drivers.map(({ id, watts, outputs }) => {
    const words = outputs.map((o) => [o.id, ...(o.zone ? [o.zone] : []), ...o.runs, o.watts, 'W'].join(' '));
    return `${id} ${watts} W: ${words.join(', ')}`;
  });

/** Fewest bins by trying every way. */
export function fewest(watts: readonly number[], size: number): number {
  const go = (rest: readonly number[], bins: readonly number[]): number => {
    const [first, ...others] = rest;
    if (first === undefined) return bins.length;
    const tries = bins.flatMap((b, i) =>
      b + first <= size + 1e-9 ? [go(others, bins.with(i, b + first))] : [],
    );
    return Math.min(go(others, [...bins, first]), ...tries);
  };
  return go(watts, []);
}
