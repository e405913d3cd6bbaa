import { type Effort, packBins } from '../numeric/bin-packing.ts';
import { type Bins, type FilledBin, type Packing, type Pieces, roomIn, sizeOf } from '../numeric/bins.ts';

export interface LongestOffcut {
  readonly filled: readonly FilledBin[];
  /** Whole units left on the reel that has most left. */
  readonly left: number;
  /** No way of cutting these reels leaves more on one; equal to `left` where that is proved. */
  readonly atMost: number;
}

interface Asked {
  readonly pieces: Pieces;
  readonly bins: readonly Bins[];
  readonly effort: Effort;
}

/** All pieces from the same reels, one of which keeps so many units, if that is found. */
function keeping({ pieces, bins, effort }: Asked, of: number, units: number): Packing {
  const { size, count } = bins[of]!;
  const shortened = [...bins.with(of, { size, count: count - 1 }), { size: size - units, count: 1 }];
  const packing = packBins(pieces, shortened, effort);
  if (typeof packing === 'string') return packing;
  return packing.map((bin) => (bin.of === bins.length ? { ...bin, of } : bin));
}

const mostLeft = ({ pieces, bins }: Asked, filled: readonly FilledBin[]): number =>
  Math.max(...filled.map(({ of, counts }) => bins[of]!.size - sizeOf(pieces, counts)));

/** Halves the units between what one reel of a kind is known to keep and what it cannot. */
function onKind(asked: Asked, of: number, best: LongestOffcut, most: number): LongestOffcut {
  let { filled, left } = best;
  let [failed, refuted] = [most + 1, most + 1];
  for (let units = most; left < units && units < failed; units = Math.floor((left + failed) / 2)) {
    const found = keeping(asked, of, units);
    if (typeof found !== 'string') {
      filled = found;
      left = mostLeft(asked, found);
    } else {
      failed = units;
      if (found === 'none') refuted = units;
    }
  }
  return { filled, left, atMost: Math.max(best.atMost, refuted - 1) };
}

/**
 * Cuts reels so that one of them keeps the longest offcut, in whole units: asks whether all pieces go into the reels with
 * one of them so much shorter, and halves what is not decided. None keeps more than all reels have to spare, nor more than
 * the shortest piece leaves.
 *
 * @param bins the reels that are taken; @param filled one way of cutting all pieces from them
 * Check: `tests/set-out/reels.test.ts`, against every way there is.
 */
export function longestOffcut(asked: Asked, filled: readonly FilledBin[]): LongestOffcut {
  const { pieces, bins } = asked;
  const shortest = pieces.sizes.at(-1)!;
  const spare = roomIn(bins) - sizeOf(pieces, pieces.counts);
  const kinds = bins.map(({ size, count }, of) => ({ of, count, most: Math.min(spare, size - shortest) }));
  const first: LongestOffcut = { filled, left: mostLeft(asked, filled), atMost: 0 };
  const found = kinds
    .filter(({ count }) => count > 0)
    .toSorted((a, b) => b.most - a.most)
    .reduce((best, { of, most }) => (most > best.left ? onKind(asked, of, best, most) : best), first);
  return { ...found, atMost: Math.max(found.left, found.atMost) };
}
