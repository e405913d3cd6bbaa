import * as z from 'zod';
import { ingress } from './ingress.ts';
import { price_cents } from './prices.ts';
import { choice, count, line, oneOf, quantity } from './quantity.ts';

/** One colour of a strip: its own return rail, its own lamps. */
export const stripChannel = z.strictObject({
  name: line('Channel name', 24),
  watts_per_m: quantity({
    label: 'Strip power',
    unit: 'W/m',
    min: 0.5,
    max: 40,
    why: 'less is not sold as lighting, more cannot be cooled on a strip',
  }),
  lumens_per_m: quantity({
    label: 'Strip luminous flux',
    unit: 'lm/m',
    min: 5,
    max: 6000,
    why: 'white strip gives some 60 to 200 lm/W, coloured strip less',
  }),
  cct_K: quantity({
    label: 'Colour temperature',
    unit: 'K',
    min: 1700,
    max: 10000,
    why: 'white strip is sold from 1,800 to 6,500 K; a coloured channel has none (null)',
  }).nullable(),
  lampsInSeries: count({
    label: 'LEDs in series in one cut unit',
    min: 1,
    max: 20,
    why: 'at about 3 V an LED, 48 V drives no more than 16',
  }),
  lampForward_V: quantity({
    label: 'Forward voltage of one LED',
    unit: 'V',
    min: 1.5,
    max: 4,
    why: 'red LEDs sit near 2 V, white and blue near 3 V',
  }),
});

/** An LED strip as its data sheet describes it. Values hold at 25 degC for lamps and 20 degC for copper. */
export const stripData = z.strictObject({
  name: line('Strip name', 80),
  nominal_V: oneOf('Strip voltage', 'V', [12, 24, 48]),
  law: choice('Current of the strip set by', ['resistor', 'regulated']),
  dropout_V: quantity({
    label: 'Dropout of the regulator',
    unit: 'V',
    min: 0.2,
    max: 5,
    why: 'common regulators need 0.5 to 1.5 V; a resistor strip does not use this',
  }),
  channels: z.array(stripChannel).min(1, { error: 'A strip needs at least one channel.' }).max(4, {
    error: 'A strip has at most four channels.',
  }),
  unitsPerMetre: quantity({
    label: 'Cut units per metre',
    unit: '1/m',
    min: 1,
    max: 200,
    why: 'cut lines lie between 5 mm and 1 m apart',
  }),
  lampsPerMetre: quantity({
    label: 'LEDs per metre',
    unit: '1/m',
    min: 10,
    max: 1000,
    why: 'fewer show as hot spots at any depth, more do not fit on a strip',
  }),
  width_mm: quantity({
    label: 'Strip width',
    unit: 'mm',
    min: 2,
    max: 40,
    why: 'strip is made from 3 to 30 mm',
  }),
  reel_mm: quantity({
    label: 'Reel length',
    unit: 'mm',
    min: 500,
    max: 100000,
    why: 'reels are sold from 1 to 50 m',
  }),
  railPositive_mohm_per_m: quantity({
    label: 'Resistance of the positive rail',
    unit: 'mΩ/m',
    min: 1,
    max: 1000,
    why: '3 to 5 mm of 1 to 4 oz copper is 25 to 164 mΩ/m',
  }),
  railReturn_mohm_per_m: quantity({
    label: 'Resistance of each return rail',
    unit: 'mΩ/m',
    min: 1,
    max: 1000,
    why: '3 to 5 mm of 1 to 4 oz copper is 25 to 164 mΩ/m',
  }),
  halfAngle_deg: quantity({
    label: 'Half-intensity angle from the axis',
    unit: '°',
    min: 10,
    max: 85,
    why: 'a bare LED has 60°, half of the "120° beam" on its sheet',
  }),
  longestRun_mm: quantity({
    label: 'Longest run from one feed, as the maker prints it',
    unit: 'mm',
    min: 500,
    max: 100000,
    why: 'makers print 3 to 30 m',
  }).nullable(),
  limit_degC: quantity({
    label: 'Highest strip temperature on the data sheet',
    unit: '°C',
    min: 40,
    max: 120,
    why: 'data sheets print 60 to 85 °C at the measuring point',
  }),
  solderRise_K_per_W: quantity({
    label: 'Rise of one LED above the strip',
    unit: 'K/W',
    min: 0,
    max: 500,
    why: 'one LED is well below 1 W and sits on a few square millimetres of copper',
  }),
  slope_V: quantity({
    label: 'Exponential slope of one LED',
    unit: 'V',
    min: 0.025,
    max: 0.5,
    why: 'current grows by e for every so many volts; 0.026 V is the least physics allows, series resistance adds',
  }),
  /** Left out or null, its light is taken as that of its data sheet however warm it is. */
  fluxLoss_per_K: quantity({
    label: 'Light lost for each kelvin the strip is warmer',
    unit: '1/K',
    min: 0,
    max: 0.01,
    why: 'data sheets of white LEDs draw it as relative flux over temperature: 0.001 to 0.003 of the light at 25 °C (from memory)',
  })
    .nullable()
    .optional(),
  ip: ingress('IP rating of the strip'),
  price_cents: price_cents('Price of a reel, in cents').nullable(),
});

export type StripChannel = z.infer<typeof stripChannel>;
export type StripData = z.infer<typeof stripData>;
