import type { Bins, FilledBin, Pieces } from './bins.ts';
import { bestFills } from './knapsack.ts';

/** Larger pieces are worth a little more than their size, since they are harder to place. */
const sizeExponent = 1.03;

interface Filling {
  readonly left: number[];
  readonly empty: number[];
  readonly worths: number[];
  readonly filled: FilledBin[];
}

/** Raises what pieces are worth that were placed with much waste, and the more so the fewer there are of them. */
function correct(
  { sizes, counts }: Pieces,
  { left, worths }: Filling,
  fill: readonly number[],
  size: number,
): void {
  const used = sizes.reduce((sum, each, i) => sum + each * fill[i]!, 0);
  fill.forEach((count, i) => {
    if (count === 0) return;
    const inertia = (counts[i]! + left[i]!) / count;
    worths[i] = (inertia * worths[i]! + (sizes[i]! ** sizeExponent * size) / used) / (inertia + 1);
  });
}

/** Fills the kind of bin that is filled best with what is left, once, or as often as it leaves nothing empty. */
function fillNext(pieces: Pieces, bins: readonly Bins[], filling: Filling): boolean {
  const { left, empty, worths, filled } = filling;
  const open = bins.flatMap(({ size }, of) => (empty[of]! > 0 ? [{ size, of }] : []));
  if (open.length === 0) return false;
  const goods = pieces.sizes.map((size, i) => ({ size, count: left[i]!, value: worths[i]! }));
  const fills = bestFills(goods, Math.max(...open.map(({ size }) => size)));
  const density = ({ size }: { size: number }): number => fills.values[size]! / size;
  const { of, size } = open.reduce((a, b) => (density(b) > density(a) ? b : a));
  const counts = fills.countsIn(size);
  if (counts.every((count) => count === 0)) return false;
  const isFull = pieces.sizes.reduce((sum, each, i) => sum + each * counts[i]!, 0) === size;
  const often = counts.reduce(
    (least, n, i) => (n > 0 ? Math.min(least, Math.floor(left[i]! / n)) : least),
    empty[of]!,
  );
  for (let times = isFull ? often : 1; times > 0; times--) {
    filled.push({ of, counts });
    empty[of]!--;
    counts.forEach((count, i) => {
      left[i]! -= count;
    });
  }
  correct(pieces, filling, counts, size);
  return true;
}

/**
 * Fills one bin after the other, each as best it can be by what pieces are worth, and then again with pieces worth more
 * that were badly placed (sequential value correction).
 *
 * @param bins sizes whole and above 0
 * @param mostWork steps of the inner loop after which it gives up; one pass is made in any case
 * @returns the bins filled when all pieces went in, else undefined, which proves nothing
 * Source: Mukhacheva and others, Modified branch and bound and sequential value correction, 2000; Belov and Scheithauer,
 * 2007 (from memory). Check: `tests/numeric/bin-packing.test.ts`.
 */
export function fillBins(pieces: Pieces, bins: readonly Bins[], mostWork: number): FilledBin[] | undefined {
  const worths = pieces.sizes.map((size) => size ** sizeExponent);
  const largest = Math.max(...bins.map(({ size }) => size));
  let work = 0;
  do {
    const empty = bins.map(({ count }) => count);
    const filling: Filling = { left: [...pieces.counts], empty, worths, filled: [] };
    do work += largest * pieces.sizes.length;
    while (fillNext(pieces, bins, filling));
    if (filling.left.every((count) => count === 0)) return filling.filled;
  } while (work < mostWork);
  return undefined;
}
