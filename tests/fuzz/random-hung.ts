import type { Job } from '../../src/index.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';

/** Mostly nothing; else a few pegs, fixed or free to slide, seldom in a slot that is not there. */
export function randomHung(slotCount: number, random: Random): Job['hung'] {
  const count = chance(random, 0.7) ? 0 : whole(random, 1, 4);
  return Array.from({ length: count }, (_, i) => ({
    name: pick(random, ['', `Peg ${i + 1}`]),
    slot: Math.min(400, whole(random, 1, slotCount + (chance(random, 0.1) ? 2 : 0))),
    place_mm: chance(random, 0.4) ? null : between(random, 0, 2500),
    width_mm: between(random, 1, 60),
    reach_mm: between(random, 0, 60),
  }));
}
