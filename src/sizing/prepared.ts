import type { LightAnswer } from '../answer/light.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { Allocation } from '../drivers/allocation.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';
import type { HeatLaw } from './heat-law.ts';
import type { WarmWidth } from './slots-by-width.ts';

/** What is fixed before anything electrical or warm is known. */
export interface Described {
  readonly job: Job;
  readonly products: Products;
  readonly setOut: SetOut;
  readonly light: LightAnswer;
  readonly section: SectionDescription;
  /** How much trouble is taken. */
  readonly accuracy: Sizing['accuracy'];
}

/** The same, and how it warms. */
export interface Prepared extends Described {
  /** How the strip and everything about it warm with its watts. */
  readonly law: HeatLaw;
  /** The sections of slots of other widths, where there are several; `section` and `law` are those of the warmest strip. */
  readonly others?: readonly WarmWidth[];
  /** Nominal loads as `shareNominally` shares them out, where that was done before. */
  readonly nominally?: Allocation;
}
