import { middlesOfShares } from '../numeric/equal-shares.ts';
import { type Cable, type CircuitDescription, crossedCable, pairedCable, type Run } from './description.ts';

/**
 * How a run is fed: at one end, at both, positive at the start and returns at the finish (`crossed`), at
 * `feedCount` points between the ends (each feeding an equal share to both sides), or at `feedCount` points
 * evenly spread with the first and last at the ends.
 */
export type FeedArrangement =
  | { readonly kind: 'start' | 'finish' | 'both' | 'crossed' }
  | { readonly kind: 'between'; readonly feedCount: number }
  | { readonly kind: 'ends-and-between'; readonly feedCount: number };

/** A lead from driver to feed point; every feed point gets one. */
export interface Lead {
  readonly length_m: number;
  /** One conductor at its temperature. */
  readonly ohm_per_m: number;
  readonly contact_ohm: number;
}

/** So many points evenly spread over `0..whole`, the first and the last at its ends. */
function endsAndBetween(count: number, whole: number): number[] {
  return Array.from({ length: count }, (_, k) => (whole * k) / Math.max(1, count - 1));
}

/**
 * Cut lines where an arrangement feeds a run of `unitCount` units, ascending: `between` puts feed k of n at
 * `(2k - 1)/2n` of the length, `ends-and-between` k of n at `(k - 1)/(n - 1)`, both rounded to the nearest cut line.
 * A crossed feed uses both ends.
 */
function feedCutLines(arrangement: FeedArrangement, unitCount: number): readonly number[] {
  const rounded = (lines: readonly number[]): number[] => [...new Set(lines.map(Math.round))];
  switch (arrangement.kind) {
    case 'start':
      return [0];
    case 'finish':
      return [unitCount];
    case 'both':
    case 'crossed':
      return [0, unitCount];
    case 'between':
      return rounded(middlesOfShares(arrangement.feedCount, unitCount));
    case 'ends-and-between':
      return rounded(endsAndBetween(arrangement.feedCount, unitCount));
  }
}

/** Cables from a source to a run in the given arrangement; their names begin with the run's. */
function feedCables(of: {
  readonly run: Run;
  readonly source: string;
  readonly arrangement: FeedArrangement;
  readonly lead: Lead;
}): readonly Cable[] {
  const { run, lead } = of;
  const channels = run.channels.map(({ id }) => id);
  const from = { source: of.source };
  if (of.arrangement.kind === 'crossed') {
    const positiveTo = { run: run.id, cutLine: 0 };
    const returnTo = { run: run.id, cutLine: run.unitCount };
    return [crossedCable({ id: `${run.id}/crossed`, channels, from, positiveTo, returnTo, ...lead })];
  }
  return feedCutLines(of.arrangement, run.unitCount).map((cutLine) =>
    pairedCable({ id: `${run.id}/${cutLine}`, channels, from, to: { run: run.id, cutLine }, ...lead }),
  );
}

/** One run alone on one driver. */
export function fedRun(of: {
  readonly run: Run;
  readonly set_V: number;
  readonly arrangement: FeedArrangement;
  readonly lead: Lead;
}): CircuitDescription {
  return {
    sources: [{ id: 'driver', set_V: of.set_V }],
    taps: [],
    runs: [of.run],
    cables: feedCables({ ...of, source: 'driver' }),
  };
}
