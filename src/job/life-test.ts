import * as z from 'zod';
import { count, quantity } from './quantity.ts';

/** One life test of the strip's lamps after IES LM-80, as a maker's report prints it. */
export const lifeTest = z.strictObject({
  case_degC: quantity({
    label: 'Temperature of the life test',
    unit: '°C',
    min: 40,
    max: 130,
    why: 'reports test at 55, 85 and often 105 °C',
  }),
  sampleCount: count({
    label: 'Samples in the life test',
    min: 10,
    max: 1000,
    why: 'IES TM-21 asks for 10 samples or more',
  }),
  readings: z
    .array(
      z.strictObject({
        hours: quantity({
          label: 'Hours',
          unit: 'h',
          min: 0,
          max: 200000,
          why: 'tests run 6,000 hours and longer',
        }),
        maintenance: quantity({
          label: 'Light left',
          unit: '',
          min: 0.3,
          max: 1.3,
          why: 'a ratio of the light at 0 h, 0.97 for 97 %',
        }),
      }),
    )
    .min(2, { error: 'A life test needs at least two readings.' })
    .max(100, { error: 'A life test holds at most 100 readings.' }),
});

export type LifeTest = z.infer<typeof lifeTest>;
