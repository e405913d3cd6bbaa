import { type Fuse, opensFuse } from './fuse-families.ts';

export interface ShortCircuit {
  /** What the copper alone would let through, A. */
  readonly prospective_A: number;
  /** What flows: the copper's current or the driver's limit, whichever is less. */
  readonly fault_A: number;
  /** Heat in the faulted copper, W. */
  readonly fault_W: number;
  /** The driver reaches its limit, so the light goes out or the driver stops. */
  readonly reachesLimit: boolean;
  readonly opensFuse: boolean;
  /** Neither happens: the fault could sit there, warm and unnoticed. */
  readonly couldSitUnnoticed: boolean;
}

/**
 * What a short at the far end does: `I = V / loop`, held against the driver's limit and the fuse.
 * @param of.loop_ohm all copper there and back, `loopResistance_ohm`
 * @param of.sourceLimit_A the current at which the driver limits; take the most it may be, to be sure
 * @param of.fuse the fuse in the way, if there is one
 * Source: IEC 60364-4-43 clause 434 asks that a fault be cleared; Ohm's law. Fuses: what opens their family
 * within 5 s.
 */
export function shortAtFarEnd(of: {
  readonly set_V: number;
  readonly loop_ohm: number;
  readonly sourceLimit_A: number;
  readonly fuse?: Fuse;
}): ShortCircuit {
  const prospective_A = of.set_V / of.loop_ohm;
  const reachesLimit = prospective_A >= of.sourceLimit_A;
  const fault_A = Math.min(prospective_A, of.sourceLimit_A);
  const opens = of.fuse !== undefined && opensFuse(of.fuse, fault_A);
  return {
    prospective_A,
    fault_A,
    fault_W: fault_A ** 2 * of.loop_ohm,
    reachesLimit,
    opensFuse: opens,
    couldSitUnnoticed: !reachesLimit && !opens,
  };
}
