import type { Piece } from '../../src/answer/set-out.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import type { ReelKind } from '../../src/set-out/reels.ts';

/** Reels of five lengths at invented prices, in cut units of 50 mm. */
const fiveLengths: readonly ReelKind[] = [
  [100, 2900],
  [120, 3400],
  [150, 4150],
  [200, 5400],
  [400, 10500],
].map(([units, price_cents]) => ({ length_mm: units! * 50, price_cents: price_cents!, count: null }));

/** 10 to 600 pieces at random, from a tenth of a reel to most of it: every third from reels of five lengths, at prices. */
export function cuttingInstance(seed: number): { pieces: Piece[]; kinds: readonly ReelKind[] } {
  const random = seededRandom(seed * 7919);
  for (let i = 0; i < 5; i++) random();
  const count = 10 + Math.floor(590 * random() ** 2);
  const [least, most] = [10 + Math.floor(20 * random()), 50 + Math.floor(50 * random())];
  const pieces = Array.from({ length: count }, (_, i): Piece => {
    const unitCount = least + Math.floor((most - least + 1) * random());
    return { id: `P${i}`, run: `S${i}`, unitCount, length_mm: unitCount * 50, reel: '' };
  });
  return {
    pieces,
    kinds: seed % 3 === 0 ? fiveLengths : [{ length_mm: 100 * 50, price_cents: null, count: null }],
  };
}
