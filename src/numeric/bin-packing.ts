import { fillBins } from './bin-filling.ts';
import { type BinPrices, binPrices } from './bin-prices.ts';
import { searchBins } from './bin-search.ts';
import { type Bins, type FilledBin, type Packing, type Pieces, roomIn, sizeOf, without } from './bins.ts';

/** How much trouble is taken: steps of inner loops, so that the answer does not depend on the machine. */
export interface Effort {
  readonly fillWork: number;
  readonly searchNodes: number;
  readonly priceWork: number;
}

function relaxed(pieces: Pieces, bins: readonly Bins[], work: number): BinPrices {
  const free = bins.map((bin) => ({ ...bin, cost: 0 }));
  return binPrices({ pieces, bins: free, leftOut: pieces.sizes.map(() => 1), enough: 1, work });
}

/** Bins that the relaxed problem fills wholly, or else one in the way it uses most. */
function wholeFills({ fills }: BinPrices): FilledBin[] {
  const whole = fills.flatMap(({ times, ...bin }) => Array<FilledBin>(Math.floor(times + 1e-6)).fill(bin));
  if (whole.length > 0 || fills.length === 0) return whole;
  const { of, counts } = fills.reduce((a, b) => (b.times > a.times ? b : a));
  return [{ of, counts }];
}

/** Without those that are filled. */
const emptyOf = (bins: readonly Bins[], filled: readonly FilledBin[]): Bins[] =>
  bins.map(({ size, count }, i) => ({ size, count: count - filled.filter(({ of }) => of === i).length }));

/** Takes over what the relaxed problem fills wholly, looks for a place for the rest, and else relaxes the rest. */
function dive(
  pieces: Pieces,
  bins: readonly Bins[],
  prices: BinPrices,
  effort: Effort,
): readonly FilledBin[] | undefined {
  const sure = wholeFills(prices);
  if (sure.length === 0) return undefined;
  const [rest, empty] = [without(pieces, sure), emptyOf(bins, sure)];
  const found = packSoon(rest, empty, effort);
  if (Array.isArray(found)) return [...sure, ...found];
  const less = { ...effort, priceWork: 0.8 * effort.priceWork };
  const again = found === 'none' ? undefined : relaxed(rest, empty, less.priceWork);
  if (!again || again.bound > 0) return undefined;
  const deeper = dive(rest, empty, again, less);
  return deeper && [...sure, ...deeper];
}

/** What room, one pass of filling and a short search say. */
export function packSoon(pieces: Pieces, bins: readonly Bins[], effort: Effort): Packing {
  if (roomIn(bins) < sizeOf(pieces, pieces.counts)) return 'none';
  return fillBins(pieces, bins, 0) ?? searchBins(pieces, bins, effort.searchNodes / 10);
}

/**
 * Whether pieces go into bins, and how: by filling bin after bin, by a short search, by filling again with what was
 * learnt; refuted by the prices of the relaxed problem, or else found by rounding it or by a longer search.
 *
 * @param pieces sizes whole and above 0, largest first; @param bins as many of each size as there are
 * @returns the bins filled; `none` by room, by every way tried or by prices that prove it; `unknown` where the trouble
 *   allowed decided neither
 * Source: the functions it joins. Check: `tests/numeric/bin-packing.test.ts`, against every way there is.
 */
export function packBins(pieces: Pieces, bins: readonly Bins[], effort: Effort): Packing {
  const first = packSoon(pieces, bins, effort);
  if (first !== 'unknown') return first;
  const prices = relaxed(pieces, bins, effort.priceWork);
  if (prices.bound > 0) return 'none';
  return (
    dive(pieces, bins, prices, effort) ??
    fillBins(pieces, bins, effort.fillWork) ??
    searchBins(pieces, bins, effort.searchNodes)
  );
}
