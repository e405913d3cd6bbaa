import { type Whitening, whitening } from './common-shifts.ts';

/** One thing that may be wrong: an extra resistance or an open circuit at a place, or a run that draws nothing, with or without volts. */
export type Fault =
  | { readonly kind: 'none' }
  | { readonly kind: 'resistance'; readonly place: string; readonly ohm: number }
  | { readonly kind: 'open circuit'; readonly place: string }
  | { readonly kind: 'missing run'; readonly place: string }
  | { readonly kind: 'unfed run'; readonly place: string };

/** The installation as a model of its readings; `predict` answers in the order of the readings. */
export interface ReadingModel {
  readonly predict: (fault: Fault) => readonly number[];
  /** Places where an extra resistance may sit: cables, terminals, joints. */
  readonly resistancePlaces: readonly string[];
  /** Places that may be open; left out where no reading shows an open loop. */
  readonly openPlaces?: readonly string[];
  /** Runs that may be missing altogether. */
  readonly runs: readonly string[];
}

/** Measured values and what is known of their errors; null where nothing was measured. */
export interface MeasuredValues {
  readonly measured: readonly (number | null)[];
  /** Spread of each reading by itself, one standard deviation, above 0. */
  readonly spread: readonly number[];
  /** Shifts all readings share, each a list along the readings, one standard deviation. */
  readonly shifts: readonly (readonly number[])[];
}

/** How well one fault explains the readings. */
export interface Fit {
  readonly fault: Fault;
  /** Weighted sum of squares of the residuals, chi-square. */
  readonly chiSquare: number;
  /** Standard deviation of the ohms, 0 where there are none to fit. */
  readonly ohmSpread: number;
}

interface WhitenedResiduals {
  readonly of: (fault: Fault) => number[];
  /** The shared shifts, one standard deviation each, made independent like the residuals. */
  readonly shifts: readonly (readonly number[])[];
}

const squares = (x: readonly number[]): number => x.reduce((sum, xi) => sum + xi * xi, 0);

function whitenedResiduals(model: ReadingModel, values: MeasuredValues): WhitenedResiduals {
  const used = values.measured.flatMap((y, i) => (y === null ? [] : [{ i, y, spread: values.spread[i]! }]));
  const scaled = (shift: readonly number[]) => used.map(({ i, spread }) => shift[i]! / spread);
  const shifts = values.shifts.map(scaled);
  const white: Whitening = whitening(shifts);
  return {
    shifts: shifts.map((shift) => white(shift)),
    of: (fault) => {
      const predicted = model.predict(fault);
      return white(used.map(({ i, y, spread }) => (y - predicted[i]!) / spread));
    },
  };
}

interface Trial {
  readonly ohm: number;
  readonly residuals: readonly number[];
}

/** Where the fit starts, ohm: the middle of what a poor contact adds. */
const probe_ohm = 0.1;
/** More than this is as good as open, which is what a missing run stands for, ohm. */
const most_ohm = 10;
const mostSteps = 15;

function slope(a: Trial, b: Trial): number[] {
  return b.residuals.map((x, i) => (x - a.residuals[i]!) / (b.ohm - a.ohm));
}

/**
 * The extra resistance at one place that explains the readings best: Gauss-Newton in one unknown with the slope of
 * the last two trials, ohms kept at 0 or more, until the sum of squares moves by less than a thousandth.
 */
function fitResistance(place: string, sound: readonly number[], residuals: WhitenedResiduals): Fit {
  const tryOhm = (ohm: number): Trial => ({
    ohm,
    residuals: residuals.of({ kind: 'resistance', place, ohm }),
  });
  let last: Trial = { ohm: 0, residuals: sound };
  let now = tryOhm(probe_ohm);
  let best = squares(now.residuals) < squares(last.residuals) ? now : last;
  let steepness = squares(slope(last, now));
  for (let step = 0; step < mostSteps; step++) {
    const s = slope(last, now);
    const size = squares(s);
    if (size === 0) break;
    steepness = size;
    const down = s.reduce((sum, si, i) => sum + si * now.residuals[i]!, 0) / size;
    const next_ohm = Math.min(most_ohm, Math.max(0, now.ohm - down));
    const isKnown = next_ohm === 0 && last.ohm === 0;
    if (isKnown || Math.abs(next_ohm - now.ohm) * Math.sqrt(size) < 3e-2) break;
    [last, now] = [now, tryOhm(next_ohm)];
    if (squares(now.residuals) < squares(best.residuals)) best = now;
  }
  return {
    fault: { kind: 'resistance', place, ohm: best.ohm },
    chiSquare: squares(best.residuals),
    ohmSpread: steepness > 0 ? 1 / Math.sqrt(steepness) : 0,
  };
}

/** A run that draws nothing: with volts at its feed points, or without, whichever explains the readings better. */
function fitMissing(place: string, residuals: WhitenedResiduals): Fit {
  const [missing, unfed] = (['missing run', 'unfed run'] as const).map((kind): Fit => {
    const fault: Fault = { kind, place };
    return { fault, chiSquare: squares(residuals.of(fault)), ohmSpread: 0 };
  });
  return unfed!.chiSquare < missing!.chiSquare ? unfed! : missing!;
}

function fitOpen(place: string, residuals: WhitenedResiduals): Fit {
  const fault: Fault = { kind: 'open circuit', place };
  return { fault, chiSquare: squares(residuals.of(fault)), ohmSpread: 0 };
}

/**
 * Fits every single fault to the readings by weighted least squares, shared shifts included: none first, then an
 * extra resistance at each place, then each run missing, then each place open.
 *
 * Source: weighted and generalised least squares; Gauss-Newton (Nocedal and Wright, Numerical Optimization, 2006,
 * chapter 10, from memory). Check: `tests/readings/fault-finding.test.ts` (seeded simulation).
 */
export function fitFaults(model: ReadingModel, values: MeasuredValues): Fit[] {
  const residuals = whitenedResiduals(model, values);
  const sound = residuals.of({ kind: 'none' });
  return [
    { fault: { kind: 'none' }, chiSquare: squares(sound), ohmSpread: 0 },
    ...model.resistancePlaces.map((place) => fitResistance(place, sound, residuals)),
    ...model.runs.map((place) => fitMissing(place, residuals)),
    ...(model.openPlaces ?? []).map((place) => fitOpen(place, residuals)),
  ];
}

/**
 * The likeliest size of every shared shift when a given fault is there, in standard deviations:
 * `g' * C^-1 * (measured - predicted)` with C the covariance of the readings.
 *
 * Source: best linear unbiased prediction of common effects (Robinson, Statistical Science 6, 1991, from memory).
 * Check: `tests/readings/reading-model.test.ts`, volts and watts that the readings were made with.
 */
export function likeliestShifts(model: ReadingModel, values: MeasuredValues, fault: Fault): number[] {
  const residuals = whitenedResiduals(model, values);
  const apart = residuals.of(fault);
  return residuals.shifts.map((shift) => shift.reduce((sum, g, i) => sum + g * apart[i]!, 0));
}
