import { found, type Outcome, refused } from '../outcome.ts';
import type { CableData } from './cable.ts';
import { cableCatalogue } from './cable-catalogue.ts';
import type { DriverData } from './driver.ts';
import { driverCatalogue } from './driver-catalogue.ts';
import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';
import { luminousBound } from './luminous-bound.ts';
import type { StripData } from './strip.ts';
import { stripCatalogue } from './strip-catalogue.ts';

interface Named {
  readonly id: string;
}

/** The catalogue entries a job names, with what its data sheets say otherwise laid over them. */
export interface Products {
  readonly strip: StripData & Named;
  readonly driver: DriverData & Named;
  readonly cable: CableData & Named;
}

interface Choice<Data> {
  readonly entry: string;
  readonly data: { readonly [Key in keyof Data]?: Data[Key] | undefined };
}

function overlay<Entry extends Named>(
  catalogue: readonly Entry[],
  choice: Choice<Omit<Entry, 'id'>>,
): Entry | undefined {
  const entry = catalogue.find((candidate) => candidate.id === choice.entry);
  if (!entry) return undefined;
  const given = Object.entries(choice.data).filter(([, value]) => value !== undefined);
  return { ...entry, ...Object.fromEntries(given) };
}

const unknownEntry = (what: string, field: string, id: string): JobIssue => ({
  code: 'unknown-entry',
  place: { field },
  quantities: {},
  sentence: `There is no ${what} called "${id}" in the catalogue: choose one from the list and enter your data sheet over it.`,
});

function voltageIssue(strip: StripData, driver: DriverData): JobIssue | undefined {
  if (strip.nominal_V === driver.output_V) return undefined;
  return {
    code: 'voltage-mismatch',
    place: { field: 'drivers.entry' },
    quantities: { strip_V: strip.nominal_V, driver_V: driver.output_V },
    sentence: `The strip is made for ${strip.nominal_V} V and the driver gives ${driver.output_V} V: choose a ${strip.nominal_V} V driver.`,
  };
}

/** A figure as somebody would have entered it, without the noise of its last bits. */
const tidy = (x: number): string => String(Number(x.toPrecision(4)));

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

function levelsIssue(job: Job, strip: StripData): JobIssue | undefined {
  if (job.dimming.levels.length === strip.channels.length) return undefined;
  return {
    code: 'channel-levels',
    place: { field: 'dimming.levels' },
    quantities: { levelCount: job.dimming.levels.length, channelCount: strip.channels.length },
    sentence: `The strip has ${counted(strip.channels.length, 'channel')} and the job gives ${counted(job.dimming.levels.length, 'level')}: give one level for each channel.`,
  };
}

/** Channels that would give more light than their watts can carry. */
function lightIssues({ channels }: StripData): JobIssue[] {
  return channels.flatMap((channel, i) => {
    const { lumens_per_m, watts_per_m } = channel;
    const { most_lm_per_W, because } = luminousBound(channel);
    const given_lm_per_W = lumens_per_m / watts_per_m;
    if (given_lm_per_W <= most_lm_per_W) return [];
    return [
      {
        code: 'light-without-watts' as const,
        place: { field: `strip.data.channels[${i + 1}].lumens_per_m` },
        quantities: { given_lm_per_W, most_lm_per_W },
        sentence: `Channel "${channel.name}" is to give ${tidy(lumens_per_m)} lm/m from ${tidy(watts_per_m)} W/m, which is ${Math.round(given_lm_per_W)} lm for each watt; ${because}. Check lumens and watts on the data sheet: both for one metre, fully on.`,
      },
    ];
  });
}

/** Volts the drivers are set to: what the job says, or what they give as delivered. */
export function setVoltage_V(job: Job, { driver }: Pick<Products, 'driver'>): number {
  return job.drivers.set_V ?? driver.output_V;
}

/**
 * Looks up strip, driver and cable. Refuses unknown entries, a driver of another voltage, levels that do not match, and
 * more light than the watts of the strip can carry.
 */
export function resolveProducts(job: Job): Outcome<Products, JobIssue> {
  const strip = overlay(stripCatalogue, job.strip);
  const driver = overlay(driverCatalogue, job.drivers);
  const cable = overlay(cableCatalogue, job.cables);
  if (!strip) return refused(unknownEntry('strip', 'strip.entry', job.strip.entry));
  if (!driver) return refused(unknownEntry('driver', 'drivers.entry', job.drivers.entry));
  if (!cable) return refused(unknownEntry('cable', 'cables.entry', job.cables.entry));
  const choices = [voltageIssue(strip, driver), levelsIssue(job, strip)].filter((x) => x !== undefined);
  const issues = [...choices, ...lightIssues(strip)];
  return issues.length > 0 ? refused(...issues) : found({ strip, driver, cable });
}
