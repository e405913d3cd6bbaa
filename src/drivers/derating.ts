/** The data-sheet figures that decide how much a driver may give at a given ambient. */
export interface DriverRating {
  readonly rated_W: number;
  readonly fullLoadAmbient_degC: number;
  /** Share of rated watts lost per kelvin above that. */
  readonly derating_per_K: number;
  /** No output at all is promised above this. */
  readonly highestAmbient_degC: number;
}

/**
 * Share of its rated watts a driver may give, `1 - d*(T - T_full)` above the full-load ambient, never below 0,
 * and 0 above the highest ambient.
 *
 * @param rating data sheet; temperatures in degC, derating 0 to 0.2 per kelvin
 * @param ambient_degC air round the driver, not of the room
 * @returns 0 to 1
 * Holds for the straight line most data sheets draw; a sheet with another curve is entered by its worst point.
 * Source: driver data sheets, common practice (100 % to 50 degC, then 2.5 % per kelvin to 70 degC: secondary).
 * Check: `drivers-derating-*`.
 */
export function ambientDerating(rating: DriverRating, ambient_degC: number): number {
  if (!Number.isFinite(ambient_degC)) throw new RangeError(`ambient of ${ambient_degC} degC`);
  if (ambient_degC > rating.highestAmbient_degC) return 0;
  const over_K = Math.max(0, ambient_degC - rating.fullLoadAmbient_degC);
  return Math.max(0, 1 - rating.derating_per_K * over_K);
}

/**
 * Watts a driver may be loaded with, `rated * derating(ambient) * (1 - reserve)`.
 *
 * @param given reserve 0 to below 1 (0.2 is common practice, no standard asks for it); ambient_degC at the driver
 * @returns watts, 0 where the place is too warm
 * Source: design rule of the trade. Check: `drivers-usable-*`.
 */
export function usableWatts(
  rating: DriverRating,
  given: { readonly ambient_degC: number; readonly reserve: number },
): number {
  if (!(given.reserve >= 0 && given.reserve < 1)) throw new RangeError(`reserve of ${given.reserve}`);
  return rating.rated_W * ambientDerating(rating, given.ambient_degC) * (1 - given.reserve);
}

/**
 * Estimated case temperature, `Ta + (tc - T_full) * loss/loss_full`: a driver that gives its rated watts at its
 * full-load ambient reaches tc at most, and the rise goes with the heat it makes.
 *
 * @param given ambient_degC at the driver; load: delivered over rated watts, 0 or more
 * @returns degC; an upper estimate where the maker left room below tc
 * Source: meaning of ta and tc in IEC 61347-1 (secondary); proportional rise is a choice. Check: `tests/drivers`.
 */
export function caseTemperature_degC(
  rating: DriverRating & { readonly caseLimit_degC: number },
  given: { readonly ambient_degC: number; readonly load: number },
): number {
  const fullRise_K = Math.max(0, rating.caseLimit_degC - rating.fullLoadAmbient_degC);
  return given.ambient_degC + fullRise_K * given.load;
}

/** The rule of thumb promises no more than this many times the life a maker states. */
const mostLifeRatio = 2;

/**
 * Life of a driver over what its maker states at tc, by the rule of thumb that 10 K of its case halve it:
 * `2^((tc - case)/10)`, at most 2.
 *
 * @param given caseLimit_degC the mark tc; case_degC in place
 * @returns above 0 to 2
 * Holds as a rule of thumb for electrolytic capacitors only. Source: N. Narendran and others on driver capacitors
 * (secondary). Check: `heat-ten-kelvin-*` in `reference/heat-life.checks.ts`.
 */
export function driverLifeRatio(given: {
  readonly caseLimit_degC: number;
  readonly case_degC: number;
}): number {
  return Math.min(mostLifeRatio, 2 ** ((given.caseLimit_degC - given.case_degC) / 10));
}
