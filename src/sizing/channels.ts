import type { ChannelSolution } from '../circuit/solution.ts';
import type { StripData } from '../job/strip.ts';

/** Light of all channels together, each weighed by its lumens. */
export function togetherLight(channels: readonly ChannelSolution[], strip: StripData): number[] {
  const flux = strip.channels.map((channel) => channel.lumens_per_m);
  const all = flux.reduce((sum, lumens) => sum + lumens, 0);
  return Array.from(channels[0]!.light, (_, unit) =>
    channels.reduce((sum, channel, c) => sum + (channel.light[unit]! * flux[c]!) / all, 0),
  );
}

/** The channel with the lowest volts anywhere on its run. */
export function worstChannel(channels: readonly ChannelSolution[]): ChannelSolution {
  return channels.reduce((a, b) => (b.lowest_V < a.lowest_V ? b : a));
}
