import type { Cable, Stretch } from '../answer/cables.ts';
import type { Schedule } from '../answer/schedules.ts';
import type { FeedPoint } from '../answer/set-out.ts';
import { wiringOf } from '../job/cable-way.ts';
import type { HandOverInput } from './input.ts';
import { panelColumn } from './panels-schedule.ts';
import { decimalsOf, figures, tabulate, words } from './table.ts';
import {
  endText,
  feedPointsOf,
  listed,
  polarity,
  runOf,
  servedBy,
  solvedFeed,
  solvedRun,
  zonesOfRuns,
} from './wiring.ts';

interface CableRow {
  readonly cable: Cable;
  readonly runs: readonly string[];
  readonly load_W: number;
  readonly lowest_V: number;
  readonly drop_V: number;
  /** In the worst combination of tolerances, of the strip's volts; null where that was not worked out. */
  readonly worstDrop: number | null;
}

/** The stretch that decides what a cable may carry. */
const worstOf = ({ stretches, worstStretch }: Cable): Stretch => stretches[worstStretch]!;

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Part of the watts of a run that comes through some of its feed points: in plus, or in minus where a cable has no plus. */
function watts_W(run: string, served: readonly FeedPoint[], input: HandOverInput): number {
  const of = served.filter((feedPoint) => feedPoint.run === run);
  const other = of.some(({ conductors }) => conductors !== 'return') ? 'return' : 'positive';
  const through_A = (feeds: readonly FeedPoint[]): number =>
    sum(
      feeds
        .filter(({ conductors }) => conductors !== other)
        .map((feedPoint) => solvedFeed(feedPoint, input)?.current_A ?? 0),
    );
  const all_A = through_A(runOf(run, input).feedPoints);
  return all_A > 0 ? (solvedRun(run, input).watts * through_A(of)) / all_A : 0;
}

function cableRow(cable: Cable, input: HandOverInput): CableRow {
  const served = servedBy(cable, input);
  const runs = [...new Set(served.map((feedPoint) => feedPoint.run))];
  const solved = runs.map((run) => solvedRun(run, input));
  return {
    cable,
    runs,
    load_W: sum(runs.map((run) => watts_W(run, served, input))),
    lowest_V: Math.min(...solved.map((run) => run.lowest_V)),
    drop_V: Math.max(...solved.map((run) => run.drop_V)),
    worstDrop: solved.every(({ band }) => band)
      ? Math.max(...solved.map(({ band }) => band!.drop.greatest))
      : null,
  };
}

/** Where a cable ends, and the taps it passes before. */
function toText({ legs, to }: Cable, input: HandOverInput): string {
  const taps = legs.slice(0, -1).flatMap((leg) => (leg.to.kind === 'tap' ? [leg.to.id] : []));
  const end = endText(to, input);
  return taps.length === 0 ? end : `${end}, past ${listed(taps, taps)}`;
}

/** Every core with its mark and its two terminals, and what of the cable as bought is left over. */
function coresText({ cores, spareCoreCount }: Cable): string {
  const each = cores.map(({ mark, from, to }) => `${mark}: ${from} to ${to}`);
  return [...each, ...(spareCoreCount > 0 ? [`spare: ${spareCoreCount}`] : [])].join('; ');
}

/** What a cable lies in, one after the other: "place, riser, foot run, slot". */
function wayText({ stretches }: Cable, runs: readonly string[], { job, setOut }: HandOverInput): string {
  const zone = setOut.runs.find(({ id }) => id === runs[0])?.zone ?? null;
  const { way } = wiringOf(job, zone);
  return [...new Set(stretches.map((stretch) => (stretch.in === 'way' ? `${way} run` : stretch.in)))].join(
    ', ',
  );
}

/** Feet, to the next tenth, so that no cable is cut short. */
const tenthsOfAFoot = (length_mm: number): number => Math.ceil(length_mm / 30.48 - 1e-9) / 10;

/** Drop against its limit, as drawn and in the worst combination of tolerances. */
function withinText({ drop_V, worstDrop }: CableRow, limit_V: number, limit: number): string {
  if (drop_V > limit_V * (1 + 1e-9)) return 'over';
  return (worstDrop ?? 0) > limit * (1 + 1e-9) ? 'over at worst' : 'within';
}

/**
 * Cable schedule, one row for each cable: identity with both ends and every core, cable, route, electrical and protection
 * columns. Bunch and air are those of the stretch that decides Iz. The drop set against the limit is from the driver to
 * the furthest cut unit served; the load is what the runs draw through the cable (a ring has all of it).
 */
export function cablesSchedule(input: HandOverInput): Schedule {
  const { job, products } = input;
  const limit_V = job.site.dropLimit * products.strip.nominal_V;
  const feedPointIds = feedPointsOf(input).map((feedPoint) => feedPoint.id);
  return tabulate<CableRow>(
    { id: 'cables', title: 'Cable schedule' },
    [
      words('cable', 'Cable', ({ cable }) => cable.id),
      words('circuit', 'Circuit', ({ cable }) => cable.output),
      words('zone', 'Zone', (row) => zonesOfRuns(row.runs, input)),
      words('from', 'From', ({ cable }) => endText(cable.from, input)),
      words('to', 'To', ({ cable }) => toText(cable, input)),
      words('feeds', 'Feeds', ({ cable }) => listed(cable.serves, feedPointIds)),
      ...panelColumn<CableRow>(input, ({ cable }) => cable.panels.join(', ')),
      words('polarity', 'Polarity', ({ cable }) => polarity[cable.conductors]),
      words('type', 'Type', ({ cable }) => cable.name),
      figures({ key: 'cores', label: 'Cores', unit: '', digits: 0 }, ({ cable }) => cable.conductorCount),
      words('marks', 'Each core', ({ cable }) => coresText(cable)),
      figures(
        {
          key: 'area',
          label: 'Area of a core',
          unit: 'mm²',
          digits: decimalsOf(input.cables.map(({ area_mm2 }) => area_mm2)),
        },
        ({ cable }) => cable.area_mm2,
      ),
      words('way', 'Way', ({ cable, runs }) => wayText(cable, runs, input)),
      figures({ key: 'route', label: 'Route', unit: 'mm', digits: 0 }, ({ cable }) => cable.way_mm),
      figures({ key: 'cut', label: 'Cut to', unit: 'mm', digits: 0 }, ({ cable }) => cable.length_mm),
      ...(job.site.rules === 'NEC'
        ? [
            figures<CableRow>({ key: 'cutFeet', label: 'Cut to', unit: 'ft', digits: 1 }, ({ cable }) =>
              tenthsOfAFoot(cable.length_mm),
            ),
          ]
        : []),
      figures(
        { key: 'grouped', label: 'Circuits together at worst', unit: '', digits: 0 },
        ({ cable }) => worstOf(cable).togetherCount,
      ),
      figures(
        { key: 'warm', label: 'Air there', unit: '°C', digits: 0 },
        ({ cable }) => worstOf(cable).air_degC,
      ),
      figures({ key: 'nominal', label: 'Set to', unit: 'V', digits: 1 }, () => input.set_V),
      figures({ key: 'load', label: 'Load', unit: 'W', digits: 1 }, (row) => row.load_W),
      figures({ key: 'current', label: 'Current', unit: 'A', digits: 2 }, ({ cable }) => cable.current_A),
      figures({ key: 'design', label: 'Ib', unit: 'A', digits: 2 }, ({ cable }) => cable.design_A),
      figures({ key: 'capacity', label: 'Iz', unit: 'A', digits: 1 }, ({ cable }) => cable.capacity_A),
      figures({ key: 'drop', label: 'Cable drop', unit: 'V', digits: 2 }, ({ cable }) => cable.drop_V),
      figures({ key: 'lowest', label: 'Lowest on strip', unit: 'V', digits: 2 }, (row) => row.lowest_V),
      figures({ key: 'wholeDrop', label: 'Drop to furthest', unit: 'V', digits: 2 }, (row) => row.drop_V),
      figures({ key: 'limit', label: 'Drop limit', unit: 'V', digits: 2 }, () => limit_V),
      words('within', 'Drop limit', (row) => withinText(row, limit_V, job.site.dropLimit)),
      figures({ key: 'loop', label: 'Loop at 20 °C', unit: 'Ω', digits: 3 }, ({ cable }) => cable.loop_ohm),
      words('fuse', 'Fuse', ({ cable }) => cable.fuse ?? ''),
      figures(
        {
          key: 'rating',
          label: 'Fuse',
          unit: 'A',
          digits: decimalsOf(input.cables.map(({ fuse_A }) => fuse_A)),
        },
        ({ cable }) => cable.fuse_A,
      ),
    ],
    input.cables.map((cable) => cableRow(cable, input)),
  );
}
