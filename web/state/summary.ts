import type { FindingStatus } from '../../src/answer/finding-status.ts';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { fixed, quantity } from '../format.ts';
import type { Answer, Where } from './store.ts';

/** Where a figure is to be looked at: a place, a temperature of the section, or a schedule. */
export type Lead =
  | { readonly to: 'place'; readonly place: Where }
  | { readonly to: 'reading'; readonly id: string }
  | { readonly to: 'schedule'; readonly id: Schedule['id'] };

/** One figure that sums the job up. */
export interface SummaryFigure {
  readonly name: string;
  readonly value: string;
  /** What it is held against or where it is; empty where it is neither. */
  readonly more: string;
  /** The verdict of the check it belongs to; undefined where nothing judges it. */
  readonly status?: FindingStatus | undefined;
  readonly lead: Lead;
}

type Temperature = HeatAnswer['temperatures'][number];

const statusOf = ({ findings }: Sizing, id: string): FindingStatus | undefined =>
  findings.find((finding) => finding.id === id)?.status;

/** The place nearest its limit at the warm end of its band. */
function nearestLimit({ temperatures }: HeatAnswer): Temperature | undefined {
  const room_K = ({ limit_degC, high_degC }: Temperature): number =>
    limit_degC === null ? Number.POSITIVE_INFINITY : limit_degC - high_degC;
  return temperatures.toSorted((a, b) => room_K(a) - room_K(b))[0];
}

function hottest(sizing: Sizing): SummaryFigure[] {
  const nearest = nearestLimit(sizing.heat);
  if (!nearest) return [];
  const lead: Lead = { to: 'reading', id: nearest.id };
  const status = statusOf(sizing, `heat-${nearest.id}`);
  if (sizing.heat.unknown !== null) return [{ name: 'Heat', value: 'not known', more: '', status, lead }];
  const limit = nearest.limit_degC === null ? '' : `of ${quantity(nearest.limit_degC, '°C')}`;
  return [{ name: nearest.name, value: fixed(nearest.high_degC, 0), more: limit, status, lead }];
}

function longestCable({ cables }: Sizing): SummaryFigure[] {
  const longest = cables.toSorted((a, b) => b.length_mm - a.length_mm)[0];
  if (!longest) return [];
  const value = quantity(longest.length_mm / 1000, 'm', 1);
  return [
    { name: 'Longest cable', value, more: longest.id, lead: { to: 'place', place: { cable: longest.id } } },
  ];
}

const levelWords = { full: 'at full', working: 'at the working level', mix: 'at the worst mix' } as const;

/**
 * The job summed up: strip, watts, drivers, cable, the place nearest its limit and the depth used, each leading to where
 * it stands. Nothing is worked out here but metres from millimetres and the sum of the depth and its tolerance.
 */
export function summaryOf({ job, sizing }: Answer): SummaryFigure[] {
  const { setOut, circuit, drivers, section } = sizing;
  const used_mm = section.depth_mm + job.section.tolerance_mm;
  return [
    {
      name: 'Strip',
      value: quantity(setOut.strip_m, 'm', 1),
      more: '',
      lead: { to: 'schedule', id: 'cutting-list' },
    },
    {
      name: 'From the drivers',
      value: quantity(circuit.supply_W, 'W', 0),
      more: levelWords[circuit.level],
      lead: { to: 'schedule', id: 'drivers' },
    },
    {
      name: 'Drivers',
      value: fixed(drivers.drivers.length, 0),
      more: '',
      lead: { to: 'place', place: { driver: drivers.drivers[0]?.id ?? '', field: 'drivers.entry' } },
    },
    ...longestCable(sizing),
    ...hottest(sizing),
    {
      name: 'Depth',
      value: fixed(used_mm, Number.isInteger(used_mm) ? 0 : 1),
      more: `of ${quantity(section.available_mm, 'mm')}`,
      status: statusOf(sizing, 'depth'),
      lead: { to: 'place', place: { field: 'section.available_mm' } },
    },
  ];
}
