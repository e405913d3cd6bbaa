import { found, type Outcome, type Place, refused } from '../outcome.ts';
import { counted, figures } from '../words.ts';
import {
  type Cable,
  type Channel,
  type CircuitDescription,
  type Conductor,
  conductorsOf,
  type Run,
  type Terminal,
} from './description.ts';
import type { CircuitIssue } from './issues.ts';
import { findUnfed, followCopper, type Reach } from './reach.ts';
import type { StripLaw } from './strip-law.ts';

/**
 * Looks for everything that keeps a described circuit from having an answer, before anything is solved: numbers
 * that are missing or outside their range, names used twice or not at all, cut lines that a run does not have,
 * cables that go nowhere, runs and cables that no driver reaches.
 * @returns what the copper joins to what, which the network builder needs
 */
export function checkCircuit(description: CircuitDescription): Outcome<Reach, CircuitIssue> {
  const issues = findEntryIssues(description);
  if (issues.length > 0) return refused(...issues);
  const reach = followCopper(description);
  const unfed = findUnfed(description, reach);
  return unfed.length > 0 ? refused(...unfed) : found(reach);
}

/** The part of `checkCircuit` that looks at each entry by itself; what reaches what is a matter of shape alone. */
export function findEntryIssues(description: CircuitDescription): readonly CircuitIssue[] {
  const issues: CircuitIssue[] = [];
  checkNames(description, issues);
  for (const { id, set_V } of description.sources) {
    checkNumber(issues, set_V, [0.1, 120], { driver: id }, () => 'the volts set at the driver');
  }
  for (const run of description.runs) checkRun(run, issues);
  checkCables(description, issues);
  return issues;
}

/** What is wrong with a strip law, in words; empty when `warmLaw` can work with it. */
export function findLawIssues(law: StripLaw, place: Place): readonly CircuitIssue[] {
  const issues: CircuitIssue[] = [];
  checkNumber(issues, law.nominal_V, [1, 120], place, () => 'the nominal volts of the strip');
  checkNumber(issues, law.unit_W, [1e-6, 1000], place, () => 'the watts of one cut unit');
  checkNumber(issues, law.lampsInSeries, [1, 60], place, () => 'the number of LEDs in series');
  checkNumber(issues, law.lampForward_V, [1, 10], place, () => 'the forward volts of one LED');
  checkNumber(issues, law.slope_V, [0.02, 0.5], place, () => 'the slope of one LED');
  if (law.kind === 'regulated') {
    checkNumber(issues, law.dropout_V, [0.01, 20], place, () => 'the volts the regulator needs');
  }
  return issues.length > 0 ? issues : tooFewVolts(law, place);
}

function tooFewVolts(law: StripLaw, place: Place): readonly CircuitIssue[] {
  const lamps_V = law.lampsInSeries * law.lampForward_V;
  const needed_V = law.kind === 'regulated' ? lamps_V + law.dropout_V : lamps_V;
  if (law.kind === 'regulated' ? law.nominal_V >= needed_V : law.nominal_V > needed_V) return [];
  const regulator = law.kind === 'regulated' ? ` and a regulator of ${figures(law.dropout_V)} V` : '';
  return [
    {
      code: 'too-few-volts-for-lamps',
      place,
      quantities: { nominal_V: law.nominal_V, needed_V },
      sentence: `The ${law.nominal_V} V this strip is made for are too little for ${counted(law.lampsInSeries, 'LED')} of ${figures(law.lampForward_V)} V in series${regulator}. Enter fewer LEDs in series, or the forward volts from the data sheet.`,
    },
  ];
}

function checkRun(run: Run, issues: CircuitIssue[]): void {
  const place: Place = { run: run.id };
  if (Number.isInteger(run.unitCount)) {
    checkNumber(issues, run.unitCount, [1, 100_000], place, () => `the cut units of run ${run.id}`);
  } else issues.push(missing(place, `a whole number of cut units for run ${run.id}`));
  checkNumber(issues, run.unitLength_m, [0.001, 10], place, () => 'the length of a cut unit in metres');
  checkNumber(
    issues,
    run.positiveRail_ohm_per_m,
    [1e-6, 100],
    place,
    () => 'ohms a metre of the positive rail',
  );
  checkNumber(issues, run.strip_degC, [-40, 200], place, () => 'the strip temperature in degrees');
  if (run.channels.length === 0) issues.push(noChannel(run));
  for (const channel of run.channels) checkChannel(channel, place, issues);
  for (const { cutLine, contact_ohm } of run.joints) {
    if (!isCutLine(cutLine, 1, run.unitCount - 1)) {
      issues.push(cutLineOutside(cutLine, run, [1, run.unitCount - 1], place));
    }
    checkNumber(issues, contact_ohm, [0, 100], place, () => 'the resistance of a joint');
  }
}

function noChannel({ id }: Run): CircuitIssue {
  const sentence = `Run ${id} has no LEDs. Give it at least one channel.`;
  return { code: 'no-channel', place: { run: id }, quantities: {}, sentence };
}

function checkChannel(channel: Channel, place: Place, issues: CircuitIssue[]): void {
  const { id, returnRail_ohm_per_m, level, lampShift_V = 0 } = channel;
  checkNumber(issues, returnRail_ohm_per_m, [1e-6, 100], place, () => `ohms a metre of return rail ${id}`);
  checkNumber(issues, level, [0, 1], place, () => `the level of channel ${id}`);
  checkNumber(
    issues,
    lampShift_V,
    [-0.4, 0.4],
    place,
    () => "the forward volts of an LED over the data sheet's",
  );
  issues.push(...findLawIssues(channel.law, place));
}

const isCutLine = (cutLine: number, from: number, to: number): boolean =>
  Number.isInteger(cutLine) && cutLine >= from && cutLine <= to;

function cutLineOutside(
  cutLine: number,
  { id, unitCount }: Run,
  [from, to]: readonly [number, number],
  place: Place,
): CircuitIssue {
  return {
    code: 'cut-line-outside',
    place,
    quantities: { cutLine, unitCount },
    sentence: `Run ${id} of ${unitCount} cut units has no cut line ${cutLine} here. Choose a whole number from ${from} to ${to}.`,
  };
}

function checkCables(description: CircuitDescription, issues: CircuitIssue[]): void {
  const places: Places = {
    sources: new Set(description.sources.map(({ id }) => id)),
    taps: new Set(description.taps.map(({ id }) => id)),
    runs: new Map(description.runs.map((run) => [run.id, run])),
  };
  for (const cable of description.cables) {
    for (const conductor of conductorsOf(cable)) checkConductor(conductor, cable, issues);
    checkTerminals(cable.positive, undefined, cable, places, issues);
    for (const one of cable.returns) checkTerminals(one, one.channel, cable, places, issues);
  }
}

/** Everything a cable can end at. */
interface Places {
  readonly sources: ReadonlySet<string>;
  readonly taps: ReadonlySet<string>;
  readonly runs: ReadonlyMap<string, Run>;
}

function checkTerminals(
  { from, to }: Conductor,
  channel: string | undefined,
  cable: Cable,
  places: Places,
  issues: CircuitIssue[],
): void {
  for (const terminal of [from, to]) {
    const issue = terminalIssue(terminal, channel, cable, places);
    if (issue !== undefined) issues.push(issue);
  }
}

function terminalIssue(
  terminal: Terminal,
  channel: string | undefined,
  cable: Cable,
  { sources, taps, runs }: Places,
): CircuitIssue | undefined {
  const place: Place = { cable: cable.id };
  if ('source' in terminal)
    return sources.has(terminal.source) ? undefined : unknown(place, 'driver', terminal.source);
  if ('tap' in terminal) return taps.has(terminal.tap) ? undefined : unknown(place, 'tap', terminal.tap);
  const run = runs.get(terminal.run);
  if (run === undefined) return unknown(place, 'run', terminal.run);
  if (!isCutLine(terminal.cutLine, 0, run.unitCount)) {
    return cutLineOutside(terminal.cutLine, run, [0, run.unitCount], place);
  }
  const hasChannel = channel === undefined || run.channels.some(({ id }) => id === channel);
  return hasChannel ? undefined : channelMissing(cable, run, channel);
}

function checkConductor(conductor: Conductor, { id }: Cable, issues: CircuitIssue[]): void {
  const place: Place = { cable: id };
  const { length_m, ohm_per_m, contact_ohm, series_ohm = 0 } = conductor;
  checkNumber(issues, length_m, [0, 10_000], place, () => `the length of cable ${id} in metres`);
  checkNumber(issues, ohm_per_m, [0, 100], place, () => `ohms a metre of cable ${id}`);
  checkNumber(issues, contact_ohm, [0, 100], place, () => `the terminal resistance of cable ${id}`);
  checkNumber(issues, series_ohm, [0, 100], place, () => `the ohms in series with cable ${id}`);
  if (!sameTerminal(conductor.from, conductor.to)) return;
  const sentence = `Cable ${id} begins and ends at the same place. Give it another end, or take it out.`;
  issues.push({ code: 'cable-goes-nowhere', place, quantities: {}, sentence });
}

function sameTerminal(a: Terminal, b: Terminal): boolean {
  if ('source' in a) return 'source' in b && a.source === b.source;
  if ('tap' in a) return 'tap' in b && a.tap === b.tap;
  return 'run' in b && a.run === b.run && a.cutLine === b.cutLine;
}

function channelMissing(cable: Cable, run: Run, channel: string): CircuitIssue {
  return {
    code: 'channel-missing',
    place: { cable: cable.id, run: run.id },
    quantities: {},
    sentence: `Cable ${cable.id} brings channel ${channel} to run ${run.id}, which has no such channel. Use the channel names of the strip.`,
  };
}

function checkNames(description: CircuitDescription, issues: CircuitIssue[]): void {
  const check = (
    named: readonly { readonly id: string }[],
    kind: string,
    place: (id: string) => Place,
  ): void => {
    const seen = new Set<string>();
    for (const { id } of named) {
      if (seen.has(id)) {
        const sentence = `Two ${kind} are called ${id}. Give each its own name.`;
        issues.push({ code: 'name-repeated', place: place(id), quantities: {}, sentence });
      }
      seen.add(id);
    }
  };
  check(description.sources, 'drivers', (driver) => ({ driver }));
  check(description.taps, 'taps', (feedPoint) => ({ feedPoint }));
  check(description.runs, 'runs', (run) => ({ run }));
  check(description.cables, 'cables', (cable) => ({ cable }));
  for (const { id: run, channels } of description.runs) {
    if (channels.length > 1) check(channels, 'channels of one run', () => ({ run }));
  }
}

function unknown(place: Place, kind: string, id: string): CircuitIssue {
  const sentence = `Cable ${place.cable} ends at ${kind} ${id}, which is not there. Choose a ${kind} that exists.`;
  return { code: 'nothing-called-so', place, quantities: {}, sentence };
}

function missing(place: Place, what: string): CircuitIssue {
  return { code: 'number-missing', place, quantities: {}, sentence: `Enter ${what}.` };
}

function checkNumber(
  issues: CircuitIssue[],
  value: number,
  [from, to]: readonly [number, number],
  place: Place,
  what: () => string,
): void {
  if (value >= from && value <= to) return;
  if (!Number.isFinite(value)) {
    issues.push(missing(place, what()));
    return;
  }
  const sentence = `${figures(value)} cannot be ${what()}: enter a number from ${from} to ${to}.`;
  issues.push({ code: 'number-outside', place, quantities: { value, from, to }, sentence });
}
