import type { CableData } from './cable.ts';
import type { DimmerData } from './dimmer.ts';
import type { DriverData } from './driver.ts';
import type { Job } from './job.ts';
import type { ProfileProduct } from './profile.ts';
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
  /** Null where the strip lies in none. */
  readonly profile: (ProfileProduct & Named) | null;
}

/** Every driver model of a job, its own first: a driver's `model` counts along them from 0. */
export const driverModels = ({
  driver,
  furtherDrivers,
}: Pick<Products, 'driver' | 'furtherDrivers'>): readonly (DriverData & Named)[] => [
  driver,
  ...furtherDrivers,
];

/** What the job says of each model: its entry, what it lays over that, and how many there are. */
export const driverChoices = ({
  drivers,
}: Pick<Job, 'drivers'>): readonly Job['drivers']['also'][number][] => [drivers, ...drivers.also];

interface OfModel {
  readonly model: number;
}

/** The data sheet of a driver. */
export const modelOf = (
  products: Pick<Products, 'driver' | 'furtherDrivers'>,
  { model }: OfModel,
): DriverData & Named => driverModels(products)[model]!;

/** The field of the job that holds something of a model. */
export const modelField = ({ model }: OfModel, key: string): string =>
  model === 0 ? `drivers.${key}` : `drivers.also[${model}].${key}`;
