import { type DriverFill, driverFills } from './driver-fills.ts';
import type { Load } from './loads.ts';
import type { Cut } from './share-bounds.ts';
import type { Kind } from './share-kinds.ts';

/** A driver of a kind and what it carries. */
export interface FilledDriver extends DriverFill {
  readonly kind: number;
}

/** Drivers that carry all loads; `none`: proved that they cannot; `unknown`: given up. */
type Sharing = readonly FilledDriver[] | 'none' | 'unknown';

/** Steps that are left; counted, so that every machine gives the same answer. */
export interface Budget {
  steps: number;
}

interface Search {
  readonly loads: readonly Load[];
  readonly kinds: readonly Kind[];
  readonly cuts: readonly (Cut & { readonly worths: readonly number[] })[];
  readonly left: number[];
  /** How much of each cut may still be wasted. */
  readonly spare: number[];
  readonly filled: FilledDriver[];
  readonly budget: Budget;
  isAll: boolean;
}

interface Way extends FilledDriver {
  readonly lost: readonly number[];
  readonly rank: number;
}

/** Fills of one driver that are compared at one step, and the steps taken to find them. */
const mostFills = 100;
const stepsForFills = 3000;

function lossOf({ cuts }: Search, kind: number, { outputs }: DriverFill): number[] {
  return cuts.map(({ gives, worths }) =>
    outputs.reduce((lost, held) => held.reduce((rest, i) => rest - worths[i]!, lost), gives[kind]!),
  );
}

/** Ways of carrying the largest load left and others, those that waste least first. */
function waysOf(search: Search, open: readonly number[]): Way[] {
  const { loads, kinds, cuts, left, spare, budget } = search;
  const ways = kinds.flatMap((kind, k) => {
    if (left[k] === 0) return [];
    // The first cut is that of the watts; what it leaves out, a driver may waste besides.
    const besides_W = kind.usable_W - cuts[0]!.gives[k]!;
    const { fills, isAll, steps } = driverFills({
      ...{ loads, open, kind, mostWaste_W: spare[0]! + besides_W + 1e-9 },
      ...{ mostFills, mostSteps: Math.min(stepsForFills, budget.steps) },
    });
    budget.steps -= steps;
    if (!isAll) search.isAll = false;
    return fills.map((fill): Way => {
      const lost = lossOf(search, k, fill);
      const rank = lost.reduce((sum, each, c) => sum + each / Math.max(cuts[c]!.need, 1e-9), 0);
      return { ...fill, kind: k, lost, rank };
    });
  });
  const isSpared = ({ lost }: Way): boolean =>
    lost.every((each, c) => each <= spare[c]! + 1e-7 * cuts[c]!.need);
  return ways.filter(isSpared).sort((a, b) => a.rank - b.rank);
}

function move({ left, spare, filled }: Search, way: Way, sign: 1 | -1): void {
  left[way.kind]! -= sign;
  way.lost.forEach((each, c) => {
    spare[c]! -= sign * each;
  });
  if (sign === 1) filled.push(way);
  else filled.pop();
}

function dig(search: Search, open: readonly number[]): boolean {
  if (open.length === 0) return true;
  if (search.budget.steps <= 0) {
    search.isAll = false;
    return false;
  }
  for (const way of waysOf(search, open)) {
    const held = new Set(way.outputs.flat());
    move(search, way, 1);
    if (
      dig(
        search,
        open.filter((i) => !held.has(i)),
      )
    )
      return true;
    move(search, way, -1);
    if (search.budget.steps <= 0) return false;
  }
  return false;
}

/**
 * Looks for a way of carrying all loads with given numbers of drivers of each kind, by bin completion: the largest load left
 * goes onto some driver, which is filled up in every way that leaves out nothing that would go on as well and wastes no more,
 * by any cut, than all drivers together can spare.
 *
 * @param cuts the first that of the watts; those that loads do not add up to are of no use here
 * @param budget its steps are taken from; @returns `none` when every way was tried
 * Source: bin completion, Korf, A new algorithm for optimal bin packing, 2002 (from memory).
 * Check: `tests/drivers/share-out.test.ts`, against every way there is.
 */
export function searchSharing(
  loads: readonly Load[],
  kinds: readonly Kind[],
  cuts: readonly Cut[],
  { counts, budget }: { readonly counts: readonly number[]; readonly budget: Budget },
): Sharing {
  const useful = cuts.flatMap(({ worths, ...cut }) => (worths ? [{ ...cut, worths }] : []));
  const search: Search = {
    ...{ loads, kinds, cuts: useful, left: [...counts], filled: [], budget, isAll: true },
    spare: useful.map(({ need, gives }) => counts.reduce((sum, n, k) => sum + n * gives[k]!, -need)),
  };
  const open = loads.map((_, i) => i).sort((a, b) => loads[b]!.watts - loads[a]!.watts || a - b);
  if (dig(search, open)) return search.filled;
  return search.isAll ? 'none' : 'unknown';
}
