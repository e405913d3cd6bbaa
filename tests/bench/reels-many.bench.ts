import { cutReels } from '../../src/set-out/reels.ts';
import { cuttingInstance } from '../set-out/cutting-instances.ts';

/** Prints how long 200 random cuttings of up to 600 pieces take, and how many numbers of reels were left open. */
export async function benchManyReels(): Promise<void> {
  const cuts = Array.from({ length: 200 }, (_, i) => {
    const { pieces, kinds } = cuttingInstance(i + 1);
    const before = performance.now();
    const { isLeast } = cutReels(pieces, kinds, 20);
    return { ms: performance.now() - before, isLeast };
  });
  const times = cuts.map(({ ms }) => ms).sort((a, b) => a - b);
  const open = cuts.filter(({ isLeast }) => !isLeast).length;
  console.log(
    `reels: 200 cuttings of 10 to 600 pieces, a third from five lengths of reel: ${times[100]!.toFixed(1)} ms median, ${times[199]!.toFixed(0)} ms most; ${open} open`,
  );
}
