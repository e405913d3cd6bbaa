import { keepsTo, wholeTimes } from '../numeric/tolerance.ts';
import { figures } from '../words.ts';

export type BreakerCurve = 'B' | 'C' | 'D';

/**
 * Lower edge of the instantaneous band, times rated current (r.m.s. at 50 Hz): IEC 60898-1, table 7 (secondary).
 * Check: `drivers-breaker-*`.
 */
const instantaneous = { B: 3, C: 5, D: 10 } as const;

/** Share of a breaker's rating that lights burning for hours may use; common practice says 0.8 to 1. */
const longLoad = 0.8;

export interface Breaker {
  readonly curve: BreakerCurve;
  readonly rating_A: number;
}

export interface MainsSide {
  readonly input_W: number;
  readonly input_A: number;
  readonly loss_W: number;
}

/**
 * What a driver takes from the mains, `Pin = P/efficiency`, `I = Pin/(V*PF)`, and the heat it makes, `Pin - P`.
 *
 * @param given watts delivered, 0 or more; efficiency and powerFactor above 0 to 1; mains_V
 * Data-sheet efficiency and power factor hold at full load; at part load both are lower, so the current is a
 * little higher than a straight share. Source: definitions. Check: `tests/drivers/mains.test.ts`.
 */
export function mainsSide(given: {
  readonly watts: number;
  readonly efficiency: number;
  readonly powerFactor: number;
  readonly mains_V: number;
}): MainsSide {
  const input_W = given.watts / given.efficiency;
  return {
    input_W,
    input_A: input_W / (given.mains_V * given.powerFactor),
    loss_W: input_W - given.watts,
  };
}

/**
 * Highest peak a breaker surely rides through, `m*In*sqrt(2)`, with m the lower edge of its instantaneous band
 * (B 3, C 5, D 10) and no allowance for how short the pulse is (k = 1, on the careful side).
 *
 * Source: IEC 60898-1, table 7 (secondary). Check: `drivers-breaker-*`.
 */
export function noTripPeak_A(breaker: Breaker): number {
  return instantaneous[breaker.curve] * breaker.rating_A * Math.SQRT2;
}

/** What counting drivers on a breaker needs from the data sheet; currents of one driver at full load. */
export interface DriverAtSwitchOn {
  readonly input_A: number;
  readonly inrush_A: number;
  readonly inrush_us: number;
  /** Number of these drivers on a B16 breaker. */
  readonly perBreakerB16: number | null;
  /** Whether that number was entered from the maker's sheet; else it is what sheets of that size commonly print. */
  readonly isPrinted: boolean;
}

export interface BreakerCount {
  /** Of one driver at full load. */
  readonly input_A: number;
  /** The number on a B16, which goes first, the maker's or a typical one; null where there is none. */
  readonly printed: number | null;
  /** Whether that number was entered from the maker's sheet. */
  readonly isPrinted: boolean;
  /** Drivers by steady current and by inrush; null where the maker's number stands as printed. */
  readonly bySteady: number | null;
  readonly byInrush: number | null;
  /** 0 where even one driver is too much by the formula. */
  readonly mostDrivers: number;
  readonly formula: string;
}

interface Shares {
  readonly most: number;
  readonly bySteady: number | null;
  readonly byInrush: number | null;
  readonly formula: string;
}

function byFormula(driver: DriverAtSwitchOn, breaker: Breaker): Shares {
  const peak_A = noTripPeak_A(breaker);
  const bySteady = wholeTimes(longLoad * breaker.rating_A, driver.input_A);
  const byInrush = wholeTimes(peak_A, driver.inrush_A);
  const m = instantaneous[breaker.curve];
  return {
    most: Math.min(bySteady, byInrush),
    bySteady,
    byInrush,
    formula: `least of ${longLoad} × ${figures(breaker.rating_A)} A / ${figures(driver.input_A)} A = ${bySteady} and ${m} × ${figures(breaker.rating_A)} A × √2 / ${figures(driver.inrush_A)} A = ${byInrush} (inrush ${figures(driver.inrush_us)} µs wide, counted in full; the driver maker's own number takes precedence)`,
  };
}

/** Whose number it is; a typical one stands in for the maker's and says so. */
const whose = ({ isPrinted }: DriverAtSwitchOn): string =>
  isPrinted
    ? 'as the driver maker prints it'
    : "typical of drivers this size, in place of the maker's own number, which nobody has entered";

/**
 * The B16 number is taken as it stands on a B16. On another breaker the inrush share goes with `m*In`, and
 * the steady share with In from the larger of the printed number (it is known to run) and the formula's.
 */
function byMaker(printed: number, driver: DriverAtSwitchOn, breaker: Breaker): Shares {
  const b16: Breaker = { curve: 'B', rating_A: 16 };
  const inrushRatio = noTripPeak_A(breaker) / noTripPeak_A(b16);
  if (breaker.curve === b16.curve && breaker.rating_A === b16.rating_A)
    return {
      most: printed,
      bySteady: null,
      byInrush: null,
      formula: `${printed} on a B16, ${whose(driver)}`,
    };
  const byInrush = wholeTimes(printed * inrushRatio, 1);
  const steadyB16 = Math.max(printed, (longLoad * b16.rating_A) / driver.input_A);
  const bySteady = wholeTimes((steadyB16 * breaker.rating_A) / b16.rating_A, 1);
  return {
    most: Math.min(byInrush, bySteady),
    bySteady,
    byInrush,
    formula: `${printed} on a B16, ${whose(driver)}; scaled by the breakers' switch-on peaks × ${figures(inrushRatio)} = ${byInrush}, by steady current at most ${bySteady}`,
  };
}

/**
 * How many drivers of one model a circuit breaker may start together,
 * `N = min(floor(0.8*In/I), floor(m*In*sqrt(2)/Ipk))`. The maker's B16 number, or a
 * typical one that says so, takes the formula's place.
 *
 * @param driver one driver at full load; currents above 0
 * @param breaker type and rating (IEC 60898-1)
 * Holds for breakers to IEC 60898-1 with no other load on them. Pulses shorter than half a mains period may be
 * larger (the breaker maker's pulse curve says by how much); this does not use that.
 * Source: IEC 60898-1 bands, breaker makers' lighting guides (secondary). Check: `drivers-breaker-*`.
 */
export function countOnBreaker(driver: DriverAtSwitchOn, breaker: Breaker): BreakerCount {
  if (!(driver.input_A > 0 && driver.inrush_A > 0)) throw new RangeError('driver currents must be above 0');
  const { most, ...shares } =
    driver.perBreakerB16 === null
      ? byFormula(driver, breaker)
      : byMaker(driver.perBreakerB16, driver, breaker);
  return {
    input_A: driver.input_A,
    printed: driver.perBreakerB16,
    isPrinted: driver.isPrinted,
    mostDrivers: most,
    ...shares,
  };
}

/** A breaker by its curve and rating, as it is ordered: B16. */
export const breakerName = ({ curve, rating_A }: Breaker): string => `${curve}${figures(rating_A)}`;

/** A driver as a breaker sees it. */
export interface DriverOnMains {
  readonly id: string;
  /** At the watts it delivers. */
  readonly input_A: number;
  readonly inrush_A: number;
  /** Drivers of its model on one breaker, whole, 0 or more. */
  readonly mostDrivers: number;
}

export interface BreakerLoad {
  readonly id: string;
  readonly drivers: readonly string[];
  readonly input_A: number;
  /** Peaks of all its drivers added, as when all start at the same instant. */
  readonly inrush_A: number;
  /** Of all it may start together: each driver takes one over the number of its model. */
  readonly share: number;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const shareOf = (drivers: readonly DriverOnMains[]): number =>
  sum(drivers.map(({ mostDrivers }) => 1 / mostDrivers));

/** Each to the breaker of the one before it while that holds it: no other way to cut the row takes fewer. */
function filled(drivers: readonly DriverOnMains[]): DriverOnMains[][] {
  const breakers: DriverOnMains[][] = [];
  for (const driver of drivers) {
    const last = breakers.at(-1);
    if (last && keepsTo(shareOf([...last, driver]), 1)) last.push(driver);
    else breakers.push([driver]);
  }
  return breakers;
}

/** A row cut into so many parts, as even in number as may be. */
const evenly = <Item>(items: readonly Item[], count: number): Item[][] =>
  Array.from({ length: count }, (_, i) =>
    items.slice(Math.ceil((i * items.length) / count), Math.ceil(((i + 1) * items.length) / count)),
  );

/**
 * Which drivers hang on which breaker: in their order, on the fewest breakers that hold them, as even in number as may be
 * where that many hold them so; amps and peaks of each added. A driver takes `1/N` of a breaker that starts N of its model,
 * so that models may be mixed (common practice).
 *
 * @returns none where one breaker does not hold one of them
 * Check: `tests/drivers/mains.test.ts` (by hand; every driver once, sums kept).
 */
export function shareOnBreakers(drivers: readonly DriverOnMains[]): BreakerLoad[] {
  if (drivers.some(({ mostDrivers }) => mostDrivers === 0)) return [];
  const fewest = filled(drivers);
  const even = evenly(drivers, fewest.length);
  const breakers = even.every((its) => keepsTo(shareOf(its), 1)) ? even : fewest;
  return breakers.map((its, i) => ({
    id: `M${i + 1}`,
    drivers: its.map(({ id }) => id),
    input_A: sum(its.map(({ input_A }) => input_A)),
    inrush_A: sum(its.map(({ inrush_A }) => inrush_A)),
    share: shareOf(its),
  }));
}
