import type { CircuitRun, Finding } from '../answer/sizing.ts';
import { naming, percent, volts } from '../words.ts';
import { below, limited, reaching, type Sized, worst } from './context.ts';

/** LED modules are expected to work from 92 to 106 % of rated volts: IEC 62717 (secondary), a plausibility band. */
const moduleVolts = { least: 0.92, most: 1.06 } as const;

const feedRemedy = (layout: string): string =>
  layout === 'radial'
    ? 'Feed it at both ends, take a thicker cable, shorten the cable way, or choose a strip with less watts per metre'
    : 'Give it a cable of its own, feed it at both ends, or take a thicker cable';

type Banded = 'drop' | 'fall';

/** The most a figure comes to over every combination of tolerances, where that was asked; else the figure itself. */
const atMost = (run: CircuitRun, figure: Banded): number => run.band?.[figure].greatest ?? run[figure];

/** Fails as described, or watch where it only fails in some combination of tolerances. */
function bandedStatus(run: CircuitRun, figure: Banded, limit: number, watchFrom: number): Finding['status'] {
  const nominal = below(run[figure], limit, watchFrom);
  return nominal === 'passes' && atMost(run, figure) > limit ? 'watch' : nominal;
}

/** What the tolerances make of it, in words; nothing in a quick answer. */
function bandWords(run: CircuitRun, figure: Banded, limit: number): string {
  if (!run.band) return '';
  const most = atMost(run, figure);
  return most > limit
    ? ` In the worst combination of tolerances it comes to ${percent(most)}.`
    : ` Within the limit in every combination of tolerances: ${percent(most)} at most.`;
}

function drop({ circuit, job, products }: Sized): Finding {
  const limit = job.site.dropLimit;
  const run = worst(circuit.runs, (r) => atMost(r, 'drop'));
  const over = circuit.runs.filter((r) => r.drop > limit);
  const all =
    over.length > 1
      ? ` ${naming(
          'Slot',
          over.map((r) => r.run),
        )} are over the limit.`
      : '';
  return limited({
    id: 'voltage-drop',
    question: 'circuit',
    status: bandedStatus(run, 'drop', limit, 0.9 * limit),
    place: { slot: run.run, run: run.run },
    title: 'Voltage drop to the furthest lamp',
    value: run.drop,
    limit,
    unit: 'ratio',
    basis:
      'IEC 60364-7-715: 5 % from driver to furthest luminaire (secondary), unless the job says otherwise',
    sentence: `From driver to furthest lamp slot ${run.run} loses ${volts(run.drop_V)} of ${products.strip.nominal_V} V, ${percent(run.drop)}.${bandWords(run, 'drop', limit)}${all}${run.drop > limit ? ` ${feedRemedy(job.cables.layout)}.` : ''}`,
  });
}

function fall({ circuit, job, limits }: Sized): Finding {
  const limit = job.site.fallLimit;
  const run = worst(circuit.runs, (r) => atMost(r, 'fall'));
  return limited({
    id: 'light-fall',
    question: 'circuit',
    status: bandedStatus(run, 'fall', limit, Math.min(limits.fall.unseen, limit)),
    place: { slot: run.run, run: run.run },
    title: 'Fall of light along a slot',
    value: run.fall,
    limit,
    unit: 'ratio',
    basis:
      'the limit in the job; a slow fall to 10 % goes unseen, from 20 % it is seen (judgement after published thresholds)',
    sentence: `Slot ${run.run} gives ${percent(run.fall)} less light at its dimmest unit than at its brightest. ${limits.fall.looks(run.fall)}${bandWords(run, 'fall', limit)}${run.fall > limit ? ' Feed it at both ends, or from the middle.' : ''}`,
  });
}

function neighbours({ circuit, limits }: Sized): Finding[] {
  const known = circuit.runs.filter((r): r is CircuitRun & { neighbour: number } => r.neighbour !== null);
  if (known.length === 0) return [];
  const run = worst(known, (r) => r.neighbour);
  const status = below(run.neighbour, limits.neighbour.fine, limits.neighbour.unseen);
  return [
    limited({
      id: 'neighbour-difference',
      question: 'circuit',
      status,
      place: { slot: run.run, run: run.run },
      title: 'Difference of light between neighbouring slots',
      value: run.neighbour,
      limit: limits.neighbour.fine,
      unit: 'ratio',
      basis: 'Hu and Davis 2016: 7.4 % detected, 17.8 % accepted as matching (secondary)',
      sentence: `Slot ${run.run} and the slot beside it differ by up to ${percent(run.neighbour)} at the same height. ${limits.neighbour.looks(run.neighbour)}${status === 'passes' ? '' : ' Make their cables alike in length, feed both from the same end, or take a thicker cable.'}`,
    }),
  ];
}

function lowVolts({ circuit, products }: Sized): Finding[] {
  const run = worst(circuit.runs, (r) => -r.lowest_V);
  const least_V = moduleVolts.least * products.strip.nominal_V;
  if (run.lowest_V >= least_V) return [];
  return [
    reaching({
      id: 'low-volts',
      question: 'circuit',
      status: 'watch',
      place: { slot: run.run, run: run.run },
      title: 'Lowest voltage at a lamp',
      value: run.lowest_V,
      limit: least_V,
      unit: 'V',
      basis: 'IEC 62717: modules are expected to work from 92 % of rated volts (secondary)',
      sentence: `At unit ${run.lowestUnit + 1} of slot ${run.run} only ${volts(run.lowest_V)} are left: lamps there are dim, and other makes may flicker or go out. Bring a feed point nearer.`,
    }),
  ];
}

function highVolts({ circuit, products }: Sized): Finding[] {
  const run = worst(circuit.runs, (r) => r.highest_V);
  const most_V = moduleVolts.most * products.strip.nominal_V;
  if (run.highest_V <= most_V) return [];
  return [
    limited({
      id: 'high-volts',
      question: 'circuit',
      status: 'fails',
      place: { slot: run.run, run: run.run, field: 'drivers.set_V' },
      title: 'Highest voltage at a lamp',
      value: run.highest_V,
      limit: most_V,
      unit: 'V',
      basis: 'IEC 62717: modules are expected to work up to 106 % of rated volts (secondary)',
      sentence: `Slot ${run.run} gets ${volts(run.highest_V)} at its feed point, more than the strip is made for: set the driver lower.`,
    }),
  ];
}

/** Checks of the solved network: drop, fall, neighbours, and the band of volts a strip is made for. */
export function circuitFindings(sized: Sized): Finding[] {
  return [drop(sized), fall(sized), ...neighbours(sized), ...lowVolts(sized), ...highVolts(sized)];
}
