import { counted, figures } from '../words.ts';
import type { DriverData } from './driver.ts';
import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';
import type { Products } from './products.ts';

interface Levels {
  readonly field: string;
  /** Whose they are, as a sentence begins with it. */
  readonly of: string;
  readonly levels: readonly number[];
}

/** The working levels of the wall and of every zone that has its own. */
function levelsOf({ dimming: { levels, zones } }: Job): Levels[] {
  const own = zones.flatMap((zone, i): Levels[] =>
    zone.levels === null
      ? []
      : [{ field: `dimming.zones[${i + 1}].levels`, of: `zone "${zone.name}"`, levels: zone.levels }],
  );
  return [{ field: 'dimming.levels', of: 'the job', levels }, ...own];
}

function countIssue({ field, of, levels }: Levels, channelCount: number): JobIssue[] {
  if (levels.length === channelCount) return [];
  return [
    {
      code: 'channel-levels',
      place: { field },
      quantities: { levelCount: levels.length, channelCount },
      sentence: `The strip has ${counted(channelCount, 'channel')} and ${of} gives ${counted(levels.length, 'level')}: give one level for each channel.`,
    },
  ];
}

/** Rounding of typed levels is no mistake. */
const slack = 1e-9;

function limitIssue({ field, of, levels }: Levels, mixingLimit: number | null): JobIssue[] {
  const sum = levels.reduce((total, level) => total + level, 0);
  if (mixingLimit === null || sum <= mixingLimit + slack) return [];
  const percent = (ratio: number): string => `${figures(100 * ratio)} %`;
  return [
    {
      code: 'mixing-limit',
      place: { field },
      quantities: { sum, mixingLimit },
      sentence: `The working levels of ${of} add up to ${percent(sum)} and the control allows ${percent(mixingLimit)} over all channels: lower the levels, or raise the limit.`,
    },
  ];
}

/** Drivers that are to dim themselves and cannot. */
function drivenIssues(job: Job, { driver, furtherDrivers }: Products): JobIssue[] {
  if (job.dimming.control !== 'driver') return [];
  const steady = ({ name, control }: DriverData, field: string): JobIssue[] =>
    control !== 'none'
      ? []
      : [
          {
            code: 'driver-not-dimmable',
            place: { field },
            quantities: {},
            sentence: `The drivers are to dim themselves and "${name}" cannot: enter how it is dimmed from its data sheet, choose another driver, or put a dimmer behind it.`,
          },
        ];
  return [
    ...steady(driver, 'drivers.data.control'),
    ...furtherDrivers.flatMap((further, i) => steady(further, `drivers.also[${i + 1}].data.control`)),
  ];
}

/** A dimmer of another voltage than the strip, or with too few channels for it. */
function dimmerIssues({ strip, dimmer }: Products): JobIssue[] {
  if (!dimmer) return [];
  const [volts, channels] = [strip.nominal_V, strip.channels.length];
  const place = { field: 'dimming.dimmer.entry' };
  const voltage: JobIssue = {
    code: 'voltage-mismatch',
    place,
    quantities: { strip_V: volts, least_V: dimmer.least_V, most_V: dimmer.most_V },
    sentence: `The strip is made for ${volts} V and the dimmer for ${dimmer.least_V} to ${dimmer.most_V} V: choose a dimmer for ${volts} V.`,
  };
  const tooFew: JobIssue = {
    code: 'dimmer-channels',
    place,
    quantities: { stripChannels: channels, dimmerChannels: dimmer.channelCount },
    sentence: `The strip has ${counted(channels, 'channel')} and the dimmer ${counted(dimmer.channelCount, 'channel')}: choose one with a channel for each.`,
  };
  return [
    ...(volts < dimmer.least_V || volts > dimmer.most_V ? [voltage] : []),
    ...(dimmer.channelCount < channels ? [tooFew] : []),
  ];
}

/** Why a job cannot be dimmed as it says: levels and channels that do not match, a dimmer or drivers that cannot. */
export function dimmingIssues(job: Job, products: Products): JobIssue[] {
  const channelCount = products.strip.channels.length;
  const levels = levelsOf(job);
  return [
    ...levels.flatMap((each) => countIssue(each, channelCount)),
    ...levels.flatMap((each) => limitIssue(each, job.dimming.mixingLimit)),
    ...drivenIssues(job, products),
    ...dimmerIssues(products),
  ];
}
