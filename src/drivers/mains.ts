import { wholeTimes } from '../numeric/tolerance.ts';
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

export interface BreakerCount extends Breaker {
  readonly name: string;
  /** Of one driver at full load. */
  readonly input_A: number;
  /** Highest peak the breaker surely rides through. */
  readonly peak_A: number;
  /** The number on a B16, which goes first, the maker's or a typical one; null where there is none. */
  readonly printed: number | null;
  /** Whether that number was entered from the maker's sheet. */
  readonly isPrinted: boolean;
  /** Drivers by steady current and by inrush; null where the maker's number stands as printed. */
  readonly bySteady: number | null;
  readonly byInrush: number | null;
  /** 0 where even one driver is too much by the formula. */
  readonly mostDrivers: number;
  /** 0 where no number is enough, or nothing is to be connected. */
  readonly breakerCount: number;
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
 * How many drivers one circuit breaker may start together, and how many breakers the job needs:
 * `N = min(floor(0.8*In/I), floor(m*In*sqrt(2)/Ipk))`, `breakers = ceil(drivers/N)`. The maker's B16 number, or a
 * typical one that says so, takes the formula's place.
 *
 * @param driver one driver at full load; currents above 0
 * @param breaker type and rating (IEC 60898-1)
 * @param driverCount whole, 0 or more
 * Holds for breakers to IEC 60898-1 with no other load on them. Pulses shorter than half a mains period may be
 * larger (the breaker maker's pulse curve says by how much); this does not use that.
 * Source: IEC 60898-1 bands, breaker makers' lighting guides (secondary). Check: `drivers-breaker-*`.
 */
export function countOnBreaker(
  driver: DriverAtSwitchOn,
  breaker: Breaker,
  driverCount: number,
): BreakerCount {
  if (!(driver.input_A > 0 && driver.inrush_A > 0)) throw new RangeError('driver currents must be above 0');
  const { most, ...shares } =
    driver.perBreakerB16 === null
      ? byFormula(driver, breaker)
      : byMaker(driver.perBreakerB16, driver, breaker);
  return {
    ...breaker,
    name: `${breaker.curve}${figures(breaker.rating_A)}`,
    input_A: driver.input_A,
    peak_A: noTripPeak_A(breaker),
    printed: driver.perBreakerB16,
    isPrinted: driver.isPrinted,
    mostDrivers: most,
    breakerCount: most === 0 ? 0 : Math.ceil(driverCount / most),
    ...shares,
  };
}

/** A driver as a breaker sees it. */
export interface DriverOnMains {
  readonly id: string;
  /** At the watts it delivers. */
  readonly input_A: number;
  readonly inrush_A: number;
}

export interface BreakerLoad {
  readonly id: string;
  readonly drivers: readonly string[];
  readonly input_A: number;
  /** Peaks of all its drivers added, as when all start at the same instant. */
  readonly inrush_A: number;
}

/**
 * Which drivers hang on which breaker: in their order, on the fewest breakers that hold them, `ceil(drivers/most)`, as
 * even in number as may be; amps and peaks of each added.
 *
 * @param mostDrivers of one breaker, whole, 0 or more; none where one breaker holds none
 * Check: `tests/drivers/mains.test.ts` (by hand; every driver once, sums kept).
 */
export function shareOnBreakers(drivers: readonly DriverOnMains[], mostDrivers: number): BreakerLoad[] {
  if (mostDrivers === 0) return [];
  const count = Math.ceil(drivers.length / mostDrivers);
  const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
  return Array.from({ length: count }, (_, i) => {
    const from = Math.ceil((i * drivers.length) / count);
    const its = drivers.slice(from, Math.ceil(((i + 1) * drivers.length) / count));
    return {
      id: `M${i + 1}`,
      drivers: its.map(({ id }) => id),
      input_A: sum(its.map(({ input_A }) => input_A)),
      inrush_A: sum(its.map(({ inrush_A }) => inrush_A)),
    };
  });
}
