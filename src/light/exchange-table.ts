import type { SectionFacet } from './section-facets.ts';

/** How many repeats of an endless section are followed on each side; the rest closes the balance. */
export const repeatCount = 2;

/** Exchange between all facets, row by row: entry `i*count + j` is the length shared by facets i and j. */
export interface ExchangeTable {
  readonly count: number;
  readonly shared_m: Float64Array;
  /** The same, repeat by repeat of an endless section. */
  readonly repeats: readonly ExchangeRepeat[];
  /** What each facet exchanges with the far repeats of an endless section; zero otherwise. */
  readonly remainder_m: Float64Array;
}

/** The exchange of one repeat: what each of two facets shares with the other one moved sideways. */
export interface ExchangeRepeat {
  /** How far the first of two facets, the later in the list, is moved against the second. */
  readonly moved_m: (first: SectionFacet) => number;
  readonly shared_m: Float64Array;
}
