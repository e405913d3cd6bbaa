import type { CableData } from './cable.ts';
import type { DimmerData } from './dimmer.ts';
import type { DriverData } from './driver.ts';
import type { StripData } from './strip.ts';

/** What a catalogue knows an entry by. */
export interface Named {
  readonly id: string;
}

/** The catalogue entries a job names, with what its data sheets say otherwise laid over them. */
export interface Products {
  readonly strip: StripData & Named;
  readonly driver: DriverData & Named;
  /** Other models the job may be built with. */
  readonly furtherDrivers: readonly (DriverData & Named)[];
  readonly cable: CableData & Named;
  /** What a trunk is made of: the same cable, unless the job names another. */
  readonly trunk: CableData & Named;
  /** Null where the job has none. */
  readonly dimmer: (DimmerData & Named) | null;
}
