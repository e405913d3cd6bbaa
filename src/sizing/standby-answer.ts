import type { Allocation } from '../drivers/allocation.ts';
import type { DriverData } from '../job/driver.ts';
import type { Job } from '../job/job.ts';
import { modelOf, type Products } from '../job/products.ts';

/** Drivers by what dims them: those on a mains phase or a switch, or on neither, are without mains when nothing is lit. */
const staysOn: Readonly<Record<DriverData['control'], boolean>> = {
  none: false,
  'mains phase': false,
  switch: false,
  '1-10 V': true,
  DALI: true,
};

/**
 * Watts from the mains with every light dimmed to nothing, `sum of drivers (own + outputs * dimmer / efficiency)`; null
 * where the mains go off with the light. Efficiency is that of full load, so that what dimmers take is a little more.
 * Source: definitions. Check: `tests/sizing/small-wall/standby-answer.test.ts`, by hand.
 */
export function standby_W(
  { dimming }: Pick<Job, 'dimming'>,
  products: Products,
  { drivers }: Allocation,
): number | null {
  const dimmer_W = dimming.control === 'dimmer' ? products.dimmer!.standby_W : 0;
  const models = drivers.map((driver) => ({ ...modelOf(products, driver), inUse: driver.outputs.length }));
  const live = models.filter(
    ({ control }) => dimming.control === 'dimmer' || (dimming.control === 'driver' && staysOn[control]),
  );
  if (live.length === 0) return null;
  return live.reduce((sum, model) => sum + model.standby_W + (model.inUse * dimmer_W) / model.efficiency, 0);
}
