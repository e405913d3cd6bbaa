/** Pieces that are to go into bins, by their sizes: whole, above 0, each once, largest first. */
export interface Pieces {
  readonly sizes: readonly number[];
  /** How many there are of each size, 0 or more. */
  readonly counts: readonly number[];
}

/** Bins of one whole size. */
export interface Bins {
  readonly size: number;
  readonly count: number;
}

/** One bin and what is in it. */
export interface FilledBin {
  /** Which of the bins it is, by index. */
  readonly of: number;
  /** How many pieces of each size. */
  readonly counts: readonly number[];
}

/** Bins with all pieces in them; `none`: proved that there is no way; `unknown`: neither found nor ruled out. */
export type Packing = readonly FilledBin[] | 'none' | 'unknown';

/** Pieces by size, from the sizes of all of them. */
export function piecesOf(all: readonly number[]): Pieces {
  const byCount = new Map<number, number>();
  for (const size of all) byCount.set(size, (byCount.get(size) ?? 0) + 1);
  const sizes = [...byCount.keys()].sort((a, b) => b - a);
  return { sizes, counts: sizes.map((size) => byCount.get(size)!) };
}

/** Size of all pieces together, or of those in a bin. */
export function sizeOf({ sizes }: Pieces, counts: readonly number[]): number {
  return sizes.reduce((sum, size, i) => sum + size * counts[i]!, 0);
}

/** Size of all bins together. */
export function roomIn(bins: readonly Bins[]): number {
  return bins.reduce((sum, { size, count }) => sum + size * count, 0);
}

/** Pieces without those in some bins; sizes stay, so that counts may come to nothing. */
export function without({ sizes, counts }: Pieces, bins: readonly FilledBin[]): Pieces {
  const left = [...counts];
  for (const bin of bins) for (let i = 0; i < left.length; i++) left[i]! -= bin.counts[i]!;
  return { sizes, counts: left };
}
