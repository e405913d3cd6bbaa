import type { Dimmer } from '../answer/installation.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import type { WiredJob } from './circuit-of-job.ts';

/** What flows through a dimmer, and what becomes heat in it. */
export interface SolvedDimmer extends Pick<Dimmer, 'id' | 'name' | 'output' | 'channel_A'> {
  /** Of each channel, in the order of the strip. */
  readonly current_A: readonly number[];
  /** In its channels, `sum(I^2*R)`; a part of the watts of the solved circuit. */
  readonly resistance_W: number;
  /** What it takes for itself, besides. */
  readonly own_W: number;
}

/** The dimmers of a solved job, each an element of its circuit with a return for each channel. */
export function solvedDimmers(
  { installation, products }: WiredJob,
  solution: CircuitSolution,
): SolvedDimmer[] {
  const { dimmer } = products;
  if (dimmer === null) return [];
  const solved = new Map(solution.cables.map((cable) => [cable.id, cable]));
  return installation.dimmers.map(({ id, output }) => {
    const { returns } = solved.get(id)!;
    const current_A = returns.map((one) => Math.abs(one.current_A));
    const resistance_W = current_A.reduce((sum, I) => sum + (I ** 2 * dimmer.resistance_mohm) / 1000, 0);
    const { name, channel_A, ownLoss_W: own_W } = dimmer;
    return { id, name, output, channel_A, current_A, resistance_W, own_W };
  });
}

/** Heat of a dimmer, W, with its channels on for a share of the time, 0 to 1, and its own loss all of it. */
export const dimmerLoss_W = (
  { resistance_W, own_W }: Pick<SolvedDimmer, 'resistance_W' | 'own_W'>,
  share: number,
): number => share * resistance_W + own_W;
