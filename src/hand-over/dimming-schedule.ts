import type { Driver } from '../answer/drivers.ts';
import type { Dimmer } from '../answer/installation.ts';
import type { LightZone } from '../answer/light.ts';
import type { Schedule } from '../answer/schedules.ts';
import type { DimmerData } from '../job/dimmer.ts';
import type { DriverData } from '../job/driver.ts';
import { modelOf } from '../job/products.ts';
import { levelsOf, watts, figures as writtenLevel } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { onPanel, outputsOf, zonesOfRuns } from './wiring.ts';

interface DimmingRow {
  readonly id: string;
  readonly type: string;
  readonly outputs: string;
  readonly zone: string;
  readonly place: string;
  readonly x_mm: number | null;
  readonly y_mm: number | null;
  readonly current_A: number | null;
  readonly channel_A: number | null;
  readonly loss_W: number | null;
  readonly lowest: number | null;
  readonly frequency_Hz: number | null;
  readonly control: string;
}

type Control = DimmerData['control'] | DriverData['control'];

/**
 * What the electrician lays to each kind of control input: 1-10 V by IEC 60929 annex E, DALI by IEC 62386 (both from
 * memory), the rest trade knowledge.
 */
const wiring: Readonly<Record<Control, string>> = {
  none: 'None.',
  '1-10 V':
    '1-10 V to IEC 60929, annex E: one pair, its polarity counts; inputs side by side on one pair are dimmed together. Insulation as the data sheet asks.',
  DALI: 'DALI to IEC 62386: one pair, either way round, its own power supply, at most 64 addresses. It is not SELV: cores insulated for mains, kept apart from the cables of the strip. Give the address after wiring.',
  'push button':
    'Push button that springs back, one pair: the terminals and volts it is made for are on the data sheet.',
  radio:
    'No control wiring. Not inside closed metal; try the reach before the place is closed, then pair it.',
  'mains phase':
    'A phase dimmer in the mains lead of this driver, leading or trailing edge as its data sheet says, for at least its least load.',
  switch:
    'A switch in the mains lead of this driver, which steps its level: every driver of a zone on one switch.',
};

function dimmerRow(dimmer: Dimmer, input: HandOverInput): DimmingRow {
  const { lowestLevel, frequency_Hz, control } = input.products.dimmer!;
  const { output } = outputsOf(input).find((each) => each.output.id === dimmer.output)!;
  const { id, name, standing, current_A, channel_A, loss_W } = dimmer;
  return {
    ...{ id, current_A, channel_A, loss_W, frequency_Hz },
    type: name,
    outputs: dimmer.output,
    zone: zonesOfRuns(output.runs, input),
    place: standing?.place ?? 'no room: see the sheet of driver places',
    ...onPanel(standing, input),
    lowest: 100 * lowestLevel,
    control: wiring[control],
  };
}

function driverRow(driver: Driver, input: HandOverInput): DimmingRow {
  const { id, name, place, outputs } = driver;
  const runs = outputs.flatMap((output) => output.runs);
  return {
    ...{ id, place, ...onPanel(driver, input) },
    type: name,
    outputs: outputs.map((output) => output.id).join(', '),
    zone: zonesOfRuns(runs, input),
    ...{ current_A: null, channel_A: null, loss_W: null, lowest: null },
    frequency_Hz: input.job.dimming.pwm_Hz,
    control: wiring[modelOf(input.products, driver).control],
  };
}

const notes = [
  'Control wiring is laid out by the electrician: no length of it is counted in the bill.',
  'Currents are those at full; dimmers stand where a hand reaches them after the wall is closed.',
];

/** What the wall takes from the mains while it is dark and not switched off. */
const standbyNotes = ({ standby_W }: HandOverInput['drivers']): string[] =>
  standby_W === null
    ? []
    : [
        `Dimmed to nothing with its mains on, the wall takes about ${watts(standby_W)}, by the figures entered or typical of drivers and dimmers.`,
      ];

const percent = (level: number): string => `${writtenLevel(100 * level)} %`;

/** The levels whoever commissions a zone sets: "Shelf: set to 30 %, and down to 1 % without flicker." */
function levelsNote({ name, levels }: LightZone, { strip }: HandOverInput['products']): string {
  const down = levels.lowest === null ? '' : `, and down to ${percent(levels.lowest)} without flicker`;
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}: set to ${levelsOf(levels.working, strip.channels)} of full${down}.`;
}

/**
 * Dimming schedule: what dims each output, where it stands, what its channels carry, and the control wiring that comes to
 * it. None for a job whose dimming is no part of it. Positions are from the panel's lower left corner.
 */
export function dimmingSchedule(input: HandOverInput): Schedule[] {
  const { job, installation, drivers, light, products } = input;
  if (job.dimming.control === 'none') return [];
  const rows =
    job.dimming.control === 'driver'
      ? drivers.drivers.map((driver) => driverRow(driver, input))
      : installation.dimmers.map((dimmer) => dimmerRow(dimmer, input));
  const schedule = tabulate<DimmingRow>(
    {
      ...{ id: 'dimming', title: 'Dimming schedule' },
      notes: [...notes, ...standbyNotes(drivers), ...light.zones.map((zone) => levelsNote(zone, products))],
    },
    [
      words('ref', 'Ref', (row) => row.id),
      words('type', 'Type', (row) => row.type),
      words('outputs', 'Dims outputs', (row) => row.outputs),
      words('zone', 'Zone', (row) => row.zone),
      words('place', 'Place', (row) => row.place),
      figures({ key: 'x', label: 'From left', unit: 'mm', digits: 0 }, (row) => row.x_mm),
      figures({ key: 'y', label: 'From bottom', unit: 'mm', digits: 0 }, (row) => row.y_mm),
      figures({ key: 'current', label: 'Busiest channel', unit: 'A', digits: 2 }, (row) => row.current_A),
      figures({ key: 'rating', label: 'Channel rating', unit: 'A', digits: 2 }, (row) => row.channel_A),
      figures({ key: 'heat', label: 'Heat', unit: 'W', digits: 1 }, (row) => row.loss_W),
      figures({ key: 'lowest', label: 'Lowest level', unit: '%', digits: 1 }, (row) => row.lowest),
      figures({ key: 'pulses', label: 'Pulses', unit: 'Hz', digits: 0 }, (row) => row.frequency_Hz),
      words('control', 'Control wiring', (row) => row.control),
    ],
    rows,
  );
  return [schedule];
}
