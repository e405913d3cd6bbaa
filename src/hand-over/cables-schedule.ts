import type { Cable, Stretch } from '../answer/cables.ts';
import type { Schedule } from '../answer/schedules.ts';
import type { FeedPoint } from '../answer/set-out.ts';
import { cableEndText } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { feedPointsOf, listed, polarity, servedBy, solvedFeed, solvedRun, zonesOfRuns } from './wiring.ts';

interface CableRow {
  readonly cable: Cable;
  readonly runs: readonly string[];
  readonly output: string;
  readonly polarity: string;
  readonly load_W: number;
  readonly lowest_V: number;
  readonly drop_V: number;
}

/** The stretch that decides what a cable may carry. */
const worstOf = ({ stretches, worstStretch }: Cable): Stretch => stretches[worstStretch]!;

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

function feedLoad_W(feedPoint: FeedPoint, input: HandOverInput): number {
  const feed = solvedFeed(feedPoint, input);
  return feed ? feed.current_A * feed.terminal_V : 0;
}

function cableRow(cable: Cable, input: HandOverInput): CableRow {
  const served = servedBy(cable, input);
  const runs = [...new Set(served.map((feedPoint) => feedPoint.run))];
  const solved = runs.map((run) => solvedRun(run, input));
  const only = served.length === 1 ? served[0]! : undefined;
  return {
    cable,
    runs,
    output: [...new Set(solved.map((run) => run.output))].join(', '),
    polarity: polarity[only?.conductors ?? 'both'],
    load_W: sum(served.map((feedPoint) => feedLoad_W(feedPoint, input))),
    lowest_V: Math.min(...solved.map((run) => run.lowest_V)),
    drop_V: Math.max(...solved.map((run) => run.drop_V)),
  };
}

/**
 * Cable schedule, one row for each cable: identity, cable, route, electrical and protection columns. The drop set
 * against the limit is from the driver to the furthest cut unit served; the load is what the strips draw through
 * the cable (a ring lists the whole load in each of its parts).
 */
export function cablesSchedule(input: HandOverInput): Schedule {
  const { job, products } = input;
  const limit_V = job.site.dropLimit * products.strip.nominal_V;
  const feedPointIds = feedPointsOf(input).map((feedPoint) => feedPoint.id);
  const way = `${job.cables.way} run`;
  return tabulate<CableRow>(
    { id: 'cables', title: 'Cable schedule' },
    [
      words('cable', 'Cable', ({ cable }) => cable.id),
      words('circuit', 'Circuit', (row) => row.output),
      words('zone', 'Zone', (row) => zonesOfRuns(row.runs, input)),
      words('from', 'From', ({ cable }) => cableEndText(cable.from)),
      words('to', 'To feed points', ({ cable }) => listed(cable.serves, feedPointIds)),
      words('polarity', 'Polarity', (row) => row.polarity),
      words('type', 'Type', ({ cable }) => cable.name),
      figures({ key: 'cores', label: 'Cores', unit: '', digits: 0 }, ({ cable }) => cable.conductorCount),
      figures({ key: 'area', label: 'Each', unit: 'mm²', digits: 2 }, ({ cable }) => cable.area_mm2),
      words('way', 'Way', ({ cable }) => (cable.kind === 'link' ? 'in its place' : way)),
      figures({ key: 'route', label: 'Route', unit: 'mm', digits: 0 }, ({ cable }) => cable.way_mm),
      figures({ key: 'cut', label: 'Cut to', unit: 'mm', digits: 0 }, ({ cable }) => cable.length_mm),
      figures(
        { key: 'grouped', label: 'Bunched circuits', unit: '', digits: 0 },
        ({ cable }) => worstOf(cable).togetherCount,
      ),
      figures(
        { key: 'warm', label: 'Air at its warmest', unit: '°C', digits: 0 },
        ({ cable }) => worstOf(cable).air_degC,
      ),
      figures({ key: 'nominal', label: 'Set to', unit: 'V', digits: 1 }, () => input.set_V),
      figures({ key: 'load', label: 'Load', unit: 'W', digits: 1 }, (row) => row.load_W),
      figures({ key: 'current', label: 'Ib', unit: 'A', digits: 2 }, ({ cable }) => cable.current_A),
      figures({ key: 'capacity', label: 'Iz', unit: 'A', digits: 1 }, ({ cable }) => cable.capacity_A),
      figures({ key: 'drop', label: 'Cable drop', unit: 'V', digits: 2 }, ({ cable }) => cable.drop_V),
      figures({ key: 'lowest', label: 'Lowest on strip', unit: 'V', digits: 2 }, (row) => row.lowest_V),
      figures({ key: 'wholeDrop', label: 'Drop to furthest', unit: 'V', digits: 2 }, (row) => row.drop_V),
      figures({ key: 'limit', label: 'Drop limit', unit: 'V', digits: 2 }, () => limit_V),
      words('within', 'Drop', (row) => (row.drop_V <= limit_V * (1 + 1e-9) ? 'within limit' : 'over limit')),
      figures({ key: 'loop', label: 'Loop at 20 °C', unit: 'Ω', digits: 3 }, ({ cable }) => cable.loop_ohm),
      figures({ key: 'fuse', label: 'Fuse', unit: 'A', digits: 1 }, ({ cable }) => cable.fuse_A),
    ],
    input.cables.map((cable) => cableRow(cable, input)),
  );
}
