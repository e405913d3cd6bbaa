import { type Bins, type FilledBin, type Packing, type Pieces, sizeOf } from './bins.ts';

interface Search {
  readonly pieces: Pieces;
  readonly bins: readonly Bins[];
  /** Pieces of each size still to go somewhere, bins of each kind still empty. */
  readonly left: number[];
  readonly empty: number[];
  readonly filled: FilledBin[];
  /** What was tried from and led nowhere. */
  readonly dead: Set<string>;
  nodes: number;
}

interface Completion {
  readonly of: number;
  readonly counts: readonly number[];
  readonly waste: number;
}

/** The most ways of filling one bin that are looked at. */
const mostWays = 400;

/** Every way of filling up a room with what is left from size `from` on, wasting so much at most, largest first. */
function ways(
  search: Search,
  room: number,
  from: number,
  mostWaste: number,
): { counts: number[]; waste: number }[] {
  const { pieces, left } = search;
  const found: { counts: number[]; waste: number }[] = [];
  const counts = pieces.sizes.map(() => 0);
  const rest = [
    ...pieces.sizes.map((_, i) => pieces.sizes.slice(i).reduce((s, z, k) => s + z * left[i + k]!, 0)),
    0,
  ];
  const go = (i: number, free: number, leastSkipped: number): void => {
    if (found.length >= mostWays || --search.nodes < 0 || free - rest[i]! > mostWaste) return;
    if (i === counts.length) {
      // What was left out and would still go in makes it no better than another way.
      if (free < leastSkipped) found.push({ counts: [...counts], waste: free });
      return;
    }
    const size = pieces.sizes[i]!;
    const most = Math.min(left[i]!, Math.floor(free / size));
    for (let n = most; n >= 0; n--) {
      counts[i] = n;
      go(i + 1, free - n * size, n < left[i]! ? size : leastSkipped);
    }
    counts[i] = 0;
  };
  go(from, room, Number.POSITIVE_INFINITY);
  return found;
}

/** The ways of filling the bin that the largest piece left goes into, those that waste least first. */
function completions(search: Search, largest: number, mostWaste: number): Completion[] {
  const { pieces, bins, empty, left } = search;
  left[largest]!--;
  const all = bins.flatMap(({ size }, of) => {
    const room = size - pieces.sizes[largest]!;
    if (empty[of] === 0 || room < 0) return [];
    return ways(search, room, largest, mostWaste).map(({ counts, waste }) => ({
      of,
      waste,
      counts: counts.with(largest, counts[largest]! + 1),
    }));
  });
  left[largest]!++;
  return all.sort((a, b) => a.waste - b.waste);
}

function move(search: Search, { of, counts }: Completion, sign: 1 | -1): void {
  search.empty[of]! -= sign;
  counts.forEach((count, i) => {
    search.left[i]! -= sign * count;
  });
}

/** What all bins that are empty may leave empty together. */
const wasteLeft = ({ pieces, bins, left, empty }: Search): number =>
  bins.reduce((sum, { size }, i) => sum + size * empty[i]!, 0) - sizeOf(pieces, left);

function dig(search: Search): boolean {
  const largest = search.left.findIndex((count) => count > 0);
  if (largest < 0) return true;
  const waste = wasteLeft(search);
  const key = `${search.left}|${search.empty}`;
  if (waste < 0 || search.dead.has(key)) return false;
  for (const way of completions(search, largest, waste)) {
    if (search.nodes < 0) return false;
    move(search, way, 1);
    search.filled.push({ of: way.of, counts: way.counts });
    if (dig(search)) return true;
    search.filled.pop();
    move(search, way, -1);
  }
  search.dead.add(key);
  return false;
}

/**
 * Looks for a way of putting all pieces into the bins: the largest piece left goes into a bin, which is filled up in every
 * way that is not plainly worse than another and leaves no more empty than all bins together can spare.
 *
 * @param mostNodes steps after which it gives up
 * @returns `none` when there is no way; `unknown` when it gave up
 * Source: bin completion, Korf, A new algorithm for optimal bin packing, 2002 (from memory).
 * Check: `tests/numeric/bin-packing.test.ts`, against every way there is.
 */
export function searchBins(pieces: Pieces, bins: readonly Bins[], mostNodes: number): Packing {
  const search: Search = {
    ...{ pieces, bins, left: [...pieces.counts], empty: bins.map(({ count }) => count) },
    ...{ filled: [], dead: new Set(), nodes: mostNodes },
  };
  if (dig(search)) return search.filled;
  return search.nodes < 0 ? 'unknown' : 'none';
}
