import * as z from 'zod';
import { driverData } from './driver.ts';
import { driverPlace } from './driver-place.ts';
import { count, line, quantity } from './quantity.ts';

/** A driver model, and how many of it are at hand; null where as many as it takes can be had. */
const model = {
  entry: line('Driver from the catalogue', 60),
  data: driverData.partial(),
  stock: count({ label: 'Drivers at hand', min: 0, max: 1000, why: 'what lies in the workshop' })
    .nullable()
    .default(null),
};

/** The drivers of a job: models it may be built with, how far they are loaded, and where they go. */
export const drivers = z.strictObject({
  ...model,
  also: z
    .array(z.strictObject(model))
    .max(8, { error: 'A job allows at most 8 further driver models.' })
    .default([]),
  reserve: quantity({
    label: 'Reserve',
    unit: '',
    min: 0,
    max: 0.6,
    why: 'a ratio, 0.2 to load a driver to 80 % at most (common practice)',
  }),
  set_V: quantity({
    label: 'Output voltage the driver is set to',
    unit: 'V',
    min: 5,
    max: 60,
    why: 'extra-low voltage; usually the nominal voltage of the strip',
  }).nullable(),
  outputCeiling_W: quantity({
    label: 'Ceiling of one output',
    unit: 'W',
    min: 10,
    max: 1000,
    why: 'rules that ask for limited outputs put it at 100 W',
  }).nullable(),
  places: z
    .array(driverPlace)
    .min(1, { error: 'Drivers need a place: give at least one.' })
    .max(12, { error: 'A job holds at most 12 driver places.' }),
});
