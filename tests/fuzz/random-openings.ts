import type { Job } from '../../src/index.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';

/** Mostly none; else a door on the floor, a window, or something that reaches past an edge. */
export function randomOpenings({ panel: { width_mm, height_mm } }: Job, random: Random): Job['openings'] {
  const count = chance(random, 0.7) ? 0 : whole(random, 1, 3);
  return Array.from({ length: count }, (_, i) => ({
    name: pick(random, ['', `Opening ${i + 1}`]),
    ...{ kind: pick(random, ['opening', 'opening', 'keep-out'] as const), cablesPass: chance(random, 0.5) },
    x_mm: between(random, -0.1, 0.9) * width_mm,
    y_mm: chance(random, 0.5) ? 0 : between(random, -0.1, 0.9) * height_mm,
    width_mm: Math.max(20, between(random, 0.02, 0.6) * width_mm),
    height_mm: Math.max(20, between(random, 0.1, 1.1) * height_mm),
    rim_mm: pick(random, [0, 20, 60]),
  }));
}
