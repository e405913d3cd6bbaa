import type { Condition } from '../answer/conditions.ts';
import type { LightZone } from '../answer/light.ts';
import type { Job } from '../job/job.ts';
import { counted, figures, levelsOf, listing } from '../words.ts';
import { type Dimmed, isLimited, isMixed, isPulsed, worstMix } from './dimming-of-job.ts';

/** What the limit of the mix is, what holds under it, and that pulses follow one another where the sums rest on that. */
function mixing(job: Job, products: Dimmed): Condition[] {
  const { strip } = products;
  if (!isMixed(job, strip)) return [];
  const limit = job.dimming.mixingLimit!;
  const [most, all] = [`${figures(100 * limit)} %`, strip.channels.length];
  const atOnce = isPulsed(job, products) ? Math.ceil(limit) : all;
  const follow =
    atOnce < all
      ? ` Pulses of the channels must follow one another, at no moment more than ${counted(atOnce, 'channel')} on.`
      : '';
  const onlyHeat = isPulsed(job, products) && atOnce >= all;
  const others = onlyHeat
    ? 'the temperatures hold only then, while cables, fuses and drivers are sized for all channels full'
    : 'cables, fuses, drivers and temperatures hold only then';
  return [
    {
      id: 'mixing-limit',
      holds: onlyHeat ? 'heat' : 'everything',
      levels: worstMix(strip, limit),
      sentence: `The control must be made unable to let the levels of all channels add up to more than ${most} by whoever commissions it, where no user of the wall can undo it, and be shown to be so before the wall is used: ${others}.${follow}`,
      short: `only with the levels of all channels kept from adding up to more than ${most}`,
    },
  ];
}

/** Slots dimmed alike, as far as a limit of their dimmer asks. */
type Limited = Pick<LightZone, 'zone' | 'name' | 'levels'>;

/** What no dimmer may go above, zone by zone: "15 % of full in Bay and 40 % of full in the rest". */
function limitsText(zones: readonly Limited[], isWhole: boolean, { strip }: Dimmed): string {
  const each = zones.map(({ name, levels }) => {
    const level = `${levelsOf(levels.working, strip.channels)} of full`;
    return isWhole ? level : `${level} in ${name}`;
  });
  return listing(each);
}

/**
 * What has to be so for the figures of a job to hold: none for a job sized for full, and the limit of the dimmer for
 * one sized for its working levels, and that of the mix where one is given. Everything the papers say of the limit is said here.
 * @param zones every slot of the wall, by the levels it is dimmed to
 */
export function conditionsOf(job: Job, products: Dimmed, zones: readonly Limited[]): Condition[] {
  const limited = zones.filter(({ zone }) => isLimited(job, zone));
  if (limited.length === 0) return mixing(job, products);
  const level = limitsText(limited, zones.length === 1, products);
  const [holds, others] = isPulsed(job, products)
    ? ([
        'heat',
        'the temperatures hold only then, while cables, fuses and drivers are sized for full',
      ] as const)
    : (['everything', 'cables, fuses, drivers and temperatures hold only then'] as const);
  return [
    {
      id: 'dimmer-limit',
      holds,
      levels: products.strip.channels.map((_, i) =>
        Math.max(...limited.map(({ levels }) => levels.working[i]!)),
      ),
      sentence: `The dimmer or its control must be made unable to go above ${level} by whoever commissions it, where no user of the wall can undo it, and be shown to be so before the wall is used: ${others}.`,
      short: `only with the dimmer made unable to go above ${level}`,
    },
    ...mixing(job, products),
  ];
}
