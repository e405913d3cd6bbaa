import { found, type Outcome, refused } from '../outcome.ts';
import { fedRun } from './arrangements.ts';
import { traceResistance_ohm_per_m } from './copper.ts';
import type { Run } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import { findLawIssues } from './rules.ts';
import type { RunSolution } from './solution.ts';
import { solveCircuit } from './solve-circuit.ts';
import { type StripLaw, usualSlope_V } from './strip-law.ts';

/** What a data sheet or a test on the bench says about a single-colour strip. */
export interface StripData {
  readonly nominal_V: number;
  readonly watts_per_m: number;
  readonly units_per_m: number;
  readonly lamps_per_m: number;
  /** Where absent: the most that fit the volts and divide the lamps of a unit. */
  readonly lampsInSeries?: number;
  /** Where absent: 3 V, a white lamp. */
  readonly lampForward_V?: number;
  /** Volts the regulator needs; present for regulated strip only. */
  readonly dropout_V?: number;
  readonly rails: RailData;
}

/** What the rail resistance is to be found from. */
type RailData =
  /** Copper width and weight of one rail. */
  | { readonly from: 'copper'; readonly width_m: number; readonly weight_oz: number }
  /** The maker's longest run from one end, taken to be where the drop reaches `dropRatio`, 0.05 unless given. */
  | { readonly from: 'longest run'; readonly length_m: number; readonly dropRatio?: number }
  /** Volts measured at both ends of a test length fed at its start, warm as it was. */
  | {
      readonly from: 'measured volts';
      readonly length_m: number;
      readonly start_V: number;
      readonly finish_V: number;
      readonly strip_degC: number;
    };

/** Where one quantity of a fitted strip comes from. */
interface Basis {
  readonly quantity: 'unit watts' | 'lamps in series' | 'forward volts' | 'slope' | 'rail resistance';
  readonly from: 'data sheet' | 'worked out' | 'usual value' | 'fitted';
  readonly sentence: string;
}

export interface FittedStrip {
  readonly law: StripLaw;
  readonly unitLength_m: number;
  /** Each of the two rails at 20 degC; they are taken to be alike. */
  readonly rail_ohm_per_m: number;
  readonly basis: readonly Basis[];
}

/** White lamps near nominal current: 2.8 to 3.2 V (makers' data sheets, secondary). */
const usualForward_V = 3;

/** IEC 60364-7-715: 5 % from the driver to the furthest lamp (secondary); taken for a maker's "longest run". */
const usualDropRatio = 0.05;

/**
 * Strip law and rail resistance from what a data sheet gives, and a list of what was taken from what.
 *
 * Law: watts of a unit are watts a metre over units a metre; lamps in series as given, or the greatest number
 * that divides the lamps of a unit and leaves at least 8 % of the nominal volts to the resistor or regulator.
 * Rails: from copper `rho/(w t)`; or the resistance at which the solved run has the stated drop (longest run) or
 * the measured volts at its far end, found by halving on its logarithm from 0.1 mohm/m to 10 ohm/m.
 * Refusals: `does-not-fit`, `too-few-volts-for-lamps`, `number-outside`, `number-missing`.
 * Check: `tests/circuit/fit.test.ts` gets back the rail that a run was solved with.
 */
export function fitStrip(data: StripData): Outcome<FittedStrip, CircuitIssue> {
  const { law, basis } = fitLaw(data);
  const issues = findLawIssues(law, { field: 'strip' });
  if (issues.length > 0) return refused(...issues);
  const unitLength_m = 1 / data.units_per_m;
  const rail = fitRail(data, law, unitLength_m);
  if (!rail.ok) return rail;
  return found({
    law,
    unitLength_m,
    rail_ohm_per_m: rail.value.rail_ohm_per_m,
    basis: [...basis, rail.value.basis],
  });
}

function fitLaw(data: StripData): { readonly law: StripLaw; readonly basis: readonly Basis[] } {
  const unit_W = data.watts_per_m / data.units_per_m;
  const lampForward_V = data.lampForward_V ?? usualForward_V;
  const series = data.lampsInSeries ?? mostInSeries(data, lampForward_V);
  const common = {
    nominal_V: data.nominal_V,
    unit_W,
    lampsInSeries: series,
    lampForward_V,
    slope_V: usualSlope_V,
  };
  const law: StripLaw =
    data.dropout_V === undefined
      ? { kind: 'resistor', ...common }
      : { kind: 'regulated', ...common, dropout_V: data.dropout_V };
  const basis: readonly Basis[] = [
    {
      quantity: 'unit watts',
      from: 'data sheet',
      sentence: `${data.watts_per_m} W/m over ${data.units_per_m} cut units a metre.`,
    },
    data.lampsInSeries === undefined
      ? {
          quantity: 'lamps in series',
          from: 'worked out',
          sentence: `${series} lamps in series: the most that fit ${data.nominal_V} V and divide the lamps of a cut unit.`,
        }
      : { quantity: 'lamps in series', from: 'data sheet', sentence: `${series} lamps in series, as given.` },
    data.lampForward_V === undefined
      ? {
          quantity: 'forward volts',
          from: 'usual value',
          sentence: `${usualForward_V} V a lamp, as white lamps have.`,
        }
      : { quantity: 'forward volts', from: 'data sheet', sentence: `${lampForward_V} V a lamp, as given.` },
    {
      quantity: 'slope',
      from: 'usual value',
      sentence: `${usualSlope_V} V per e-fold of current in each lamp; data sheets do not give it.`,
    },
  ];
  return { law, basis };
}

function mostInSeries(data: StripData, lampForward_V: number): number {
  const lamps = Math.max(1, Math.round(data.lamps_per_m / data.units_per_m));
  const most = Math.floor((data.nominal_V * 0.92 - (data.dropout_V ?? 0)) / lampForward_V);
  for (let series = Math.min(lamps, most); series > 1; series--) if (lamps % series === 0) return series;
  return 1;
}

interface Rail {
  readonly rail_ohm_per_m: number;
  readonly basis: Basis;
}

function fitRail(data: StripData, law: StripLaw, unitLength_m: number): Outcome<Rail, CircuitIssue> {
  const { rails } = data;
  const rail = (rail_ohm_per_m: number, from: Basis['from'], sentence: string): Rail => ({
    rail_ohm_per_m,
    basis: { quantity: 'rail resistance', from, sentence },
  });
  if (rails.from === 'copper') {
    const sentence = `Copper ${(1000 * rails.width_m).toFixed(1)} mm wide of ${rails.weight_oz} oz; solder and necking not counted.`;
    return found(rail(traceResistance_ohm_per_m(rails.width_m, rails.weight_oz), 'worked out', sentence));
  }
  const measured = rails.from === 'measured volts';
  const set_V = measured ? rails.start_V : data.nominal_V;
  const wanted_V = measured
    ? rails.start_V - rails.finish_V
    : (rails.dropRatio ?? usualDropRatio) * data.nominal_V;
  const dropAt = testRun(
    { law, unitLength_m, set_V, length_m: rails.length_m },
    measured ? rails.strip_degC : 25,
  );
  const fitted = rootOfRising(dropAt, wanted_V);
  if (!fitted.ok) return fitted;
  const sentence = measured
    ? `Fitted so that ${rails.length_m} m fed with ${rails.start_V} V shows ${rails.finish_V} V at its far end, copper brought back to 20 °C.`
    : `Fitted so that the drop reaches ${percent(wanted_V / data.nominal_V)} % at the longest run of ${rails.length_m} m fed from one end; what the maker's figure rests on is not known.`;
  return found(rail(fitted.value, 'fitted', sentence));
}

const percent = (ratio: number): number => Number((100 * ratio).toPrecision(3));

/** Drop from the start pad to the finish pad of a test length, as a function of its rail resistance. */
function testRun(
  of: {
    readonly law: StripLaw;
    readonly unitLength_m: number;
    readonly set_V: number;
    readonly length_m: number;
  },
  strip_degC: number,
): (rail_ohm_per_m: number) => Outcome<number, CircuitIssue> {
  const unitCount = Math.round(of.length_m / of.unitLength_m);
  return (rail_ohm_per_m) => {
    const run: Run = {
      id: 'test length',
      unitCount,
      unitLength_m: of.unitLength_m,
      positiveRail_ohm_per_m: rail_ohm_per_m,
      channels: [{ id: 'white', returnRail_ohm_per_m: rail_ohm_per_m, law: of.law, level: 1 }],
      strip_degC,
      joints: [],
    };
    const lead = { length_m: 0, ohm_per_m: 0, contact_ohm: 0 };
    const solved = solveCircuit(fedRun({ run, set_V: of.set_V, arrangement: { kind: 'start' }, lead }));
    return solved.ok ? found(dropAlong(solved.value.runs[0]!)) : solved;
  };
}

function dropAlong(run: RunSolution): number {
  const pads = run.positivePad_V.map((volts, k) => volts - run.channels[0]!.returnPad_V[k]!);
  return pads[0]! - pads.at(-1)!;
}

/** The rail resistance at which the drop is the wanted one; the drop only rises with it. */
function rootOfRising(
  dropAt: (rail_ohm_per_m: number) => Outcome<number, CircuitIssue>,
  wanted_V: number,
): Outcome<number, CircuitIssue> {
  let [low, high] = [Math.log(1e-4), Math.log(10)];
  const ends = [dropAt(Math.exp(low)), dropAt(Math.exp(high))] as const;
  for (const end of ends) if (!end.ok) return end;
  const [least_V, most_V] = ends.map((end) => (end.ok ? end.value : Number.NaN)) as [number, number];
  if (!(wanted_V > least_V && wanted_V < most_V)) return refused(doesNotFit(wanted_V, least_V, most_V));
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    const drop = dropAt(Math.exp(middle));
    if (!drop.ok) return drop;
    if (drop.value < wanted_V) low = middle;
    else high = middle;
  }
  return found(Math.exp((low + high) / 2));
}

function doesNotFit(wanted_V: number, least_V: number, most_V: number): CircuitIssue {
  const possible = wanted_V > most_V ? most_V : least_V;
  return {
    code: 'does-not-fit',
    place: { field: 'strip' },
    quantities: { given: wanted_V, possible },
    sentence: `A drop of ${wanted_V.toFixed(2)} V over this length cannot be had with any copper from 0.1 mΩ/m to 10 Ω/m; ${possible.toFixed(2)} V could. Check the measured volts, the length and the watts a metre.`,
  };
}
