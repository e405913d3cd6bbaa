import type { LoopPath } from '../hand-over/dead-test.ts';
import { partnerOf, type WiredJob } from '../sizing/circuit-of-job.ts';
import { jointAt, partingLines } from './reading-model-circuit.ts';

export type Rail = 'plus' | 'minus';

/** One conductor or joint on the way, at 20 degC. */
interface Stretch {
  /** Cable of the output's circuit that it is. */
  readonly cable: string;
  readonly rail: Rail;
  readonly copper_ohm: number;
  readonly contact_ohm: number;
}

/** What an ohmmeter measures along: conductors and joints one after the other, and copper of the strip. */
export interface Loop {
  readonly stretches: readonly Stretch[];
  readonly strip_ohm: number;
  /** Joints at feed points, which have no cable of their own. */
  readonly contact_ohm: number;
}

const railOf = { positive: 'plus', return: 'minus' } as const;

/** What a loop of the test sheet passes, by the cables of the output's circuit. */
export function loopOf(path: LoopPath, wired: WiredJob): Loop {
  const isParting = ({ run, cutLine }: LoopPath['joints'][number]) =>
    partingLines(run, wired).includes(cutLine);
  const leads = path.leads.map(({ leg, rail, ...ohms }) => ({
    cable: partnerOf(leg, wired),
    rail: railOf[rail],
    ...ohms,
  }));
  const joints = path.joints.filter(isParting).map(({ run, cutLine, rail, ohm }) => ({
    cable: jointAt(run, cutLine),
    rail: railOf[rail],
    copper_ohm: 0,
    contact_ohm: ohm,
  }));
  return {
    stretches: [...leads, ...joints],
    strip_ohm: path.strip_ohm,
    contact_ohm: path.joints.filter((joint) => !isParting(joint)).reduce((sum, { ohm }) => sum + ohm, 0),
  };
}
