import * as z from 'zod';
import { cableData } from './cable.ts';
import { fuseKinds } from './fuses.ts';
import { choice, count, line, quantity } from './quantity.ts';

/** One cable per feed point, a trunk with taps, a trunk that comes back, or from run to run. */
export const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;

/** Where cables leave a panel: over its head or under its foot. */
export const ways = ['head', 'foot'] as const;

/** The cables of a job. Fuses of format 1 were blade fuses, and a trunk was of the branches' cable. */
export const cables = z.strictObject({
  entry: line('Cable from the catalogue', 60),
  data: cableData.partial(),
  trunk: z
    .strictObject({ entry: line('Trunk cable from the catalogue', 60), data: cableData.partial() })
    .nullable()
    .default(null),
  layout: choice('Cable layout', layouts),
  way: choice('Cable way', ways),
  wayInset_mm: quantity({
    label: 'Cable way from the edge of the panel',
    unit: 'mm',
    min: 0,
    max: 2000,
    why: 'the way runs inside the panel, along its top or bottom',
  }),
  wayWidth_mm: quantity({
    label: 'Room across the cable way',
    unit: 'mm',
    min: 5,
    max: 1000,
    why: 'what is free beside the slots, from one cable to a whole duct',
  }).default(60),
  fuses: choice('Fuses', fuseKinds).default('blade'),
  tail_mm: quantity({
    label: 'Tail at each end of a cable',
    unit: 'mm',
    min: 0,
    max: 5000,
    why: 'enough to reach the terminal and be made off',
  }),
  allowance: quantity({
    label: 'Length allowance',
    unit: '',
    min: 0,
    max: 0.5,
    why: 'a ratio, 0.1 for one tenth more than the way measured',
  }),
  cable_degC: quantity({
    label: 'Cable temperature',
    unit: '°C',
    min: -10,
    max: 90,
    why: 'the temperature its conductors reach in use, and the least reckoned round it; 40 °C is common inside a panel',
  }),
  grouped: count({
    label: 'Circuits bunched, at least',
    min: 1,
    max: 20,
    why: 'what is counted on the wall is taken where it is more; grouping factors are tabled to 20 circuits',
  }),
});
