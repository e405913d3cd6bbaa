import type { Allocation } from '../drivers/allocation.ts';
import type { Job } from '../job/job.ts';
import { type DimmedBy, dimmingFrequency_Hz } from '../job/resolve.ts';
import type { StripData } from '../job/strip.ts';
import { levelsOfZone, type ZoneLevels } from '../job/zone-levels.ts';
import { levelShare } from './light-of-job.ts';

/** A strip and what dims it. */
export interface Dimmed extends DimmedBy {
  readonly strip: StripData;
}

/**
 * Whether a zone rests on a dimmer that cannot go above its working levels; levels of full limit nothing. A zone is given by
 * its name, here and below, and null is the slots in none.
 */
export const isLimited = (job: Job, zone: string | null): boolean =>
  job.dimming.sizeFor === 'levels' && levelsOfZone(job, zone).levels.some((level) => level < 1);

/** Whether light is dimmed by pulses of full current. */
export const isPulsed = (job: Job, products: DimmedBy): boolean =>
  dimmingFrequency_Hz(job, products) !== null;

/** Whether the circuit of a zone stands at its working levels: limited to them by a dimmer that lowers the current. */
export const isSteady = (job: Job, products: DimmedBy, zone: string | null): boolean =>
  isLimited(job, zone) && !isPulsed(job, products);

/** Whether the control keeps the levels of all channels from being full at once. */
export const isMixed = ({ dimming }: Job, { channels }: StripData): boolean =>
  dimming.mixingLimit !== null && dimming.mixingLimit < channels.length;

/**
 * The mix that draws most where the levels add up to no more than a limit: channels full from that of most watts on, the
 * last by what is left. All channels have rails and cores alike, so that it is also the mix in which plus and the return of
 * a full channel carry most.
 */
export function worstMix({ channels }: StripData, limit: number): number[] {
  const byWatts = channels
    .map((_, i) => i)
    .sort((a, b) => channels[b]!.watts_per_m - channels[a]!.watts_per_m);
  return channels.map((_, i) => Math.min(1, Math.max(0, limit - byWatts.indexOf(i))));
}

/** Levels of the worst mix that is on at one moment: pulses of channels follow one another, so that each is full or off. */
function momentLevels(job: Job, { strip, dimmer }: Dimmed): number[] {
  if (!isMixed(job, strip)) return strip.channels.map(() => 1);
  const limit = job.dimming.mixingLimit!;
  return worstMix(strip, isPulsed(job, { dimmer }) ? Math.ceil(limit) : limit);
}

/** Watts of the worst mix on at one moment over those of all channels full, 0 to 1; what a dimmer limits besides is left out. */
export const momentShare = (job: Job, products: Dimmed): number =>
  wattsShare(products.strip, momentLevels(job, products));

/**
 * Level of each channel that volts, currents, fuses and drivers are worked out at, 0 to 1: full, because a pulse draws
 * full current however short it is; the working levels only where a dimmer that lowers the current steadily is
 * limited to them. Channels that are switched are taken to begin their pulses together, so that a driver sees all; under a
 * mixing limit their pulses follow one another, which is then a condition.
 */
export function electricalLevels(job: Job, products: Dimmed, zone: string | null): number[] {
  return isSteady(job, products, zone) ? [...levelsOfZone(job, zone).levels] : momentLevels(job, products);
}

/** Watts of all channels at given levels over their watts at full, `sum(level*watts)/sum(watts)`, 0 to 1. */
function wattsShare({ channels }: StripData, levels: readonly number[]): number {
  const full_W = channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
  return channels.reduce((sum, channel, i) => sum + channel.watts_per_m * levels[i]!, 0) / full_W;
}

/** Watts of a zone in the solved circuit over those of the same strip at full, copper and warmth aside. */
export const circuitShare = (job: Job, products: Dimmed, zone: string | null): number =>
  wattsShare(products.strip, electricalLevels(job, products, zone));

/** Light at the levels of the solved circuit over that at full, each channel by its lumens, volts aside. */
export const circuitLight = (job: Job, products: Dimmed, zone: string | null): number =>
  levelShare(products.strip, electricalLevels(job, products, zone));

/** The lowest level the dimmer must reach: as given, else the lowest working level that lights; null for none. */
export function lowestLevel({ levels, lowest }: Pick<ZoneLevels, 'levels' | 'lowest'>): number | null {
  if (lowest !== null) return lowest;
  const lit = levels.filter((level) => level > 0);
  return lit.length === 0 ? null : Math.min(...lit);
}

/**
 * Average watts of a zone over its watts in the solved circuit, what heat and energy go by: the share of the working levels,
 * weighed by watts, or that of the worst mix. 1 unless a dimmer that switches is limited to either. The watts of a pulse are those of a
 * strip as warm as it gets fully on, which is on the careful side: a cooler strip draws less.
 */
export function averageShare(job: Job, products: Dimmed, zone: string | null): number {
  const { strip } = products;
  const { mixingLimit } = job.dimming;
  if (!isPulsed(job, products)) return 1;
  if (isLimited(job, zone))
    return wattsShare(strip, levelsOfZone(job, zone).levels) / momentShare(job, products);
  return isMixed(job, strip)
    ? wattsShare(strip, worstMix(strip, mixingLimit!)) / momentShare(job, products)
    : 1;
}

/** The average share of each output in use, by the zone it serves. */
export function averageOfOutputs(
  { drivers }: Allocation,
  { job, products }: { readonly job: Job; readonly products: Dimmed },
): ReadonlyMap<string, number> {
  const outputs = drivers.flatMap((driver) => driver.outputs);
  return new Map(outputs.map(({ id, zone }) => [id, averageShare(job, products, zone)]));
}
