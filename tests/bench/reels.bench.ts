import type { Piece } from '../../src/answer/set-out.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { cutReels } from '../../src/set-out/reels.ts';

/** How many pieces, and between which numbers of cut units, from reels of how many. */
const walls = [
  ['one length', 60, 51, 51, 120],
  ['alike', 28, 30, 70, 100],
  ['unlike', 60, 20, 80, 120],
  ['unlike', 200, 20, 80, 120],
  ['unlike', 600, 20, 80, 120],
  ['of every length', 600, 5, 100, 100],
] as const;

function pieces(seed: number, count: number, least: number, most: number): Piece[] {
  const random = seededRandom(seed * 7919);
  for (let i = 0; i < 5; i++) random();
  return Array.from({ length: count }, (_, i) => {
    const unitCount = least + Math.floor(random() * (most - least + 1));
    return { id: `P${i}`, run: `S${i}`, unitCount, length_mm: unitCount * 50, reel: '' };
  });
}

/** Prints times of cutting from cold, ten sets of pieces each, and how many were not proved least or longest. */
export async function benchReels(): Promise<void> {
  for (const [what, count, least, most, reel] of walls) {
    const kinds = [{ length_mm: reel * 50, price_cents: null, count: null }];
    const cuts = Array.from({ length: 10 }, (_, seed) => {
      const all = pieces(seed + 1, count, least, most);
      const before = performance.now();
      const { reels, isLeast, longestOffcut_mm } = cutReels(all, kinds, 20);
      const isLongest = longestOffcut_mm <= Math.max(...reels.map(({ left_mm }) => left_mm)) + 1e-6;
      return { ms: performance.now() - before, isLeast, isLongest };
    });
    const times = cuts.map(({ ms }) => ms).sort((a, b) => a - b);
    const open = (of: (cut: (typeof cuts)[number]) => boolean) => cuts.filter((cut) => !of(cut)).length;
    console.log(
      `reels: ${count} pieces ${what}: ${times[5]!.toFixed(1)} ms median, ${times[9]!.toFixed(1)} ms most; of 10 the number is open in ${open((cut) => cut.isLeast)}, the offcut in ${open((cut) => cut.isLongest)}`,
    );
  }
}
