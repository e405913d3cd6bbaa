import { contiguous } from './contiguous.ts';
import { firstFit } from './first-fit.ts';
import { type Group, type Load, type LoadsToAllocate, roomsOf, type Scarce, stocksOf } from './loads.ts';
import { scattered } from './scattered.ts';
import { shortenCable } from './share-cable.ts';
import type { ShareEffort } from './share-effort.ts';
import { type Cost, compareCosts, costOfAll, isPriced } from './share-kinds.ts';
import type { Offer, Shared } from './share-proof.ts';

/** The row of loads: zone by zone as one meets them, each in its order along the wall. */
function inRow({ loads }: LoadsToAllocate): Load[] {
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  return zones.flatMap((zone) => loads.filter((load) => load.zone === zone));
}

const offered = (groups: readonly Group[], given: LoadsToAllocate): Offer => ({
  groups,
  cost: costOfAll(groups, given),
});

/** First-fit decreasing with one model throughout, at its cheapest, where that many can be had. */
function byFirstFit(given: LoadsToAllocate, scarce: readonly Scarce[]): Offer | null {
  const each = given.models.flatMap((_, model) => {
    const groups = firstFit(given, model);
    return groups?.length && scarce.every((one) => one.isEnough(groups)) ? [offered(groups, given)] : [];
  });
  return each.toSorted((a, b) => compareCosts(a.cost, b.cost))[0] ?? null;
}

/** What loads from anywhere have to cost less than: without prices fewer rated watts alone do not part neighbours. */
const toBeat = ({ cost }: Offer, given: LoadsToAllocate): Cost =>
  isPriced(given) ? cost : [cost[0], Number.NEGATIVE_INFINITY];

interface Holding {
  readonly given: LoadsToAllocate;
  readonly effort: ShareEffort;
  readonly holds: { readonly stock: boolean; readonly room: boolean };
}

/** Loads shared out all together. */
function sharedTogether({ given, effort, holds }: Holding): Shared | null {
  const scarce = scarceOf({ given, holds });
  const cut = contiguous({ ...given, loads: inRow(given) }, scarce);
  const row = cut && { ...offered(cut.groups, given), isWhole: cut.isWhole };
  if (row && given.loads.length === 0) return { ...row, atLeast: row.cost };
  const loose = byFirstFit(given, scarce);
  const isLoose = loose !== null && (row === null || compareCosts(loose.cost, toBeat(row, given)) < 0);
  const known = isLoose ? loose : row;
  const below = known && (isLoose ? known.cost : toBeat(known, given));
  const { groups, cost, atLeast } = scattered({ given, effort, holds, below });
  const best = groups && cost ? { groups, cost } : known;
  if (best === null) return null;
  if (best === row) return { ...row, atLeast };
  const shorter = shortenCable(best.groups, best.cost, { given, scarce });
  return { groups: shorter, cost: best.cost, atLeast, instead: row };
}

const scarceOf = ({ given, holds }: Pick<Holding, 'given' | 'holds'>): Scarce[] => [
  ...(holds.stock ? stocksOf(given) : []),
  ...(holds.room ? roomsOf(given) : []),
];

const sumOf = (costs: readonly Cost[]): Cost => [
  costs.reduce((sum, cost) => sum + cost[0], 0),
  costs.reduce((sum, cost) => sum + cost[1], 0),
];

/** What was found zone by zone, as one. */
function joined(parts: readonly Shared[], given: LoadsToAllocate): Shared {
  const whole = {
    groups: parts.flatMap(({ groups }) => groups),
    cost: sumOf(parts.map(({ cost }) => cost)),
    atLeast: sumOf(parts.map(({ atLeast }) => atLeast)),
  };
  const rows = parts.map((part) => (part.instead === undefined ? part : part.instead));
  if (rows.every((row, i) => row === parts[i]))
    return { ...whole, isWhole: parts.every(({ isWhole }) => isWhole === true) };
  const isRow = rows.every((row) => row !== null);
  return {
    ...whole,
    instead: isRow
      ? offered(
          rows.flatMap((row) => row!.groups),
          given,
        )
      : null,
  };
}

/** Zones by themselves where no driver serves two: that is as good, wherever stock and room do for all of them together. */
function sharedWithin(holding: Holding): Shared | null {
  const { given } = holding;
  const zones = [...new Set(given.loads.map(({ zone }) => zone))];
  const isApart = given.models.every(
    ({ outputCount, outputsDimTogether }) => outputCount === 1 || outputsDimTogether,
  );
  if (zones.length < 2 || !isApart) return sharedTogether(holding);
  const parts = zones.map((zone) =>
    sharedTogether({
      ...holding,
      given: { ...given, loads: given.loads.filter((load) => load.zone === zone) },
    }),
  );
  if (!parts.every((part) => part !== null)) return null;
  const apart = joined(parts, given);
  if (scarceOf(holding).every((one) => one.isEnough(apart.groups))) return apart;
  const together = sharedTogether(holding);
  if (together === null || compareCosts(together.atLeast, apart.atLeast) >= 0) return together;
  return { ...together, atLeast: apart.atLeast };
}

/**
 * The way loads are shared out: within stock and room; where that cannot be done, within stock; and else as if there were
 * enough of both. Neighbours side by side unless others cost less.
 * Check: `tests/drivers/share-out.test.ts`.
 */
export function chosenSharing(given: LoadsToAllocate, effort: ShareEffort): Shared {
  const within = (stock: boolean, room: boolean) => sharedWithin({ given, effort, holds: { stock, room } });
  return within(true, true) ?? within(true, false) ?? within(false, false)!;
}
