import { found, type Outcome, refused } from '../outcome.ts';
import { counted, figures } from '../words.ts';
import { type FittedRail, fitRails, type RailData } from './fit-rail.ts';
import type { CircuitIssue } from './issues.ts';
import { findLawIssues } from './rules.ts';
import { type StripLaw, usualSlope_V } from './strip-law.ts';

/** What a data sheet or a test on the bench says about a strip of one colour. */
export interface StripDataSheet {
  readonly nominal_V: number;
  readonly watts_per_m: number;
  /** From one cut line to the next, as printed: rounded to the millimetre or to its hundredth. */
  readonly cutLength_m: number;
  readonly lamps_per_m: number;
  /** Where absent: the most that fit the volts and divide the lamps of a unit. */
  readonly lampsInSeries?: number;
  /** Where absent: 2.9 V, a white lamp. */
  readonly lampForward_V?: number;
  /** Volts the regulator needs; present for regulated strip only. */
  readonly dropout_V?: number;
  readonly rails: RailData;
}

/** Where one quantity of a fitted strip comes from. */
interface Basis {
  readonly quantity:
    | 'cut units'
    | 'unit watts'
    | 'lamps in series'
    | 'forward volts'
    | 'slope'
    | 'rail resistance';
  readonly from: 'data sheet' | 'worked out' | 'usual value' | 'fitted';
  readonly sentence: string;
}

export interface FittedStrip {
  readonly law: StripLaw;
  readonly unitsPerMetre: number;
  /** The rail that was taken. */
  readonly rail: FittedRail;
  /** Every rail the data allow to be worked out, that one among them: of a longest run, one for each usual drop. */
  readonly rails: readonly FittedRail[];
  readonly basis: readonly Basis[];
  readonly remarks: readonly string[];
}

/** White lamps near nominal current have 2.8 to 3.2 V (makers' data sheets, secondary). */
const usualForward_V = 2.9;

/** Part of the nominal volts that at least is left to the resistor or the regulator (common practice). */
const leastSpare = 0.08;

/** A printed cut length is taken for a whole number of units a metre when it misses one by no more than this. */
const printedRounding = 0.005;

/** The same of the lamps of a cut unit. */
const lampsRounding = 0.03;

/**
 * Strip law and rail resistance from what a data sheet gives, and a list of what was taken from what. For strip of
 * one colour: several channels share one rail, and neither a longest run nor two volts tell their rails apart.
 *
 * Law: watts of a unit are watts a metre over units a metre; lamps in series as given, or the greatest number
 * that divides the lamps of a unit and leaves at least 8 % of the nominal volts to the resistor or regulator.
 * Units a metre: one over the cut length, and the whole number where that is no more than 0.5 % away.
 * Rails: as `fitRails`.
 * Refusals: `lamps-do-not-divide`, `too-few-volts-for-lamps`, `number-outside`, `number-missing`; as `fitRails`.
 * Check: `tests/circuit/fit.test.ts` gets back the rail that a run was solved with.
 */
export function fitStrip(data: StripDataSheet): Outcome<FittedStrip, CircuitIssue> {
  const unitsPerMetre = unitsOf(data.cutLength_m);
  const undivided = undividedLamps(data, unitsPerMetre);
  if (undivided) return refused(undivided);
  const law = lawOf(data, unitsPerMetre);
  const issues = findLawIssues(law, { field: 'strip' });
  if (issues.length > 0) return refused(...issues);
  const fitted = fitRails(data.rails, law, 1 / unitsPerMetre);
  if (!fitted.ok) return fitted;
  const { rail, rails, sentence, remarks } = fitted.value;
  const from = data.rails.from === 'copper' ? 'worked out' : 'fitted';
  const basis = [
    ...lawBasis(data, law, unitsPerMetre),
    { quantity: 'rail resistance', from, sentence },
  ] as const;
  return found({ law, unitsPerMetre, rail, rails, basis, remarks });
}

function unitsOf(cutLength_m: number): number {
  const whole = Math.round(1 / cutLength_m);
  return Math.abs(whole * cutLength_m - 1) <= printedRounding ? whole : 1 / cutLength_m;
}

function undividedLamps(data: StripDataSheet, unitsPerMetre: number): CircuitIssue | undefined {
  const lamps = data.lamps_per_m / unitsPerMetre;
  const whole = Math.round(lamps);
  const cut_mm = figures(1000 * data.cutLength_m);
  if (whole < 1 || Math.abs(lamps - whole) > lampsRounding * lamps) {
    return doNotDivide(
      { lamps: data.lamps_per_m, parts: unitsPerMetre },
      `${data.lamps_per_m} LEDs a metre and a cut every ${cut_mm} mm leave ${lamps.toFixed(1)} LEDs to a cut unit, which cannot be. Count the LEDs between two cut lines, and check the LEDs per metre and the cut length.`,
    );
  }
  const series = data.lampsInSeries;
  if (series === undefined || whole % series === 0) return undefined;
  return doNotDivide(
    { lamps: whole, parts: series },
    `The ${counted(whole, 'LED')} of a cut unit cannot stand in rows of ${series}. Enter LEDs in series that divide ${whole}, or leave them to be worked out.`,
  );
}

const doNotDivide = (quantities: { lamps: number; parts: number }, sentence: string): CircuitIssue => ({
  code: 'lamps-do-not-divide',
  place: { field: 'strip' },
  quantities,
  sentence,
});

function lawOf(data: StripDataSheet, unitsPerMetre: number): StripLaw {
  const lampForward_V = data.lampForward_V ?? usualForward_V;
  const common = {
    nominal_V: data.nominal_V,
    unit_W: data.watts_per_m / unitsPerMetre,
    lampsInSeries: data.lampsInSeries ?? mostInSeries(data, unitsPerMetre, lampForward_V),
    lampForward_V,
    slope_V: usualSlope_V,
  };
  return data.dropout_V === undefined
    ? { kind: 'resistor', ...common }
    : { kind: 'regulated', ...common, dropout_V: data.dropout_V };
}

function mostInSeries(data: StripDataSheet, unitsPerMetre: number, lampForward_V: number): number {
  const lamps = Math.round(data.lamps_per_m / unitsPerMetre);
  const spare_V = data.nominal_V * (1 - leastSpare) - (data.dropout_V ?? 0);
  for (let series = Math.min(lamps, Math.floor(spare_V / lampForward_V)); series > 1; series--) {
    if (lamps % series === 0) return series;
  }
  return 1;
}

function lawBasis(data: StripDataSheet, law: StripLaw, unitsPerMetre: number): readonly Basis[] {
  const { lampsInSeries, lampForward_V, slope_V, unit_W } = law;
  const units = figures(unitsPerMetre);
  const isRounded = Math.abs(unitsPerMetre * data.cutLength_m - 1) > 1e-9;
  const isGiven = data.lampsInSeries !== undefined;
  return [
    {
      quantity: 'cut units',
      from: 'data sheet',
      sentence: `A cut every ${figures(1000 * data.cutLength_m)} mm: ${units} cut units a metre${isRounded ? ', the printed length being rounded' : ''}.`,
    },
    {
      quantity: 'unit watts',
      from: 'data sheet',
      sentence: `${figures(data.watts_per_m)} W/m over ${units} cut units: ${figures(unit_W, 3)} W each.`,
    },
    {
      quantity: 'lamps in series',
      from: isGiven ? 'data sheet' : 'worked out',
      sentence: isGiven
        ? `${counted(lampsInSeries, 'LED')} in series, as given.`
        : `${counted(lampsInSeries, 'LED')} in series: the most that ${data.nominal_V} V light and that divide the LEDs of a cut unit.`,
    },
    data.lampForward_V === undefined
      ? {
          quantity: 'forward volts',
          from: 'usual value',
          sentence: `${usualForward_V} V an LED, as white LEDs have.`,
        }
      : {
          quantity: 'forward volts',
          from: 'data sheet',
          sentence: `${figures(lampForward_V)} V an LED, as given.`,
        },
    {
      quantity: 'slope',
      from: 'usual value',
      sentence: `The current of an LED grows 2.7-fold with each ${1000 * slope_V} mV; data sheets do not say.`,
    },
  ];
}
