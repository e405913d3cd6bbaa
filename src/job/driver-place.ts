import * as z from 'zod';
import { choice, line, quantity } from './quantity.ts';

/** Where drivers go: a box drawn to scale, or a remote place that a cable of known length comes from. */
export const driverPlace = z.strictObject({
  name: line('Driver place', 30),
  kind: choice('Kind of driver place', ['box', 'remote']).default('box'),
  /** From a remote place to where it enters the panel, at `x_mm` on the cable way; null for a box. */
  cable_mm: quantity({
    label: 'Cable from a remote place to the panel',
    unit: 'mm',
    min: 0,
    max: 100000,
    why: 'measured along the cable; beyond 100 m extra-low voltage has nothing left to give',
  })
    .nullable()
    .default(null),
  reachable: z
    .boolean({ error: 'Within reach must be true or false.' })
    .default(true)
    .meta({ title: 'Within reach once the wall is closed' }),
  terminalsFace: choice('Output terminals face', ['left', 'right', 'up', 'down']).default('right'),
  x_mm: quantity({
    label: 'Driver place from the left edge',
    unit: 'mm',
    min: -20000,
    max: 50000,
    why: 'measured from the lower left corner of the panel; may lie outside it',
  }),
  y_mm: quantity({
    label: 'Driver place from the bottom',
    unit: 'mm',
    min: -10000,
    max: 20000,
    why: 'measured from the lower left corner of the panel; may lie outside it',
  }),
  width_mm: quantity({
    label: 'Width of the driver place',
    unit: 'mm',
    min: 20,
    max: 5000,
    why: 'inside measure',
  }),
  height_mm: quantity({
    label: 'Height of the driver place',
    unit: 'mm',
    min: 20,
    max: 5000,
    why: 'inside measure',
  }),
  depth_mm: quantity({
    label: 'Depth of the driver place',
    unit: 'mm',
    min: 10,
    max: 2000,
    why: 'inside measure',
  }),
  vented: z.boolean({ error: 'Vented must be true or false.' }).meta({ title: 'Vented to the room' }),
  ventOpening_mm2: quantity({
    label: 'Free area of each vent opening',
    unit: 'mm²',
    min: 0,
    max: 1000000,
    why: 'one opening low and one high, after the loss in louvre or mesh',
  }),
});

export type DriverPlace = z.infer<typeof driverPlace>;
