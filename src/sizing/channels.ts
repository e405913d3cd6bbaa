import type { ChannelSolution } from '../circuit/solution.ts';
import { listOf } from '../numeric/list-of.ts';

/**
 * Light relative to that at nominal volts at the same level, so that no dimming is in it: solved light over the level;
 * 1 for what is off, which no volts make brighter or darker. Brightness at a level is this times the luminance there.
 */
export const undimmed = (light: Float64Array, level: number): number[] =>
  listOf(light).map((one) => (level > 0 ? one / level : 1));

/** The channel with the lowest volts anywhere on its run. */
export function worstChannel(channels: readonly ChannelSolution[]): ChannelSolution {
  return channels.reduce((a, b) => (b.lowest_V < a.lowest_V ? b : a));
}
