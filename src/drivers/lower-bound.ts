import { keepsTo, leastBins } from '../numeric/tolerance.ts';

interface LoadInZone {
  readonly watts: number;
  readonly zone: string | null;
}

/** Room of the roomiest driver the job offers. */
export interface DriverRoom {
  readonly usable_W: number;
  readonly output_W: number;
  readonly outputCount: number;
}

const total = (watts: readonly number[]): number => watts.reduce((sum, w) => sum + w, 0);

function boundAt(watts: readonly number[], size_W: number, small_W: number): number {
  const large = watts.filter((w) => !keepsTo(w, size_W - small_W));
  const middle = watts.filter((w) => keepsTo(w, size_W - small_W) && w > size_W / 2);
  const rest = watts.filter((w) => w >= small_W && keepsTo(w, size_W / 2));
  const spare_W = Math.max(0, middle.length * size_W - total(middle));
  return large.length + middle.length + leastBins(Math.max(0, total(rest) - spare_W), size_W);
}

/**
 * Fewest bins of one size that hold all loads: the bound L2, the largest over every threshold K of (loads that
 * leave less than K) + (other loads above half) + (what of the loads from K to half cannot sit beside those).
 *
 * @param watts each from 0 to `size_W`; size_W above 0
 * Source: Martello and Toth, Knapsack Problems, 1990, chapter 8.3, bound L2 (from memory).
 * Check: `tests/drivers/lower-bound.test.ts`, against the least number found by trying everything.
 */
export function leastBinCount(watts: readonly number[], size_W: number): number {
  const thresholds = [0, ...new Set(watts.filter((w) => keepsTo(w, size_W / 2)))];
  return Math.max(watts.length > 0 ? 1 : 0, ...thresholds.map((small_W) => boundAt(watts, size_W, small_W)));
}

/**
 * No allocation uses fewer drivers than this: the larger of the bound over whole drivers and the bound over
 * outputs, zone by zone, divided by the outputs of a driver.
 */
export function leastDriverCount(loads: readonly LoadInZone[], room: DriverRoom): number {
  const zones = [...new Set(loads.map((load) => load.zone))];
  const wattsOf = (zone: string | null) => loads.filter((l) => l.zone === zone).map((l) => l.watts);
  const outputCount = total(zones.map((zone) => leastBinCount(wattsOf(zone), room.output_W)));
  const byDriver = leastBinCount(
    loads.map((load) => load.watts),
    room.usable_W,
  );
  return Math.max(byDriver, Math.ceil(outputCount / room.outputCount));
}
