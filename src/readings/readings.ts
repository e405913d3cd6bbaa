import type { Band } from '../hand-over/bands.ts';
import type { TestRow } from '../hand-over/test-sheet.ts';
import type { MeasuredValues } from './fault-fit.ts';

const quantities = ['loop', 'noLoad', 'loaded', 'current'] as const;
type ReadingQuantity = (typeof quantities)[number];

/** One box of the test sheet: what was predicted, and what the meter showed, if anything was written in. */
export interface Reading extends Band {
  /** Row of the test sheet. */
  readonly row: string;
  readonly quantity: ReadingQuantity;
  /** OL is a loop beyond the range of the meter. */
  readonly measured: Shown | null;
}

/** What a meter shows. */
type Shown = number | 'OL';

export type Judgement = 'not measured' | 'in band' | 'below band' | 'above band' | 'open circuit';

/** What was written into the boxes of one row of the test sheet. */
export type Written = { readonly [Key in ReadingQuantity]?: Shown | null };

/**
 * A loop of more than this is open, ohm: the end of the lowest range of a common hand-held meter, which shows OL beyond it
 * whichever range it stands on (common practice); a hundred times the longest loop of such a wall.
 */
export const openFrom_ohm = 200;

/** Whether the meter showed an open loop, by OL or by ohms no wiring has. */
export const isOpen = ({ quantity, measured }: Pick<Reading, 'quantity' | 'measured'>): boolean =>
  measured === 'OL' || (quantity === 'loop' && measured !== null && measured > openFrom_ohm);

/** The boxes of a test sheet in order, with what was written into them; boxes that do not apply are left out. */
export function readingsOf(rows: readonly TestRow[], written: ReadonlyMap<string, Written>): Reading[] {
  return rows.flatMap((row) =>
    quantities.flatMap((quantity) => {
      const band = row[quantity];
      const measured = written.get(row.id)?.[quantity] ?? null;
      return band ? [{ row: row.id, quantity, ...band, measured }] : [];
    }),
  );
}

/** Whether a measured value lies in its band, the edges included. */
export function judgeReading(reading: Reading): Judgement {
  if (reading.measured === null) return 'not measured';
  if (reading.measured === 'OL') return 'open circuit';
  if (reading.measured < reading.low) return 'below band';
  return reading.measured > reading.high ? 'above band' : 'in band';
}

/**
 * Spread of one reading that it does not share with the others, one standard deviation: last digit and contact of
 * the probes of a hand-held meter (common practice: 0.01 V, 0.01 ohm after zeroing the leads, 0.02 A with a clamp).
 */
const meterSpread: Readonly<Record<ReadingQuantity, number>> = {
  loop: 0.01,
  noLoad: 0.01,
  loaded: 0.01,
  current: 0.02,
};

/** Gain error of a hand-held meter that all readings of one quantity share, one standard deviation (same). */
const meterGain: Readonly<Record<ReadingQuantity, number>> = {
  loop: 0.005,
  noLoad: 0.003,
  loaded: 0.003,
  current: 0.01,
};

/** What an open loop shows is bounded from below by ohms, so it counts as a conductance from 0 to the bound, siemens. */
const openConductance = (measured: Shown): number => (measured === 'OL' ? 0 : 1 / measured);

function comparable(reading: Reading): number | null {
  const { measured } = reading;
  return isOpen(reading) ? openConductance(measured!) : (measured as number | null);
}

/** Shifts that readings of one meter share: each a list along the readings, one standard deviation; no gain opens a loop. */
function meterShifts(readings: readonly Reading[]): number[][] {
  const groups: readonly (readonly ReadingQuantity[])[] = [['loop'], ['noLoad', 'loaded'], ['current']];
  return groups.map((group) =>
    readings.map((r) => (group.includes(r.quantity) && !isOpen(r) ? meterGain[r.quantity] * r.predicted : 0)),
  );
}

/**
 * Readings as the fault finding wants them, with the errors of common hand-held meters: a spread for each reading,
 * and a gain shared by all readings of one meter (one ohmmeter range, one voltmeter range, one clamp). An open loop is
 * given as its conductance, 0 with a spread of `1/openFrom_ohm`.
 *
 * @param shifts what else many readings share, each along the readings, one standard deviation: such as what the
 *   driver's voltage tolerance and the strip's spread of watts do to every reading, from the network solver
 */
export function measuredValues(
  readings: readonly Reading[],
  shifts: readonly (readonly number[])[],
): MeasuredValues {
  return {
    measured: readings.map(comparable),
    spread: readings.map((reading) => (isOpen(reading) ? 1 / openFrom_ohm : meterSpread[reading.quantity])),
    shifts: [...meterShifts(readings), ...shifts],
  };
}
