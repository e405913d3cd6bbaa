import { type Random, seededRandom } from '../../src/numeric/seeded-random.ts';

/** The random numbers of one case: the same for the same seed and number, whatever was run before. */
export function randomOf(seed: number, number: number): Random {
  const random = seededRandom(1 + ((seed * 1_000_003 + number * 7_919) % 2_147_483_645));
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 4; i++) random();
  return random;
}

export const chance = (random: Random, share: number): boolean => random() < share;
export const between = (random: Random, from: number, to: number): number => from + random() * (to - from);
export const whole = (random: Random, from: number, to: number): number =>
  Math.min(to, Math.floor(between(random, from, to + 1)));
export const pick = <Item>(random: Random, items: readonly Item[]): Item =>
  items[whole(random, 0, items.length - 1)]!;
export const shuffled = <Item>(random: Random, items: readonly Item[]): Item[] =>
  items
    .map((item) => ({ item, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);
