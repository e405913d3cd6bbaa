import { wrightOmega } from '../numeric/wright-omega.ts';

interface LampString {
  readonly nominal_V: number;
  /** Watts of one cut unit (of this channel) at nominal volts and 25 degC. */
  readonly unit_W: number;
  readonly lampsInSeries: number;
  /** Forward volts of one lamp at nominal current and 25 degC. */
  readonly lampForward_V: number;
  /** Volts per e-fold of current in one lamp. */
  readonly slope_V: number;
}

/** Lamps with a series resistor: the ordinary strip. */
export interface ResistorLaw extends LampString {
  readonly kind: 'resistor';
}

/** Lamps with a current regulator that needs `dropout_V` of its own. */
export interface RegulatedLaw extends LampString {
  readonly kind: 'regulated';
  readonly dropout_V: number;
}

/** What one cut unit (of one channel) draws, as a data sheet describes it; all its strings as one element. */
export type StripLaw = ResistorLaw | RegulatedLaw;

/** Exponential slope of one lamp where the data sheet gives none, V. */
export const usualSlope_V = 0.075;

/** Change of one lamp's forward volts with its temperature, V/K (textbooks give -2 to -4 mV/K; secondary). */
const lampRise_V_per_K = -0.002;

const dataSheet_degC = 25;

/** Nominal current of one cut unit, A: `watts / nominal volts`. */
export function nominalCurrent_A(law: StripLaw): number {
  return law.unit_W / law.nominal_V;
}

/** A strip law with its temperature applied and its constants worked out, ready for many evaluations. */
export interface WarmLaw {
  readonly nominal_A: number;
  readonly saturation_A: number;
  readonly resistance_ohm: number;
  /** Lamps in series times the slope of one. */
  readonly slope_V: number;
  /** `ln(R*Is/slope)`, which turns the law into Wright's equation. */
  readonly offset: number;
  /** Volts above which the current stays at nominal; infinite for a resistor strip. */
  readonly regulatedFrom_V: number;
}

/**
 * Works out the constants of a strip law at a lamp temperature.
 *
 * `V = n*s*ln(1 + I/Is) + R*I`, `Is = Inom/(exp(Vf/s) - 1)`, `R = (Vnom - n*Vf25)/Inom` for a resistor strip and
 * `dropout/Inom` for a regulated one, which holds `I = Inom` from `n*Vf + dropout` upwards. With temperature
 * `Vf = Vf25 - 2 mV/K * (T - 25)` while R and s stay, so that a warm resistor strip draws more than nominal.
 *
 * @param lamp_degC lamp temperature, -40 to 150 degC
 * @param lampShift_V forward volts of each lamp above the data sheet's; R and s stay here too
 * Precondition, `RangeError`: R and all constants positive (`findLawIssues` says it in words).
 * Source: Shockley's diode law with a series resistance; the constants from the data sheet.
 * Check: `tests/circuit/strip-law.test.ts` (nominal point, law put back into itself, slope by differences).
 */
export function warmLaw(law: StripLaw, lamp_degC: number, lampShift_V = 0): WarmLaw {
  const nominal_A = nominalCurrent_A(law);
  const spare_V =
    law.kind === 'resistor' ? law.nominal_V - law.lampsInSeries * law.lampForward_V : law.dropout_V;
  const forward_V = law.lampForward_V + lampShift_V + lampRise_V_per_K * (lamp_degC - dataSheet_degC);
  if (!(nominal_A > 0 && spare_V > 0 && forward_V > 0 && law.slope_V > 0 && law.lampsInSeries > 0)) {
    throw new RangeError('a strip law needs positive current, spare volts, forward volts and slope');
  }
  const saturation_A = nominal_A / Math.expm1(forward_V / law.slope_V);
  const resistance_ohm = spare_V / nominal_A;
  const slope_V = law.lampsInSeries * law.slope_V;
  const offset = Math.log((resistance_ohm * saturation_A) / slope_V);
  const regulatedFrom_V =
    law.kind === 'resistor' ? Number.POSITIVE_INFINITY : law.lampsInSeries * forward_V + law.dropout_V;
  return { nominal_A, saturation_A, resistance_ohm, slope_V, offset, regulatedFrom_V };
}

/**
 * Current of one fully lit cut unit at given volts, A; the law solved exactly by Wright's omega function:
 * with `w = R*(I + Is)/(n*s)`, `w + ln w = (V + R*Is)/(n*s) + ln(R*Is/(n*s))`.
 * Any finite volts: far below zero it tends to `-Is`, far above it is a straight line of slope 1/R.
 */
export function current_A(law: WarmLaw, unit_V: number): number {
  if (unit_V >= law.regulatedFrom_V) return law.nominal_A;
  const x = (unit_V + law.resistance_ohm * law.saturation_A) / law.slope_V + law.offset;
  return (wrightOmega(x) * law.slope_V) / law.resistance_ohm - law.saturation_A;
}

/**
 * Slope dI/dV of the law where the unit draws `unit_A` at `unit_V`, S: `1/(n*s/(I + Is) + R)`, and 0 where the
 * regulator holds. Never negative, which is why the network has one operating point only.
 */
export function conductance_S(law: WarmLaw, unit_V: number, unit_A: number): number {
  if (unit_V >= law.regulatedFrom_V) return 0;
  return 1 / (law.slope_V / Math.max(0, unit_A + law.saturation_A) + law.resistance_ohm);
}

/** Light lost for each kelvin of a lamp above its data sheet's, 8 to 15 % at 85 degC: LM-80 style reports, from memory. */
const fluxLoss_per_K = 0.002;

/**
 * Light of a warm lamp over that of one at 25 degC with the same current, `1 - 0.002*(T - 25)`, 1 where it is cooler.
 * @param lamp_degC -40 to 150 degC
 * Source: light over temperature of white lamps in life test reports (from memory): 12 % less at 85 degC, the middle.
 * Check: `tests/circuit/warm-light.test.ts`.
 */
export function thermalLight(lamp_degC: number): number {
  return 1 - fluxLoss_per_K * Math.max(0, lamp_degC - dataSheet_degC);
}

/** What a unit would draw at given volts were it at the temperature of its data sheet, A. */
export function coolLaw(law: StripLaw, lampShift_V = 0): WarmLaw {
  return warmLaw(law, dataSheet_degC, lampShift_V);
}

/** Ratio of current to nominal between which `relativeLight` holds. */
export const lightHolds = { from: 0.25, to: 1.3 } as const;

/**
 * Light of a unit relative to nominal: `(I/Inom)^0.92`, 0 for no or negative current.
 * Holds from 25 to 130 % of nominal current (`lightHolds`); outside it is an extrapolation, and the solution of
 * a circuit counts such units. Lamp temperature is not in it: see `thermalLight`.
 * Source: manufacturers' flux curves, exponent 0.93 to 0.96 near nominal and lower below (memory).
 */
export function relativeLight(currentRatio: number): number {
  return currentRatio > 0 ? Math.exp(0.92 * Math.log(currentRatio)) : 0;
}
