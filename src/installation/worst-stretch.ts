import { ambientFactor, groupingFactor } from './capacity-factors.ts';

/** A straight stretch of a cable way as its cables feel it. */
export interface Stretch {
  readonly air_degC: number;
  /** Circuits that lie together there, itself included. */
  readonly togetherCount: number;
}

export interface WorstStretch<S extends Stretch> {
  readonly stretch: S;
  /** Ambient times grouping; 0 where the air is at the limit of the insulation. */
  readonly factor: number;
}

/**
 * The stretch of a way that lets a cable carry least: the smallest product of the factors for the air there and for the
 * circuits bunched there, which belong together; the first of equals. Air and bunch are not mixed between stretches.
 * @param stretches at least one; none, or a temperature that is no number, throws `RangeError`
 * @param limit_degC what the insulation stands for ever
 * Check: `tests/installation/worst-stretch.test.ts`.
 */
export function worstStretch<S extends Stretch>(
  stretches: readonly S[],
  limit_degC: number,
): WorstStretch<S> {
  let worst: WorstStretch<S> | undefined;
  for (const stretch of stretches) {
    const factor = ambientFactor(stretch.air_degC, limit_degC) * groupingFactor(stretch.togetherCount);
    if (Number.isNaN(factor)) throw new RangeError('a stretch whose temperature is not known');
    if (worst === undefined || factor < worst.factor) worst = { stretch, factor };
  }
  if (worst === undefined) throw new RangeError('a way without a stretch');
  return worst;
}
