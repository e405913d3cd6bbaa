import { type Box, tautStrings } from '../numeric/taut-strings.ts';
import { reaching, uBlocks } from '../numeric/u-blocks.ts';
import { directExchange, facetLength } from '../numeric/view-factors.ts';
import { type ExchangeRepeat, type ExchangeTable, repeatCount } from './exchange-table.ts';
import { coverOf, type PlacedProfile } from './profile.ts';
import { type LitSection, slotEdges } from './section.ts';
import type { SectionFacet } from './section-facets.ts';

const beyond_m = 1;

/** The front on both sides of the slot, through which nothing is seen. */
function frontBlocks(section: LitSection): Box[] {
  const { width_m, depth_m } = section;
  const { left_m, right_m } = slotEdges(section);
  const front = { y0: depth_m, y1: depth_m + section.reveal.depth_m + beyond_m };
  const end_m = section.endless ? 0 : beyond_m;
  return [
    { ...front, x0: -end_m, x1: left_m },
    { ...front, x0: right_m, x1: width_m + end_m },
  ];
}

/** A profile as a solid, or as a U that is open to the cavity. */
function profileBlocks({ strip }: LitSection, { outer, inner }: PlacedProfile, isOpen: boolean): Box[] {
  const base = strip.mount === 'side' ? 'x0' : 'y0';
  const blocks = isOpen ? uBlocks(outer, inner, base) : [outer];
  return blocks.map((block) => reaching(block, base, beyond_m));
}

const movedBy = <Flat extends { readonly x0: number; readonly x1: number }>(
  flat: Flat,
  by_m: number,
): Flat => ({
  ...flat,
  x0: flat.x0 + by_m,
  x1: flat.x1 + by_m,
});

/** What two facets exchange past everything that stands in the room, the second one moved. */
function seenIn(
  section: LitSection,
  placed: PlacedProfile,
  facets: readonly SectionFacet[],
  isOpen: boolean,
) {
  const { endless, width_m, depth_m, reveal } = section;
  const reach = endless ? 2 * repeatCount : 0;
  const moves = Array.from({ length: 2 * reach + 1 }, (_, k) => (k - reach) * width_m);
  const blocks = [...frontBlocks(section), ...profileBlocks(section, placed, isOpen)];
  const { anchored, exchange_m } = tautStrings({
    bounds: { x0: moves[0]!, x1: width_m + moves.at(-1)!, y0: 0, y1: depth_m + reveal.depth_m },
    blocks: moves.flatMap((by_m) => blocks.map((block) => movedBy(block, by_m))),
  });
  const own = facets.map(anchored);
  return (by_m: number) => {
    const there = facets.map((facet) => anchored(movedBy(facet, by_m)));
    return (i: number, j: number): number => exchange_m(own[i]!, there[j]!);
  };
}

const isCover = ({ face }: SectionFacet): boolean => face === 'cover' || face === 'cover-inside';

/** What two facets exchange, by the zones they lie in. */
function pairsOf(section: LitSection, placed: PlacedProfile, facets: readonly SectionFacet[]) {
  const { transmittance, straight } = coverOf(placed.profile);
  const through = transmittance * straight;
  const past = seenIn(section, placed, facets, false);
  const into = through > 0 ? seenIn(section, placed, facets, true) : null;
  return (by_m: number) => {
    const [outside, inside] = [past(by_m), into?.(by_m)];
    return (i: number, j: number): number => {
      const [a, b] = [facets[i]!, facets[j]!];
      if (a.zone === b.zone && a.zone !== 'cavity') return by_m === 0 ? directExchange(a, b) : 0;
      const isBetween = a.zone === 'inside' || b.zone === 'inside';
      const isShut = section.sheet !== null && (a.zone === 'reveal' || b.zone === 'reveal');
      if (isShut) return 0;
      if (!isBetween) return outside(i, j);
      return inside === undefined || isCover(a) || isCover(b) ? 0 : through * inside(i, j);
    };
  };
}

function repeatOf(count: number, by_m: number, pair: (i: number, j: number) => number): ExchangeRepeat {
  const shared_m = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < i; j++) {
      const value = pair(i, j);
      shared_m[i * count + j] = value;
      shared_m[j * count + i] = value;
    }
  return { moved_m: () => -by_m, shared_m };
}

/** What the exchange of each facet with those outside the profile is to add up to. */
function outsideLengths_m(
  facets: readonly SectionFacet[],
  shared_m: Float64Array,
  through: number,
): number[] {
  const n = facets.length;
  return facets.map((facet, i) => {
    if (facet.zone !== 'inside') return facetLength(facet);
    if (facet.face === 'cover-inside') return 0;
    const toCover = facets.reduce(
      (sum, { face }, j) => sum + (face === 'cover-inside' ? shared_m[i * n + j]! : 0),
      0,
    );
    return through * toCover;
  });
}

/**
 * Gives far repeats their share, in proportion to what both facets lack, which closes every row. What the inside lacks, all
 * facets together, is what the cover lacks times what it passes straight, so that light through both is counted once.
 */
function closeEndless(
  facets: readonly SectionFacet[],
  shared_m: Float64Array,
  through: number,
): Float64Array {
  const n = facets.length;
  const isOutside = facets.map(({ probe, zone }) => !probe && zone !== 'inside');
  const whole_m = outsideLengths_m(facets, shared_m, through);
  const lacking_m = Float64Array.from(whole_m, (length, i) => {
    const row = shared_m.subarray(i * n, (i + 1) * n);
    return Math.max(0, length - row.reduce((sum, value, j) => sum + (isOutside[j] ? value : 0), 0));
  });
  const total = lacking_m.reduce((sum, value, i) => sum + (isOutside[i] ? value : 0), 0);
  if (total === 0) return lacking_m;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) shared_m[i * n + j]! += (lacking_m[i]! * lacking_m[j]!) / total;
  return lacking_m;
}

/** A profile in the slot meets nothing but the room: all that leaves its cover or its mouth leaves for good. */
function recessedExchange(facets: readonly SectionFacet[], placed: PlacedProfile): ExchangeTable {
  const { transmittance, straight } = coverOf(placed.profile);
  const n = facets.length;
  const opening = facets.findIndex(({ face }) => face === 'opening');
  const only = repeatOf(n, 0, (i, j) => {
    const [a, b] = [facets[i]!, facets[j]!];
    return a.zone === 'inside' && b.zone === 'inside' ? directExchange(a, b) : 0;
  });
  const { shared_m } = only;
  for (const [i, facet] of facets.entries()) {
    if (i === opening || facet.probe || facet.face === 'cover-inside') continue;
    const toCover = facets.reduce(
      (sum, { face, probe }, j) => sum + (face === 'cover-inside' && !probe ? shared_m[i * n + j]! : 0),
      0,
    );
    const out_m = facet.face === 'cover' ? facetLength(facet) : transmittance * straight * toCover;
    shared_m[i * n + opening] = out_m;
    shared_m[opening * n + i] = out_m;
  }
  return { count: n, shared_m, repeats: [only], remainder_m: new Float64Array(n) };
}

/**
 * Direct exchange areas per metre between all facets of a section with a profile: inside it by plain crossed strings, in the
 * cavity by strings drawn taut round it and the slot's edges, and between inside and cavity, through the mouth, the share that
 * the cover passes straight. Light the cover passes otherwise goes from one of its sides to the other (`partner`).
 *
 * Rows of the cavity add up to the lengths of their facets without what comes straight out of the profile; rows inside it
 * add up with the cover's inside, without it.
 * Source: Hottel's crossed strings, `tautStrings`. Check: the balance of every answer and counted photons in
 * `tests/light/profile.test.ts`.
 */
export function profileExchange(
  section: LitSection,
  facets: readonly SectionFacet[],
  placed: PlacedProfile,
): ExchangeTable {
  const count = facets.length;
  if (section.strip.mount === 'recessed') return recessedExchange(facets, placed);
  const pairs = pairsOf(section, placed, facets);
  const reach = section.endless ? repeatCount : 0;
  const repeats = Array.from({ length: 2 * reach + 1 }, (_, k) => {
    const by_m = (k - reach) * section.width_m;
    return repeatOf(count, by_m, pairs(by_m));
  });
  const shared_m = new Float64Array(count * count);
  for (const repeat of repeats) for (const [at, value] of repeat.shared_m.entries()) shared_m[at]! += value;
  const { transmittance, straight } = coverOf(placed.profile);
  const remainder_m = section.endless
    ? closeEndless(facets, shared_m, transmittance * straight)
    : new Float64Array(count);
  return { count, shared_m, repeats, remainder_m };
}
