import { money } from '../words.ts';
import type { Group, LoadsToAllocate } from './loads.ts';
import { type Cost, isPriced } from './share-kinds.ts';

/** A way to share out, and what its drivers cost. */
export interface Offer {
  readonly groups: readonly Group[];
  readonly cost: Cost;
  /** Whether every cut of the row was looked at; not said of loads from anywhere. */
  readonly isWhole?: boolean;
}

/** A way that was taken. */
export interface Shared extends Offer {
  /** Nothing costs less than this, by what was refuted. */
  readonly atLeast: Cost;
  /** What was not taken since it is dearer: runs side by side; null where these cannot be carried at all. */
  readonly instead?: Offer | null;
}

interface Taken {
  readonly driverCount: number;
  /** Null where not every model has a price. */
  readonly price_cents: number | null;
}

/** How good a sharing-out is known to be. */
export interface Sharing extends Taken {
  /** Whether nothing is cheaper; without prices, whether nothing takes fewer drivers. */
  readonly isProved: boolean;
  /** Part by which price, or without prices the number of drivers, may be above the least there is; 0 where proved. */
  readonly gap: number;
  readonly leastPrice_cents: number | null;
  readonly leastCount: number;
  /** Whether the runs of every driver lie side by side. */
  readonly isSideBySide: boolean;
  /** What it would take side by side where it is not; null where it is, or where that cannot be done. */
  readonly sideBySide: Taken | null;
}

const takenBy = ({ groups, cost }: Offer, priced: boolean): Taken => ({
  driverCount: groups.length,
  price_cents: priced ? cost[0] : null,
});

/** What is known of a sharing-out. */
export function sharingOf(shared: Shared, given: LoadsToAllocate): Sharing {
  const priced = isPriced(given);
  const { cost, atLeast, instead } = shared;
  const least = Math.min(cost[0], Math.ceil(atLeast[0] - 1e-6));
  const isFirst = least >= cost[0];
  return {
    ...takenBy(shared, priced),
    isProved: isFirst && (!priced || atLeast[0] > cost[0] || atLeast[1] >= cost[1] - 1e-6),
    gap: isFirst ? 0 : (cost[0] - least) / Math.max(least, 1),
    leastPrice_cents: priced ? least : null,
    leastCount: priced ? 0 : least,
    isSideBySide: instead === undefined,
    sideBySide: instead ? takenBy(instead, priced) : null,
  };
}

const row = (priced: boolean): string =>
  `Runs side by side on each driver: ${priced ? 'least price, then fewest drivers' : 'fewest drivers, then least rated watts'}, then shortest cable, then evenly loaded`;

function howText({ instead, isWhole }: Shared, priced: boolean): string {
  if (instead === undefined) return `${row(priced)}${isWhole ? ' (every way tried)' : ''}.`;
  const others =
    instead === null
      ? 'cannot be carried'
      : priced
        ? `would cost ${money(instead.cost[0])} on ${instead.groups.length}`
        : `would take ${instead.groups.length}`;
  return `Runs from anywhere on the wall share a driver, since side by side they ${others}.`;
}

const percent = (gap: number): string => `${(100 * gap).toFixed(gap < 0.0995 ? 1 : 0)} %`;

function proofText({
  isProved,
  gap,
  price_cents,
  leastPrice_cents,
  leastCount,
  driverCount,
}: Sharing): string {
  if (price_cents === null)
    return isProved
      ? 'No allocation can use fewer drivers.'
      : `Not shown to be the least number of all: at least ${leastCount} drivers are needed, this uses ${driverCount}, at most ${percent(gap)} too many.`;
  if (isProved) return `They cost ${money(price_cents)}; no choice of these drivers is cheaper.`;
  return gap === 0
    ? `They cost ${money(price_cents)}; no choice of these drivers is cheaper, but fewer at that price were not ruled out.`
    : `They cost ${money(price_cents)}; not shown to be the cheapest: none costs less than ${money(leastPrice_cents!)}, so this is at most ${percent(gap)} too dear.`;
}

/** How loads were shared out and what that is worth, in words. */
export function methodText(sharing: Sharing, shared: Shared, given: LoadsToAllocate): string {
  const priced = isPriced(given);
  const isMixed = !priced && given.models.some(({ price_cents }) => price_cents !== null);
  return [
    howText(shared, priced),
    proofText(sharing),
    ...(isMixed ? ['Prices decide nothing here, since not every model has one.'] : []),
  ].join(' ');
}
