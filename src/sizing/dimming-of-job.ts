import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';

/** Whether the job rests on a dimmer that cannot go above the working levels; levels of full limit nothing. */
export const isLimited = ({ dimming }: Job): boolean =>
  dimming.sizeFor === 'levels' && dimming.levels.some((level) => level < 1);

/** Whether light is dimmed by pulses of full current. */
export const isPulsed = ({ dimming }: Job): boolean => dimming.pwm_Hz !== null;

/**
 * Level of each channel that volts, currents, fuses and drivers are worked out at, 0 to 1: full, because a pulse draws
 * full current however short it is; the working levels only where a dimmer that lowers the current steadily is
 * limited to them. Channels that are switched are taken to begin their pulses together, so that a driver sees all.
 */
export function electricalLevels(job: Job, strip: StripData): number[] {
  const isSteady = isLimited(job) && !isPulsed(job);
  return strip.channels.map((_, i) => (isSteady ? job.dimming.levels[i]! : 1));
}

/**
 * Average watts over the watts of the solved circuit, `sum(level*watts)/sum(watts)` over the channels: what heat and
 * energy go by. 1 unless a dimmer that switches is limited to the working levels. The watts of a pulse are those of a
 * strip as warm as it gets fully on, which is on the careful side: a cooler strip draws less.
 */
export function averageShare(job: Job, strip: StripData): number {
  if (!(isLimited(job) && isPulsed(job))) return 1;
  const full_W = strip.channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
  const lit_W = strip.channels.reduce((sum, one, i) => sum + one.watts_per_m * job.dimming.levels[i]!, 0);
  return lit_W / full_W;
}
