import type { Cable, CircuitAnswer, Condition, DriversAnswer, HeatAnswer, SetOut } from '../answer/sizing.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/resolve.ts';

/** Everything the papers are written from. */
export interface HandOverInput {
  readonly job: Job;
  readonly products: Products;
  /** Volts the drivers are set to. */
  readonly set_V: number;
  readonly setOut: SetOut;
  readonly cables: readonly Cable[];
  readonly circuit: CircuitAnswer;
  readonly drivers: DriversAnswer;
  readonly conditions: readonly Condition[];
}

/** What decides which cautions appear. */
export interface CautionContext extends HandOverInput {
  readonly heat: HeatAnswer;
}
