import { directExchange, type Facet, facetLength } from '../numeric/view-factors.ts';
import { type ExchangeRepeat, type ExchangeTable, repeatCount } from './exchange-table.ts';
import { placedProfile } from './profile.ts';
import { profileExchange } from './profile-exchange.ts';
import { type LitSection, slotEdges } from './section.ts';
import type { SectionFacet } from './section-facets.ts';

interface SlotEdges {
  readonly left_m: number;
  readonly right_m: number;
  readonly y_m: number;
}

/** Length of the shortest string from the cavity to the reveal that bends at most round a slot edge. */
function tautString(belowX: number, belowY: number, aboveX: number, aboveY: number, slot: SlotEdges): number {
  const rise = aboveY - belowY;
  const below = slot.y_m - belowY;
  const straight = rise > 0 ? belowX + (below / rise) * (aboveX - belowX) : belowX;
  const crossing = Math.min(slot.right_m, Math.max(slot.left_m, straight));
  const toSlot = crossing - belowX;
  const fromSlot = aboveX - crossing;
  const above = aboveY - slot.y_m;
  return Math.sqrt(toSlot * toSlot + below * below) + Math.sqrt(fromSlot * fromSlot + above * above);
}

/**
 * Direct exchange area per metre between a facet of the cavity and one of an open slot's reveal, by crossed strings
 * drawn taut round the slot's edges: `(crossed - uncrossed)/2`, exact where the edges hide part of the view.
 *
 * Source: H. C. Hottel's crossed-string method, in which strings lie taut on whatever stands between
 * (secondary copy). Check: `tests/light/facet-exchange.test.ts` (closure, and counting of straight rays).
 */
export function exchangeThroughSlot(cavity: Facet, reveal: Facet, slot: SlotEdges): number {
  const crossed =
    tautString(cavity.x0, cavity.y0, reveal.x0, reveal.y0, slot) +
    tautString(cavity.x1, cavity.y1, reveal.x1, reveal.y1, slot);
  const uncrossed =
    tautString(cavity.x1, cavity.y1, reveal.x0, reveal.y0, slot) +
    tautString(cavity.x0, cavity.y0, reveal.x1, reveal.y1, slot);
  return Math.max(0, (crossed - uncrossed) / 2);
}

/** What two facets exchange where they stand; nothing passes a sheet. */
function pairExchange(section: LitSection): (a: SectionFacet, b: SectionFacet) => number {
  const slot = { ...slotEdges(section), y_m: section.depth_m };
  return (a, b) => {
    if (a.zone === b.zone) return directExchange(a, b);
    if (section.sheet) return 0;
    return a.zone === 'cavity' ? exchangeThroughSlot(a, b, slot) : exchangeThroughSlot(b, a, slot);
  };
}

/** Whether two facets face each other across the depth, so that repeats of an endless section count. */
function acrossDepth(a: SectionFacet, b: SectionFacet): boolean {
  return (a.face === 'back') !== (b.face === 'back');
}

/** The exchange of one repeat. */
function oneRepeat(
  section: LitSection,
  facets: readonly SectionFacet[],
  backMoved_m: number,
): ExchangeRepeat {
  const count = facets.length;
  const shared_m = new Float64Array(count * count);
  const pair = pairExchange(section);
  const moved = facets.map((facet) => {
    const by_m = facet.face === 'back' ? backMoved_m : 0;
    return { ...facet, x0: facet.x0 + by_m, x1: facet.x1 + by_m };
  });
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < i; j++) {
      if (backMoved_m !== 0 && !acrossDepth(facets[i]!, facets[j]!)) continue;
      const exchange = pair(moved[i]!, moved[j]!);
      shared_m[i * count + j] = exchange;
      shared_m[j * count + i] = exchange;
    }
  }
  // Pairs without the back stand in the repeat that is not moved.
  return { moved_m: ({ face }) => (face === 'back' ? backMoved_m : -backMoved_m), shared_m };
}

/** What every facet still lacks for its exchange to add up to its length. */
function remainders(facets: readonly SectionFacet[], shared_m: Float64Array): Float64Array {
  const count = facets.length;
  return Float64Array.from(facets, (facet, i) => {
    let sum = 0;
    for (let j = 0; j < count; j++) if (!facets[j]!.probe) sum += shared_m[i * count + j]!;
    return Math.max(0, facetLength(facet) - sum);
  });
}

/** Gives the far repeats their share: in proportion to what both facets lack, which closes every row. */
function closeEndless(
  facets: readonly SectionFacet[],
  shared_m: Float64Array,
  remainder_m: Float64Array,
): void {
  const count = facets.length;
  let total = 0;
  for (let i = 0; i < count; i++)
    if (facets[i]!.face === 'back' && !facets[i]!.probe) total += remainder_m[i]!;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      if (!acrossDepth(facets[i]!, facets[j]!)) continue;
      shared_m[i * count + j]! += (remainder_m[i]! * remainder_m[j]!) / total;
    }
  }
}

/**
 * Direct exchange areas per metre `A_i*F_ij` between all facets of the section, symmetric, every row adding up to
 * the length of its facet (rows of probes too). In an endless section the nearest repeats are followed one by one and
 * the rest, a few parts in a thousand, is spread so that rows and columns close exactly.
 *
 * Source: H. C. Hottel's crossed-string method (secondary copy).
 * Check: `tests/light/facet-exchange.test.ts` (closure and symmetry).
 */
export function exchangeTable(section: LitSection, facets: readonly SectionFacet[]): ExchangeTable {
  const placed = placedProfile(section);
  if (placed !== null) return profileExchange(section, facets, placed);
  const count = facets.length;
  if (!section.endless) {
    const only = oneRepeat(section, facets, 0);
    return { count, shared_m: only.shared_m, repeats: [only], remainder_m: new Float64Array(count) };
  }
  const repeats = Array.from({ length: 2 * repeatCount + 1 }, (_, i) => {
    return oneRepeat(section, facets, (i - repeatCount) * section.width_m);
  });
  const shared_m = new Float64Array(count * count);
  for (const repeat of repeats) {
    for (let at = 0; at < shared_m.length; at++) shared_m[at]! += repeat.shared_m[at]!;
  }
  const remainder_m = remainders(facets, shared_m);
  closeEndless(facets, shared_m, remainder_m);
  return { count, shared_m, repeats, remainder_m };
}
