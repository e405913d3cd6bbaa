import * as z from 'zod';
import { quantity } from './quantity.ts';
import { stripChannel, stripData } from './strip.ts';

const testLength = {
  min: 500,
  max: 100000,
  why: 'a shorter length drops too little to tell, a longer one is not sold',
} as const;

const railsByRun = z.strictObject({
  from: z.literal('longest run'),
  length_mm: quantity({ label: 'Longest run from one end', unit: 'mm', ...testLength }),
  drop: quantity({
    label: 'Drop that run rests on',
    unit: '',
    min: 0.005,
    max: 0.2,
    why: 'a ratio of the nominal volts, such as 0.05',
  }).optional(),
});

const volts = (label: string) =>
  quantity({ label, unit: 'V', min: 5, max: 60, why: 'extra-low voltage, with the strip fully on' });

const railsByVolts = z.strictObject({
  from: z.literal('measured volts'),
  length_mm: quantity({ label: 'Length that was measured', unit: 'mm', ...testLength }),
  start_V: volts('Volts at the fed end'),
  finish_V: volts('Volts at the far end'),
  strip_degC: quantity({
    label: 'Strip temperature',
    unit: '°C',
    min: -10,
    max: 100,
    why: 'while it was measured; 40 °C where it is left out',
  }).optional(),
});

const railsByCopper = z.strictObject({
  from: z.literal('copper'),
  width_mm: quantity({
    label: 'Copper width of one rail',
    unit: 'mm',
    min: 0.5,
    max: 20,
    why: 'strip is 3 to 30 mm wide and has two rails or more',
  }),
  weight_oz: quantity({
    label: 'Copper weight',
    unit: 'oz',
    min: 1,
    max: 6,
    why: 'strip is made with 1 to 4 oz; one ounce per square foot is 35 µm',
  }),
});

/** What a data sheet or a test on the bench says about a strip of one colour, and what its rails are found from. */
export const stripSheet = z.strictObject({
  nominal_V: stripData.shape.nominal_V,
  watts_per_m: stripChannel.shape.watts_per_m,
  cut_mm: quantity({
    label: 'Cut length',
    unit: 'mm',
    min: 5,
    max: 1000,
    why: 'from one cut line to the next, as printed',
  }),
  lampsPerMetre: stripData.shape.lampsPerMetre,
  law: stripData.shape.law,
  dropout_V: stripData.shape.dropout_V.optional(),
  lampsInSeries: stripChannel.shape.lampsInSeries.optional(),
  lampForward_V: stripChannel.shape.lampForward_V.optional(),
  rails: z.discriminatedUnion('from', [railsByRun, railsByVolts, railsByCopper], {
    error: 'Say what the rails are found from: longest run, measured volts or copper.',
  }),
});

export type StripSheet = z.infer<typeof stripSheet>;
