import { found, type Outcome, refused } from '../outcome.ts';
import { degrees, figures, percent, volts } from '../words.ts';
import { fedRun } from './arrangements.ts';
import { traceResistance_ohm_per_m } from './copper.ts';
import type { CircuitIssue } from './issues.ts';
import type { RunSolution } from './solution.ts';
import { solveCircuit } from './solve-circuit.ts';
import type { StripLaw } from './strip-law.ts';

/** What the rail resistance is to be found from. */
export type RailData =
  /** Copper width and weight of one rail. */
  | { readonly from: 'copper'; readonly width_m: number; readonly weight_oz: number }
  /** The maker's longest run from one end, and the drop it rests on where the sheet says so. */
  | { readonly from: 'longest run'; readonly length_m: number; readonly dropRatio?: number }
  /** Volts measured at both ends of a test length fed at its start, warm as it was. */
  | {
      readonly from: 'measured volts';
      readonly length_m: number;
      readonly start_V: number;
      readonly finish_V: number;
      readonly strip_degC: number;
    };

/** A drop along the strip as it was asked for and as it comes out when the run is solved again. */
interface FittedDrop {
  readonly asked_V: number;
  readonly reached_V: number;
  /** What was asked for, over nominal volts. */
  readonly ratio: number;
}

export interface FittedRail {
  /** Each of the two rails at 20 degC, taken to be alike, to three figures: as it is to be used. */
  readonly rail_ohm_per_m: number;
  /** The proof, with the rounded rail; null for copper, where nothing is fitted. */
  readonly drop: FittedDrop | null;
  /** Width that a rail of 2 oz copper would have. */
  readonly widthOf2oz_m: number;
}

interface FittedRails {
  readonly rail: FittedRail;
  readonly rails: readonly FittedRail[];
  readonly sentence: string;
  readonly remarks: readonly string[];
}

/**
 * Drops a maker's longest run may rest on. The middle one is taken: 5 % after IEC 60364-7-715 (secondary). 3 % is
 * what careful sheets ask for and 10 % what most eyes let pass (common practice).
 */
const usualDropRatios = [0.03, 0.05, 0.1] as const;
const takenDropRatio = 0.05;

/** Temperature data sheets hold at. */
const sheet_degC = 25;

/** Rails looked for, ohm/m: what a job takes. */
const least_ohm_per_m = 0.001;
const most_ohm_per_m = 1;

/** 1.5 mm of 1 oz to 6 mm of 4 oz: outside it a fitted rail is doubted. */
const common_ohm_per_m = { from: 0.02, to: 0.33 } as const;

/**
 * Resistance of one rail of a strip at 20 degC: from copper `rho/(w t)`; else the resistance at which the solved run
 * of whole cut units, fed at its start, has the wanted drop from its first pad to its last. Found by halving on the
 * logarithm from 1 mohm/m to 1 ohm/m, since the drop only rises with it, and rounded to three figures.
 *
 * A longest run says nothing of the drop it rests on. Unless that is given, a rail is fitted to 3, 5 and 10 % and
 * that of 5 % is taken; a remark says so.
 * Refusals: `does-not-fit`; as `solveCircuit`.
 * Check: `tests/circuit/fit.test.ts` (closed form of constant current, `r = drop/(i L^2)`; published feeders).
 */
export function fitRails(
  data: RailData,
  law: StripLaw,
  unitLength_m: number,
): Outcome<FittedRails, CircuitIssue> {
  if (data.from === 'copper') return found(ofCopper(data));
  const test = { law, unitLength_m, unitCount: Math.max(1, Math.round(data.length_m / unitLength_m)) };
  return data.from === 'measured volts' ? ofVolts(data, test) : ofLongestRun(data, test);
}

function ofCopper({ width_m, weight_oz }: Extract<RailData, { from: 'copper' }>): FittedRails {
  const rail = railOf(threeFigures(traceResistance_ohm_per_m(width_m, weight_oz)), null);
  return {
    rail,
    rails: [rail],
    sentence: `Copper ${figures(1000 * width_m)} mm wide of ${figures(weight_oz)} oz, ${figures(35 * weight_oz)} µm thick.`,
    remarks: [
      'Etching takes 5 to 15 % of the width and solder gives a little back; two measured volts tell more.',
      ...doubts(rail, 'Measure the width of one rail alone, and check the weight.'),
    ],
  };
}

/** The length that is solved, in whole cut units. */
interface TestLength {
  readonly law: StripLaw;
  readonly unitLength_m: number;
  readonly unitCount: number;
}

const lengthText = ({ unitCount, unitLength_m }: TestLength): string =>
  `${figures(unitCount * unitLength_m)} m (${unitCount} cut units)`;

function ofVolts(
  data: Extract<RailData, { from: 'measured volts' }>,
  test: TestLength,
): Outcome<FittedRails, CircuitIssue> {
  const { start_V, finish_V, strip_degC } = data;
  const asked_V = start_V - finish_V;
  if (asked_V <= 0) return refused(noDrop(start_V, finish_V));
  const rail = fitDrop(test, { set_V: start_V, strip_degC, asked_V });
  if (!rail.ok) return rail;
  const share = meter_V / asked_V;
  return found({
    rail: rail.value,
    rails: [rail.value],
    sentence: `Fitted so that ${lengthText(test)} fed with ${volts(start_V)} shows ${volts(finish_V)} at its far end; copper brought back from ${degrees(strip_degC)} to 20 °C.`,
    remarks: [
      `A reading that is off by ${volts(meter_V)} moves the resistance by ${percent(share)}${share > tooCoarse ? ': measure a longer length' : ''}. Watts that are off by a tenth move it by about a tenth.`,
      ...doubts(rail.value, 'Check the watts, the length and the volts.'),
    ],
  });
}

/** Two readings by one hand-held meter share what it is off by; some hundredths of each are left (common practice). */
const meter_V = 0.05;
const tooCoarse = 0.15;

function ofLongestRun(
  data: Extract<RailData, { from: 'longest run' }>,
  test: TestLength,
): Outcome<FittedRails, CircuitIssue> {
  const { nominal_V } = test.law;
  const at = (ratio: number) =>
    fitDrop(test, { set_V: nominal_V, strip_degC: sheet_degC, asked_V: ratio * nominal_V });
  const ratio = data.dropRatio ?? takenDropRatio;
  const taken = at(ratio);
  if (!taken.ok) return taken;
  const others = data.dropRatio === undefined ? usualDropRatios.filter((other) => other !== ratio) : [];
  const tried = others.map(at);
  const rails = [taken, ...tried].flatMap((outcome) => (outcome.ok ? [outcome.value] : []));
  const refusals = tried.flatMap((outcome) =>
    outcome.ok ? [] : outcome.issues.map(({ sentence }) => sentence),
  );
  return found({
    rail: taken.value,
    rails: rails.toSorted((a, b) => a.rail_ohm_per_m - b.rail_ohm_per_m),
    sentence: `Fitted so that ${lengthText(test)} fed at one end drops ${volts(ratio * nominal_V)}, ${percentText(ratio)} of ${nominal_V} V.`,
    remarks: [
      ...(data.dropRatio === undefined ? [unknownDrop] : []),
      ...refusals,
      ...doubts(
        taken.value,
        'Check the watts and the length: a run that may be fed at both ends counts half, and some makers mean something else than the drop.',
      ),
    ],
  });
}

const percentText = (ratio: number): string => `${figures(100 * ratio)} %`;

const unknownDrop =
  'The sheet does not say which drop its longest run rests on, and the resistance goes with it: 5 % is taken, and 10 % is the cautious choice. Two measured volts settle it.';

const threeFigures = (rail_ohm_per_m: number): number => Number(rail_ohm_per_m.toPrecision(3));

function railOf(rail_ohm_per_m: number, drop: FittedDrop | null): FittedRail {
  return { rail_ohm_per_m, drop, widthOf2oz_m: traceResistance_ohm_per_m(1, 2) / rail_ohm_per_m };
}

function doubts({ rail_ohm_per_m, widthOf2oz_m }: FittedRail, check: string): readonly string[] {
  if (rail_ohm_per_m >= common_ohm_per_m.from && rail_ohm_per_m <= common_ohm_per_m.to) return [];
  const much = rail_ohm_per_m < common_ohm_per_m.from ? 'more' : 'less';
  return [
    `Each rail would be as good as ${figures(1000 * widthOf2oz_m, 2)} mm of 2 oz copper, ${much} than strip commonly has. ${check}`,
  ];
}

interface Asked {
  readonly set_V: number;
  readonly strip_degC: number;
  readonly asked_V: number;
}

function fitDrop(test: TestLength, asked: Asked): Outcome<FittedRail, CircuitIssue> {
  const { asked_V } = asked;
  const dropAt = (rail_ohm_per_m: number) => dropOf(test, asked, rail_ohm_per_m);
  const exact = rootOfRising(dropAt, asked_V);
  if (!exact.ok) return exact;
  const rail_ohm_per_m = threeFigures(exact.value);
  const reached = dropAt(rail_ohm_per_m);
  if (!reached.ok) return reached;
  const ratio = asked_V / test.law.nominal_V;
  return found(railOf(rail_ohm_per_m, { asked_V, reached_V: reached.value, ratio }));
}

/** Drop from the first pad to the last of a test length whose rails have the given resistance. */
function dropOf(
  { law, unitLength_m, unitCount }: TestLength,
  { set_V, strip_degC }: Asked,
  rail_ohm_per_m: number,
): Outcome<number, CircuitIssue> {
  const run = {
    id: 'test length',
    unitCount,
    unitLength_m,
    positiveRail_ohm_per_m: rail_ohm_per_m,
    channels: [{ id: 'white', returnRail_ohm_per_m: rail_ohm_per_m, law, level: 1 }],
    strip_degC,
    joints: [],
  };
  const lead = { length_m: 0, ohm_per_m: 0, contact_ohm: 0 };
  const solved = solveCircuit(fedRun({ run, set_V, arrangement: { kind: 'start' }, lead }));
  return solved.ok ? found(dropAlong(solved.value.runs[0]!)) : solved;
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
  const [least, most] = [dropAt(least_ohm_per_m), dropAt(most_ohm_per_m)];
  if (!least.ok) return least;
  if (!most.ok) return most;
  if (!(wanted_V >= least.value && wanted_V <= most.value)) {
    return refused(doesNotFit(wanted_V, least.value, most.value));
  }
  let [low, high] = [Math.log(least_ohm_per_m), Math.log(most_ohm_per_m)];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    const drop = dropAt(Math.exp(middle));
    if (!drop.ok) return drop;
    if (drop.value < wanted_V) low = middle;
    else high = middle;
  }
  return found(Math.exp((low + high) / 2));
}

function doesNotFit(given: number, least_V: number, most_V: number): CircuitIssue {
  const possible = given > most_V ? most_V : least_V;
  const limit =
    given > most_V
      ? `even rails of 1 Ω/m drop no more than ${volts(most_V)}`
      : `even rails of 1 mΩ/m drop ${volts(least_V)}`;
  return {
    code: 'does-not-fit',
    place: { field: 'strip' },
    quantities: { given, possible },
    sentence: `No strip drops ${volts(given)} over this length: ${limit}. Check the length, the watts a metre and the volts.`,
  };
}

function noDrop(start_V: number, finish_V: number): CircuitIssue {
  return {
    code: 'does-not-fit',
    place: { field: 'strip' },
    quantities: { given: finish_V, possible: start_V },
    sentence: `${volts(finish_V)} at the far end is no less than ${volts(start_V)} at the fed end, and lit strip always drops some. Check which reading is which, and that the strip was fully on.`,
  };
}
