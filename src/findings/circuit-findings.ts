import type { CircuitRun } from '../answer/circuit.ts';
import type { Remedy } from '../answer/findings.ts';
import { apart, naming, percent, square, volts } from '../words.ts';
import { dropWorking, fallWorking, moduleVoltsWorking } from './circuit-workings.ts';
import { below, type Check, limited, reaching, remedy, type Sized, worst } from './context.ts';
import { fieldOfPlace, placeIndex } from './driver-remedies.ts';
import { workedOut } from './working.ts';

/** LED modules are expected to work from 92 to 106 % of rated volts: IEC 62717 (secondary), a plausibility band. */
const moduleVolts = { least: 0.92, most: 1.06 } as const;

/** At how many points a run is fed. */
const feedCount = (setOut: Sized['setOut'], run: CircuitRun): number =>
  setOut.runs.find(({ id }) => id === run.run)!.feedPoints.length;

/** What shortens the way of the volts, as far as it is not done yet. */
function feedRemedies(sized: Sized, run: CircuitRun, setOut: Sized['setOut']): Remedy[] {
  const { job, products, drivers } = sized;
  const driver = drivers.drivers.find(({ id }) => id === run.driver)!;
  const { layout } = job.cables;
  return [
    ...(feedCount(setOut, run) > 1 ? [] : [remedy('feeds.arrangement', 'Feed it at both ends.')]),
    ...(layout === 'radial' ? [] : [remedy('cables.layout', 'Give it a cable of its own.')]),
    remedy('cables.entry', `Take a thicker cable than ${square(products.cable.area_mm2)}.`),
    remedy('strip.entry', 'Choose a strip with fewer watts per metre.'),
    remedy(fieldOfPlace(placeIndex(sized, driver), 'x_mm'), 'Put the driver nearer.'),
  ];
}

type Banded = 'drop' | 'fall';

/** The most a figure comes to over every combination of tolerances, where that was asked; else the figure itself. */
const atMost = (run: CircuitRun, figure: Banded): number => run.band?.[figure].greatest ?? run[figure];

/** What the tolerances make of it, in words; nothing in a quick answer. */
function bandWords(run: CircuitRun, figure: Banded, limit: number): string {
  if (!run.band) return '';
  const most = atMost(run, figure);
  const [worstOne, allowed] = apart(percent, most, limit);
  return most > limit
    ? ` In the worst combination of tolerances it comes to ${worstOne}, over the limit of ${allowed}.`
    : ` Within the limit in every combination of tolerances: ${worstOne} at most.`;
}

/** The value held against the limit is that of the worst combination of tolerances, where that was asked. */
function drop(sized: Sized): Check {
  const { circuit, job, products, setOut } = sized;
  const limit = job.site.dropLimit;
  const run = worst(circuit.runs, (r) => atMost(r, 'drop'));
  const over = circuit.runs.filter((r) => atMost(r, 'drop') > limit);
  const all =
    over.length > 1
      ? ` ${naming(
          'Slot',
          over.map((r) => r.run),
        )} are over the limit.`
      : '';
  const value = atMost(run, 'drop');
  return limited({
    id: 'voltage-drop',
    question: 'circuit',
    status: below(value, limit, 0.9 * limit),
    place: { slot: run.run, run: run.run, field: 'feeds.arrangement' },
    title: 'Voltage drop to the furthest LED',
    value,
    limit,
    unit: 'ratio',
    basis:
      'IEC 60364-7-715: 5 % from driver to furthest luminaire (secondary), unless the job says otherwise',
    sentence: `From driver to furthest LED, slot ${run.run} loses ${volts(run.drop_V)} of ${products.strip.nominal_V} V, ${percent(run.drop)}.${bandWords(run, 'drop', limit)}${all}`,
    remedies: value > limit ? feedRemedies(sized, run, setOut) : [],
    working: dropWorking(run, sized),
  });
}

function fall(sized: Sized): Check {
  const { circuit, job, limits, setOut } = sized;
  const limit = job.site.fallLimit;
  const run = worst(circuit.runs, (r) => atMost(r, 'fall'));
  const value = atMost(run, 'fall');
  return limited({
    id: 'light-fall',
    question: 'circuit',
    status: below(value, limit, Math.min(limits.fall.unseen, limit)),
    place: { slot: run.run, run: run.run, field: 'feeds.arrangement' },
    title: 'Brightness drop-off along a slot',
    value,
    limit,
    unit: 'ratio',
    basis:
      'the limit in the job; a slow drop-off to 10 % goes unseen, from 20 % it is seen (judgement after published thresholds)',
    sentence: `Slot ${run.run} gives ${percent(run.fall)} less light at its dimmest unit than at its brightest. ${limits.fall.looks(run.fall)}${bandWords(run, 'fall', limit)}`,
    remedies: value > limit ? evenRemedies(job, run, setOut) : [],
    ...workedOut(fallWorking(run, sized)),
  });
}

/** What evens out the light along a run: the copper of the strip, which no cable changes. */
function evenRemedies(job: Sized['job'], run: CircuitRun, setOut: Sized['setOut']): Remedy[] {
  const fed = feedCount(setOut, run);
  const more =
    job.feeds.arrangement === 'between'
      ? remedy('feeds.betweenCount', 'Feed it at more points between its ends.')
      : remedy('feeds.arrangement', fed > 1 ? 'Feed it between its ends.' : 'Feed it at both ends.');
  return [more, remedy('strip.entry', 'Choose a strip with fewer watts per metre or with thicker copper.')];
}

function neighbours({ circuit, limits }: Sized): Check[] {
  const known = circuit.runs.filter((r): r is CircuitRun & { neighbour: number } => r.neighbour !== null);
  if (known.length === 0) return [];
  const run = worst(known, (r) => r.neighbour);
  const status = below(run.neighbour, limits.neighbour.fine, limits.neighbour.unseen);
  return [
    limited({
      id: 'neighbour-difference',
      question: 'circuit',
      status,
      place: { slot: run.run, run: run.run, field: 'feeds.arrangement' },
      title: 'Difference of light between neighbouring slots',
      value: run.neighbour,
      limit: limits.neighbour.fine,
      unit: 'ratio',
      basis: 'Hu and Davis 2016: 7.4 % detected, 17.8 % accepted as matching (secondary)',
      sentence: `Slot ${run.run} and the slot beside it differ by up to ${percent(run.neighbour)} at the same height. ${limits.neighbour.looks(run.neighbour)}`,
      remedies:
        status === 'passes'
          ? []
          : [
              remedy('feeds.arrangement', 'Feed both from the same end, with cables alike in length.'),
              remedy('cables.entry', 'Take a thicker cable.'),
            ],
    }),
  ];
}

function lowVolts(sized: Sized): Check[] {
  const { circuit, products } = sized;
  const run = worst(circuit.runs, (r) => -r.lowest_V);
  const least_V = moduleVolts.least * products.strip.nominal_V;
  if (below(least_V, run.lowest_V) === 'passes') return [];
  return [
    reaching({
      id: 'low-volts',
      question: 'circuit',
      status: 'watch',
      place: { slot: run.run, run: run.run, field: 'feeds.arrangement' },
      title: 'Lowest voltage at an LED',
      value: run.lowest_V,
      limit: least_V,
      unit: 'V',
      basis: 'IEC 62717: modules are expected to work from 92 % of rated volts (secondary)',
      sentence: `At unit ${run.lowestUnit + 1} of slot ${run.run} only ${volts(run.lowest_V)} are left: LEDs there are dim, and other makes may flicker or go out.`,
      remedies: [remedy('feeds.arrangement', 'Bring a feed point nearer.')],
      working: moduleVoltsWorking(
        { ratio: moduleVolts.least, volts_V: run.lowest_V, meaning: 'volts at the unit that has least' },
        'reach',
        sized,
      ),
    }),
  ];
}

function highVolts(sized: Sized): Check[] {
  const { circuit, products } = sized;
  const run = worst(circuit.runs, (r) => r.highest_V);
  const most_V = moduleVolts.most * products.strip.nominal_V;
  if (below(run.highest_V, most_V) === 'passes') return [];
  return [
    limited({
      id: 'high-volts',
      question: 'circuit',
      status: 'fails',
      place: { slot: run.run, run: run.run, field: 'drivers.set_V' },
      title: 'Highest voltage at an LED',
      value: run.highest_V,
      limit: most_V,
      unit: 'V',
      basis: 'IEC 62717: modules are expected to work up to 106 % of rated volts (secondary)',
      sentence: `Slot ${run.run} gets ${volts(run.highest_V)} at its feed point, more than the strip is made for.`,
      remedies: [remedy('drivers.set_V', 'Set the driver lower.')],
      working: moduleVoltsWorking(
        { ratio: moduleVolts.most, volts_V: run.highest_V, meaning: 'volts at the unit that has most' },
        'not exceed',
        sized,
      ),
    }),
  ];
}

/** Checks of the solved network: drop, fall, neighbours, and the band of volts a strip is made for. */
export function circuitFindings(sized: Sized): Check[] {
  return [drop(sized), fall(sized), ...neighbours(sized), ...lowVolts(sized), ...highVolts(sized)];
}
