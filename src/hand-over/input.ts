import type { BarCut } from '../answer/bars.ts';
import type { Cable } from '../answer/cables.ts';
import type { CircuitAnswer } from '../answer/circuit.ts';
import type { Condition } from '../answer/conditions.ts';
import type { DriversAnswer } from '../answer/drivers.ts';
import type { HeatAnswer } from '../answer/heat.ts';
import type { InstallationAnswer } from '../answer/installation.ts';
import type { LightAnswer } from '../answer/light.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';

/** Everything the papers are written from. */
export interface HandOverInput {
  readonly job: Job;
  readonly products: Products;
  /** Volts the drivers are set to. */
  readonly set_V: number;
  readonly setOut: SetOut;
  /** Profile and cover as far as they are sold in bars. */
  readonly bars: readonly BarCut[];
  readonly cables: readonly Cable[];
  readonly installation: InstallationAnswer;
  readonly circuit: CircuitAnswer;
  readonly drivers: DriversAnswer;
  readonly conditions: readonly Condition[];
  readonly light: Pick<LightAnswer, 'zones'>;
}

/** What decides which cautions appear. */
export interface CautionContext extends HandOverInput {
  readonly heat: HeatAnswer;
}
