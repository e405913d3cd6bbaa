import type { Job } from '../../src/index.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';

/** Mostly none; else a room with a few places in it, some of them with light wanted, seldom one outside it. */
export function randomRoom(random: Random): Job['light']['room'] {
  if (chance(random, 0.6)) return null;
  const depth_mm = between(random, 500, 12000);
  return {
    ...{ width_mm: between(random, 500, 20000), depth_mm, height_mm: between(random, 1000, 6000) },
    ...{ reflectance: between(random, 0, 0.9), maintenance: between(random, 0.3, 1) },
    points: Array.from({ length: whole(random, 1, 4) }, (_, i) => ({
      name: pick(random, ['', `Place ${i + 1}`]),
      plane: pick(random, ['level', 'facing wall'] as const),
      distance_mm: between(random, 50, chance(random, 0.95) ? depth_mm : 2 * depth_mm),
      height_mm: chance(random, 0.4) ? 0 : between(random, 0, 1000),
      along_mm: chance(random, 0.5) ? null : between(random, -2000, 8000),
      wanted_lx: chance(random, 0.5) ? null : between(random, 0.1, 200),
    })),
  };
}
