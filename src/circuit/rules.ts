import { found, type Outcome, type Place, refused } from '../outcome.ts';
import {
  type Cable,
  type Channel,
  type CircuitDescription,
  type Conductor,
  conductorsOf,
  type Joint,
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
  return [
    ...repeatedNames(description),
    ...description.sources.flatMap(({ id, set_V }) =>
      outside({ value: set_V, from: 0.1, to: 120 }, { driver: id }, 'the volts set at the driver'),
    ),
    ...description.runs.flatMap(runIssues),
    ...cableIssues(description),
  ];
}

/** What is wrong with a strip law, in words; empty when `warmLaw` can work with it. */
export function findLawIssues(law: StripLaw, place: Place): readonly CircuitIssue[] {
  const issues = [
    ...outside({ value: law.nominal_V, from: 1, to: 120 }, place, 'the nominal volts of the strip'),
    ...outside({ value: law.unit_W, from: 1e-6, to: 1000 }, place, 'the watts of one cut unit'),
    ...outside({ value: law.lampsInSeries, from: 1, to: 60 }, place, 'the number of lamps in series'),
    ...outside({ value: law.lampForward_V, from: 1, to: 10 }, place, 'the forward volts of one lamp'),
    ...outside({ value: law.slope_V, from: 0.02, to: 0.5 }, place, 'the slope of one lamp'),
    ...(law.kind === 'regulated'
      ? outside({ value: law.dropout_V, from: 0.01, to: 20 }, place, 'the volts the regulator needs')
      : []),
  ];
  return issues.length > 0 ? issues : tooFewVolts(law, place);
}

function tooFewVolts(law: StripLaw, place: Place): readonly CircuitIssue[] {
  const lamps_V = law.lampsInSeries * law.lampForward_V;
  const needed_V = law.kind === 'regulated' ? lamps_V + law.dropout_V : lamps_V;
  if (law.kind === 'regulated' ? law.nominal_V >= needed_V : law.nominal_V > needed_V) return [];
  return [
    {
      code: 'too-few-volts-for-lamps',
      place,
      quantities: { nominal_V: law.nominal_V, needed_V },
      sentence: `${law.lampsInSeries} lamps of ${law.lampForward_V} V in series need more than the ${law.nominal_V} V this strip is made for. Enter fewer lamps in series, or the forward volts from the data sheet.`,
    },
  ];
}

function runIssues(run: Run): readonly CircuitIssue[] {
  const place: Place = { run: run.id };
  const noChannel: CircuitIssue = {
    code: 'no-channel',
    place,
    quantities: {},
    sentence: `Run ${run.id} has no lamps. Give it at least one channel.`,
  };
  return [
    ...(Number.isInteger(run.unitCount)
      ? outside({ value: run.unitCount, from: 1, to: 100_000 }, place, `the cut units of run ${run.id}`)
      : [missing(place, `a whole number of cut units for run ${run.id}`)]),
    ...outside({ value: run.unitLength_m, from: 0.001, to: 10 }, place, 'the length of a cut unit in metres'),
    ...outside(
      { value: run.positiveRail_ohm_per_m, from: 1e-6, to: 100 },
      place,
      'ohms a metre of the positive rail',
    ),
    ...outside({ value: run.strip_degC, from: -40, to: 200 }, place, 'the strip temperature in degrees'),
    ...(run.channels.length === 0 ? [noChannel] : []),
    ...run.channels.flatMap((channel) => channelIssues(channel, place)),
    ...run.joints.flatMap((joint) => jointIssues(joint, run)),
  ];
}

function channelIssues(channel: Channel, place: Place): readonly CircuitIssue[] {
  return [
    ...outside(
      { value: channel.returnRail_ohm_per_m, from: 1e-6, to: 100 },
      place,
      `ohms a metre of return rail ${channel.id}`,
    ),
    ...outside({ value: channel.level, from: 0, to: 1 }, place, `the level of channel ${channel.id}`),
    ...outside(
      { value: channel.lampShift_V ?? 0, from: -0.4, to: 0.4 },
      place,
      `the forward volts of a lamp over the data sheet's`,
    ),
    ...findLawIssues(channel.law, place),
  ];
}

function jointIssues(joint: Joint, run: Run): readonly CircuitIssue[] {
  return [
    ...cutLineIssues(joint.cutLine, run, { from: 1, to: run.unitCount - 1 }, { run: run.id }),
    ...outside({ value: joint.contact_ohm, from: 0, to: 100 }, { run: run.id }, 'the resistance of a joint'),
  ];
}

function cutLineIssues(
  cutLine: number,
  run: Run,
  allowed: { readonly from: number; readonly to: number },
  place: Place,
): readonly CircuitIssue[] {
  if (Number.isInteger(cutLine) && cutLine >= allowed.from && cutLine <= allowed.to) return [];
  return [
    {
      code: 'cut-line-outside',
      place,
      quantities: { cutLine, unitCount: run.unitCount },
      sentence: `Run ${run.id} of ${run.unitCount} cut units has no cut line ${cutLine} here. Choose a whole number from ${allowed.from} to ${allowed.to}.`,
    },
  ];
}

function cableIssues(description: CircuitDescription): readonly CircuitIssue[] {
  const sources = new Set(description.sources.map((source) => source.id));
  const taps = new Set(description.taps.map((tap) => tap.id));
  const runs = new Map(description.runs.map((run) => [run.id, run]));
  const terminalIssues = (terminal: Terminal, cable: Cable, channel?: string): readonly CircuitIssue[] => {
    const place: Place = { cable: cable.id };
    if ('source' in terminal)
      return sources.has(terminal.source) ? [] : [unknown(place, 'driver', terminal.source)];
    if ('tap' in terminal) return taps.has(terminal.tap) ? [] : [unknown(place, 'tap', terminal.tap)];
    const run = runs.get(terminal.run);
    if (run === undefined) return [unknown(place, 'run', terminal.run)];
    return [
      ...cutLineIssues(terminal.cutLine, run, { from: 0, to: run.unitCount }, place),
      ...(channel === undefined || run.channels.some(({ id }) => id === channel)
        ? []
        : [channelMissing(cable, run, channel)]),
    ];
  };
  return description.cables.flatMap((cable) => [
    ...conductorsOf(cable).flatMap((conductor) => conductorIssues(conductor, cable)),
    ...[cable.positive.from, cable.positive.to].flatMap((terminal) => terminalIssues(terminal, cable)),
    ...cable.returns.flatMap(({ from, to, channel }) =>
      [from, to].flatMap((terminal) => terminalIssues(terminal, cable, channel)),
    ),
  ]);
}

function conductorIssues(conductor: Conductor, cable: Cable): readonly CircuitIssue[] {
  const place: Place = { cable: cable.id };
  return [
    ...outside(
      { value: conductor.length_m, from: 0, to: 10_000 },
      place,
      `the length of cable ${cable.id} in metres`,
    ),
    ...outside({ value: conductor.ohm_per_m, from: 0, to: 100 }, place, `ohms a metre of cable ${cable.id}`),
    ...outside(
      { value: conductor.contact_ohm, from: 0, to: 100 },
      place,
      `the terminal resistance of cable ${cable.id}`,
    ),
    ...(sameTerminal(conductor.from, conductor.to)
      ? [
          {
            code: 'cable-goes-nowhere',
            place,
            quantities: {},
            sentence: `Cable ${cable.id} begins and ends at the same place. Give it another end, or take it out.`,
          } as const,
        ]
      : []),
  ];
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

function repeatedNames(description: CircuitDescription): readonly CircuitIssue[] {
  const repeats = (ids: readonly string[], kind: string, place: (id: string) => Place): CircuitIssue[] => {
    const seen = new Set<string>();
    return ids.flatMap((id): CircuitIssue[] => {
      if (!seen.has(id)) {
        seen.add(id);
        return [];
      }
      const sentence = `Two ${kind} are called ${id}. Give each its own name.`;
      return [{ code: 'name-repeated', place: place(id), quantities: {}, sentence }];
    });
  };
  const named = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => id);
  return [
    ...repeats(named(description.sources), 'drivers', (driver) => ({ driver })),
    ...repeats(named(description.taps), 'taps', (feedPoint) => ({ feedPoint })),
    ...repeats(named(description.runs), 'runs', (run) => ({ run })),
    ...repeats(named(description.cables), 'cables', (cable) => ({ cable })),
    ...description.runs.flatMap((run) =>
      run.channels.length < 2
        ? []
        : repeats(named(run.channels), 'channels of one run', () => ({ run: run.id })),
    ),
  ];
}

function unknown(place: Place, kind: string, id: string): CircuitIssue {
  const sentence = `Cable ${place.cable} ends at ${kind} ${id}, which is not there. Choose a ${kind} that exists.`;
  return { code: 'nothing-called-so', place, quantities: {}, sentence };
}

function missing(place: Place, what: string): CircuitIssue {
  return { code: 'number-missing', place, quantities: {}, sentence: `Enter ${what}.` };
}

function outside(
  number: { readonly value: number; readonly from: number; readonly to: number },
  place: Place,
  what: string,
): readonly CircuitIssue[] {
  if (!Number.isFinite(number.value)) return [missing(place, what)];
  if (number.value >= number.from && number.value <= number.to) return [];
  const sentence = `${number.value} cannot be ${what}: enter a number from ${number.from} to ${number.to}.`;
  return [{ code: 'number-outside', place, quantities: { ...number }, sentence }];
}
