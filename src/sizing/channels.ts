import type { ChannelSolution } from '../circuit/solution.ts';

/** The channel with the lowest volts anywhere on its run. */
export function worstChannel(channels: readonly ChannelSolution[]): ChannelSolution {
  return channels.reduce((a, b) => (b.lowest_V < a.lowest_V ? b : a));
}
