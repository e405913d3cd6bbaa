import type { DriverModel, LoadsToAllocate } from '../../src/drivers/loads.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

const ratedModel = (rated_W: number, price_cents: number | null): DriverModel => ({
  ...{ name: `${rated_W} W`, rated_W, outputCount: 1, current_A: rated_W / 24, outputsDimTogether: false },
  ...{ usable_W: [0.8 * rated_W, 0.8 * rated_W], placeShare: () => 0.01, stock: null, price_cents },
});

export interface SharingWall {
  readonly seed: number;
  readonly count: number;
  readonly least_W: number;
  readonly most_W: number;
  readonly zoneCount: number;
  readonly priced: boolean;
}

/** Loads of a wall with two places, at random, to be shared out over drivers of 60, 100, 150 and 240 W at invented prices. */
export function sharingWall({
  seed,
  count,
  least_W,
  most_W,
  zoneCount,
  priced,
}: SharingWall): LoadsToAllocate {
  const random = seededRandom(seed * 7919);
  for (let i = 0; i < 5; i++) random();
  const prices = [2160, 3000, 4050, 5940];
  return {
    loads: Array.from({ length: count }, (_, i) => ({
      run: `S${i}`,
      watts: least_W + (most_W - least_W) * random(),
      zone: zoneCount === 1 ? null : `Z${Math.floor((i * zoneCount) / count)}`,
      placeDistances_m: [0.1 * i, 0.1 * (count - i)],
    })),
    models: [60, 100, 150, 240].map((rated_W, i) => ratedModel(rated_W, priced ? prices[i]! : null)),
    hasRoom: () => true,
    ...{ set_V: 24, outputCeiling_W: null },
  };
}
