import type { Schedule, ScheduleCell } from '../answer/schedules.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import { type Band, currentBand, currentGain, loadedBand, loopBand, unloadedBand } from './bands.ts';
import { chained, type Landing, type LoopPath, loop_ohm, loopPath, measuredLegs } from './dead-test.ts';
import type { HandOverInput } from './input.ts';
import { clampFrom_A, type SelvStep, selvStepsUnder } from './selv-steps.ts';
import { box, type Column, figures, tabulate, words } from './table.ts';
import {
  cablesTo,
  driverOfOutput,
  driverOfRun,
  endText,
  type OutputOfDriver,
  outputsOf,
  solvedFeed,
  solvedRun,
} from './wiring.ts';

/** One place to measure at, or one step of the verification; null where a quantity is not measured there. */
export interface TestRow {
  readonly id: string;
  readonly step: string;
  /** Whether plus and minus are linked for the loop, so that the link has to come out and be ticked off. */
  readonly isLinked: boolean;
  readonly loop: Band | null;
  readonly noLoad: Band | null;
  readonly loaded: Band | null;
  readonly current: Band | null;
  /** What the loop passes; null where no loop is measured. */
  readonly path: LoopPath | null;
}

/** Written into the box of a measurement that does not apply. */
export const notMeasured = '–';

/** The link that hands on all of an output, which its amps are taken in. */
function linkOf(output: string, { cables }: HandOverInput): string {
  const link = cables.find((cable) => cable.kind === 'link' && cable.output === output);
  return link ? ` in the plus of ${link.id}` : '';
}

function outputStep({ driver, output }: OutputOfDriver, input: HandOverInput): string {
  const hasFuses = input.installation.blocks.some(
    (block) => block.output === output.id && block.ways.some(({ fuse }) => fuse !== null),
  );
  const [off, on] = hasFuses ? ['Fuses out, strips off', 'Fuses in, all lit'] : ['Strips off', 'All lit'];
  return `Output of ${driver.id}, at its terminals. ${off}: volts. ${on}: volts, ${ampsWith(output.current_A)}${linkOf(output.id, input)}.`;
}

function outputRow(each: OutputOfDriver, input: HandOverInput): TestRow {
  const { output } = each;
  const set_V = input.set_V;
  const { tolerance } = driverOfOutput(output.id, input);
  return {
    id: output.id,
    step: outputStep(each, input),
    isLinked: false,
    loop: null,
    noLoad: unloadedBand({ set_V, tolerance }),
    loaded: loadedBand({ set_V, volts_V: set_V, current_A: 0, tolerance }),
    current: currentAt(output.current_A, tolerance, input),
    path: null,
  };
}

const currentAt = (current_A: number, tolerance: number, { products }: HandOverInput): Band =>
  currentBand({ current_A, tolerance, gain: currentGain(products.strip) });

/** The lead that comes off its block or driver, as far as the way goes on from it to the feed point, and what it comes off. */
function leadOff(feedPoint: FeedPoint, input: HandOverInput): string {
  const cables = [...new Set(measuredLegs(feedPoint, input).map(({ cable }) => cable))];
  const first = cables[0]!;
  const last = cables.at(-1)!;
  const on = first === last ? '' : `, which leads on to ${last.id},`;
  return `${first.id}${on} off ${endText(first.from, input)}`;
}

/** What to take amps with: small ones are lost in the last digits of a clamp meter. */
const ampsWith = (current_A: number): string => (current_A < clampFrom_A ? 'amps in series' : 'amps');

/** Where the amps of a feed point are taken: in its own cable, where that begins. */
function ampsAt(feedPoint: FeedPoint, current_A: number, input: HandOverInput): string {
  const cable = cablesTo(feedPoint, input).at(-1);
  const rail = feedPoint.conductors === 'return' ? 'minus' : 'plus';
  const where = cable ? ` in the ${rail} of ${cable.id} at ${endText(cable.from, input)}` : '';
  return `${ampsWith(current_A)}${where}`;
}

/** The dead part of a row: nothing where no loop is predicted, so that nothing is linked for nothing. */
function deadStep(feedPoint: FeedPoint, input: HandOverInput): string {
  if (!chained(feedPoint, input)) return '';
  const off = leadOff(feedPoint, input);
  return feedPoint.conductors === 'both'
    ? `${off}, link plus and minus at the pads: loop. Link OUT, tick. `
    : `${off}, no link: this one conductor end to end. `;
}

function feedPointStep(feedPoint: FeedPoint, input: HandOverInput): string {
  const current_A = solvedFeed(feedPoint, input)?.current_A ?? 0;
  const amps = ampsAt(feedPoint, current_A, input);
  const live = feedPoint.conductors === 'both' ? `volts at the pads, ${amps}` : amps;
  return `${deadStep(feedPoint, input)}All lit: ${live}.`;
}

function feedPointRow(feedPoint: FeedPoint, run: Run, input: HandOverInput): TestRow {
  const solved = solvedFeed(feedPoint, input);
  const paired = feedPoint.conductors === 'both';
  const { set_V } = input;
  const { tolerance } = driverOfRun(run.id, input);
  const landing = {
    positive: feedPoint.conductors === 'return' ? null : feedPoint,
    return: feedPoint.conductors === 'positive' ? null : feedPoint,
  };
  const path = chained(feedPoint, input) ? loopPath(landing, run, feedPoint.cutLine, input) : null;
  return {
    id: feedPoint.id,
    step: feedPointStep(feedPoint, input),
    isLinked: paired && path !== null,
    loop: path && loopBand(loop_ohm(path)),
    noLoad: paired ? unloadedBand({ set_V, tolerance }) : null,
    loaded:
      paired && solved
        ? loadedBand({ set_V, tolerance, volts_V: solved.terminal_V, current_A: solved.current_A })
        : null,
    current: solved ? currentAt(solved.current_A, tolerance, input) : null,
    path,
  };
}

/** From where both conductors are measured to a run's end. */
type EndLanding = { readonly [Rail in keyof Landing]: FeedPoint };

/** From where to measure to a run's end: crossed feeds use both ends; otherwise the nearest feed point not there. */
function landingFor(run: Run, cutLine: number): EndLanding | undefined {
  const positive = run.feedPoints.find((f) => f.conductors === 'positive');
  const returns = run.feedPoints.find((f) => f.conductors === 'return');
  if (positive && returns) return { positive, return: returns };
  const away = run.feedPoints
    .filter((f) => f.cutLine !== cutLine)
    .toSorted((a, b) => Math.abs(a.cutLine - cutLine) - Math.abs(b.cutLine - cutLine));
  return away[0] && { positive: away[0], return: away[0] };
}

/** Whether a loop is predicted from where both conductors land. */
const isLanded = (landing: EndLanding, input: HandOverInput): boolean =>
  chained(landing.positive, input) && chained(landing.return, input);

function endStep(run: Run, landing: EndLanding, input: HandOverInput): string {
  const live = 'All lit: volts at this end.';
  if (!isLanded(landing, input)) return live;
  const leads = [...new Set([landing.positive, landing.return])].map((f) => leadOff(f, input)).join(' and ');
  const others = run.feedPoints.length > 1 ? ', other leads of this run off as well' : '';
  return `${leads}${others}, link plus and minus at this end: loop. Link OUT, tick. ${live}`;
}

function endRow(run: Run, end: 'start' | 'finish', input: HandOverInput): TestRow[] {
  const cutLine = end === 'start' ? 0 : run.unitCount;
  const landing = landingFor(run, cutLine);
  if (!landing) return [];
  const solved = solvedRun(run.id, input);
  const here = run.feedPoints.find((f) => f.cutLine === cutLine && f.conductors === 'both');
  const unit_V = end === 'start' ? solved.unit_V[0]! : solved.unit_V.at(-1)!;
  const volts_V = (here && solvedFeed(here, input)?.terminal_V) ?? unit_V;
  const current_A = Math.max(0, ...solved.feed_A.map((feed) => feed.current_A));
  const path = isLanded(landing, input) ? loopPath(landing, run, cutLine, input) : null;
  const { tolerance } = driverOfRun(run.id, input);
  return [
    {
      id: `${run.id} ${end}`,
      step: endStep(run, landing, input),
      isLinked: path !== null,
      loop: path && loopBand(loop_ohm(path)),
      noLoad: null,
      loaded: loadedBand({ set_V: input.set_V, tolerance, volts_V, current_A }),
      current: null,
      path,
    },
  ];
}

/**
 * What to measure, in order: the outputs, then for every run its feed points and its ends. A run's end that carries
 * its only feed point is that feed point's row. Volts at an end that is not fed are those of the last cut unit: no
 * current flows beyond it (a crossed feed differs by the drop over half a unit). Run ends have no reading without
 * load, because the strip is the load. Loops are predicted for all layouts but rings.
 */
export function testRows(input: HandOverInput): TestRow[] {
  return [
    ...outputsOf(input).map((each) => outputRow(each, input)),
    ...input.setOut.runs.flatMap((run) => [
      ...run.feedPoints.map((feedPoint) => feedPointRow(feedPoint, run, input)),
      ...endRow(run, 'start', input),
      ...endRow(run, 'finish', input),
    ]),
  ];
}

type Quantity = 'loop' | 'noLoad' | 'loaded' | 'current';

/** Predicted, low, high, and a box: empty to be written in, or struck where nothing is measured. */
function bandColumns(quantity: Quantity, label: string, unit: string, digits: number): Column<TestRow>[] {
  const part =
    (key: keyof Band) =>
    (row: TestRow): ScheduleCell =>
      row[quantity]?.[key] ?? null;
  const measured = (row: TestRow): ScheduleCell => (row[quantity] ? null : notMeasured);
  return [
    figures({ key: quantity, label, unit, digits }, part('predicted')),
    figures({ key: `${quantity}Low`, label: 'low', unit, digits }, part('low')),
    figures({ key: `${quantity}High`, label: 'high', unit, digits }, part('high')),
    figures({ key: `${quantity}Measured`, label: 'measured', unit, digits }, measured),
  ];
}

const stepRow = ({ id, step }: SelvStep): TestRow => ({
  id,
  step,
  isLinked: false,
  loop: null,
  noLoad: null,
  loaded: null,
  current: null,
  path: null,
});

/** A ring that is open somewhere still lights all of it: each conductor is measured from end to end, both ends off. */
function ringText(input: HandOverInput): string {
  const rings = input.cables.filter(({ kind, to }) => kind === 'trunk' && to.kind !== 'tap');
  const each = rings.map(({ id, from, loop_ohm: both_ohm }) => {
    const { low, high } = loopBand(both_ohm / 2);
    return `${id}, both ends off ${endText(from, input)}, ${low.toFixed(2)} to ${high.toFixed(2)} Ω`;
  });
  return each.length === 0 ? '' : ` Rings, plus from end to end, then minus: ${each.join('; ')}.`;
}

/** The steps in order, with the test of rings in that of continuity. */
const stepsOf = (input: HandOverInput): SelvStep[] =>
  selvStepsUnder(input.conditions, input.circuit.level).map((step) =>
    step.id === 'V2' ? { ...step, step: `${step.step}${ringText(input)}` } : step,
  );

/**
 * Test sheet: the verification steps for SELV, then every place to measure with its predicted loop (dead, 20 degC),
 * a box to tick that the link is out, volts without and with load, amps, each with a band and an empty box; and
 * boxes for result, instrument, name,
 * date. Bands come from the driver's tolerance, the copper tables and the contacts: see `bands.ts`.
 */
export function testSheet(input: HandOverInput): Schedule {
  return tabulate<TestRow>(
    { id: 'test-sheet', title: 'Test sheet' },
    [
      words('ref', 'Ref', (row) => row.id),
      words('step', 'What to do', (row) => row.step),
      ...bandColumns('loop', 'Loop, dead, 20 °C', 'Ω', 2),
      words('linkOut', 'Link out', (row) => (row.isLinked ? null : notMeasured)),
      ...bandColumns('noLoad', 'Volts, no load', 'V', 2),
      ...bandColumns('loaded', 'Volts, all lit', 'V', 2),
      ...bandColumns('current', 'Amps, all lit', 'A', 2),
      box('result', 'Result'),
      box('instrument', 'Instrument'),
      box('name', 'Name'),
      box('date', 'Date'),
    ],
    [...stepsOf(input).map(stepRow), ...testRows(input)],
  );
}
