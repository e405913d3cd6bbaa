import type { LoadsToAllocate, Stand } from './loads.ts';
import { firstCuts, reaches } from './share-bounds.ts';
import { countsInOrder } from './share-counts.ts';
import { quickSharing } from './share-effort.ts';
import { compareCosts, costOfAll, kindsOf, roomiest } from './share-kinds.ts';

/**
 * Whether it is plain that no drivers carry these loads for less than some do, stock and room left aside: no choice that costs
 * less reaches the watts, the number of loads and the outputs it takes. False says nothing: it takes a search to know.
 *
 * Source: the bounds it joins. Check: `tests/drivers/share-least.test.ts`, against every way there is.
 */
export function plainlyCostLeast(drivers: readonly Stand[], given: LoadsToAllocate): boolean {
  const { loads, models } = given;
  const kinds = roomiest(kindsOf(given));
  if (loads.length === 0 || kinds.length === 0) return loads.length === drivers.length;
  const cost = costOfAll(drivers, given);
  const stocks = models.map(() => null);
  const cuts = firstCuts({ loads, kinds });
  let looks = 0;
  for (const { counts, atLeast } of countsInOrder({ kinds, stocks, cuts, mostDrivers: loads.length })) {
    if (compareCosts(atLeast, cost) >= 0) return true;
    if (++looks > quickSharing.looks || cuts.every((cut) => reaches(cut, counts))) return false;
  }
  return true;
}
