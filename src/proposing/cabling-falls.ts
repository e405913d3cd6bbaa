import { driverModels } from '../job/products.ts';
import { farOver, thickerIsBetter, thinnerIsBetter } from './check-kinds.ts';
import { coldly } from './cold-sizing.ts';
import type { Fall } from './fallen.ts';
import type { Figures } from './figures.ts';
import { type Group, isNoThicker, type Leaf, orderOf } from './search-parts.ts';
import type { SearchState } from './search-state.ts';

/**
 * Whether more copper surely helps: where a run is fed from several points, thicker cables shift current from one to
 * another, and only a drop far over the limit says something of thinner ones.
 */
const isSure = ({ lying }: Group, dropOverLimit: number | null): boolean =>
  lying.feedPointCount <= lying.setOut.runs.length || (dropOverLimit ?? 0) > farOver;

/** What a thicker or a thinner cabling fell by, where this then falls by the same. */
export function knownFall({ group, c, u }: Leaf): Fall | undefined {
  const one = group.cabling[c]!;
  const same = group.known.find(({ cabling, u: by, fall, dropOverLimit }) => {
    if (fall === null) return false;
    const isOfKind = u === by || (dropOverLimit ?? 0) > farOver || fall.check === 'way-room';
    if (!isOfKind) return false;
    if (thickerIsBetter.has(fall.check)) return isNoThicker(one, cabling) && isSure(group, dropOverLimit);
    return thinnerIsBetter.has(fall.check) && isNoThicker(cabling, one);
  });
  return same?.fall ?? undefined;
}

/** The least of a leaf, knowing that thicker cables leave more volts and so never ask for fewer drivers. */
export function leastOf({ space: { isPriced } }: SearchState, { group, c, least }: Leaf): Figures {
  const thinner = group.known.filter(({ cabling }) => isNoThicker(cabling, group.cabling[c]!));
  const driverCount = Math.max(least.driverCount, ...thinner.map((one) => one.driverCount));
  const { products, rated_W, driverCount: count } = group.driven;
  const more = driverCount - least.driverCount;
  const cheapest_cents = Math.min(...driverModels(products).map((model) => model.price_cents ?? 0));
  return {
    ...{ ...least, driverCount },
    rated_W: Math.max(least.rated_W, (driverCount * rated_W) / count),
    price_cents: least.price_cents + (isPriced ? more * cheapest_cents : 0),
  };
}

/**
 * Where thin cables of a group have fallen already, one half way to the thickest is tried first: if that falls as well,
 * so does everything below it.
 */
export function probeThicker(state: SearchState, { group, c, u }: Leaf): void {
  const one = group.cabling[c]!;
  const isHard = group.known.some(
    ({ fall, dropOverLimit }) =>
      fall !== null && thickerIsBetter.has(fall.check) && isSure(group, dropOverLimit),
  );
  const thicker = [...group.cabling.keys()].filter((i) => i !== c && isNoThicker(one, group.cabling[i]!));
  const isKnown = (i: number): boolean => state.known.cold.has(orderOf({ group, c: i, u }).join('.'));
  if (!isHard || thicker.length < 2 || thicker.some(isKnown)) return;
  const copper = (i: number): number => group.cabling[i]!.area_mm2 + group.cabling[i]!.trunk_mm2;
  const ordered = thicker.toSorted((a, b) => copper(a) - copper(b));
  coldly(state, { group, c: ordered[ordered.length >> 1]!, u });
}
