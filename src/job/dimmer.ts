import * as z from 'zod';
import { ingress } from './ingress.ts';
import { price_cents } from './prices.ts';
import { choice, count, line, oneOf, quantity } from './quantity.ts';

/** A dimmer between driver and strip, as its data sheet describes it; it switches the returns, one for each channel. */
export const dimmerData = z.strictObject({
  name: line('Dimmer name', 80),
  least_V: oneOf('Lowest voltage of the dimmer', 'V', [12, 24, 48]),
  most_V: oneOf('Highest voltage of the dimmer', 'V', [12, 24, 48]),
  channelCount: count({ label: 'Channels', min: 1, max: 4, why: 'a strip has at most four' }),
  channel_A: quantity({
    label: 'Current of one channel',
    unit: 'A',
    min: 0.1,
    max: 40,
    why: 'data sheets print 1 to 20 A',
  }),
  resistance_mohm: quantity({
    label: 'Resistance of one channel, in its return',
    unit: 'mΩ',
    min: 0,
    max: 1000,
    why: 'transistor, terminals and tracks together are some 10 to 50 mΩ',
  }),
  standby_W: quantity({
    label: 'Drawn with every channel off',
    unit: 'W',
    min: 0,
    max: 10,
    why: 'data sheets print 0.1 to 1 W',
  }),
  ownLoss_W: quantity({
    label: 'Own loss when lit, without that of the resistance',
    unit: 'W',
    min: 0,
    max: 50,
    why: 'its control and its switching take some 0.5 to 2 W',
  }),
  /** Of a pulsed dimmer; null for a steady one. */
  frequency_Hz: quantity({
    label: 'Pulse frequency',
    unit: 'Hz',
    min: 50,
    max: 100000,
    why: 'dimmers switch at 100 Hz to 30 kHz',
  }).nullable(),
  lowestLevel: quantity({
    label: 'Lowest level it reaches',
    unit: '',
    min: 0.0001,
    max: 1,
    why: 'a ratio of full, 0.01 for 1 %',
  }),
  control: choice('Controlled by', ['1-10 V', 'DALI', 'push button', 'radio']),
  length_mm: quantity({
    label: 'Case length',
    unit: 'mm',
    min: 20,
    max: 400,
    why: 'cases are 40 to 200 mm long',
  }),
  width_mm: quantity({
    label: 'Case width',
    unit: 'mm',
    min: 10,
    max: 200,
    why: 'cases are 20 to 80 mm wide',
  }),
  height_mm: quantity({
    label: 'Case height',
    unit: 'mm',
    min: 5,
    max: 100,
    why: 'cases are 10 to 60 mm high',
  }),
  clearance_mm: quantity({
    label: 'Clearance round the case',
    unit: 'mm',
    min: 0,
    max: 200,
    why: 'makers ask for 0 to 50 mm of free air',
  }),
  ip: ingress('IP rating of the dimmer'),
  price_cents: price_cents('Price of a dimmer, in cents').nullable(),
});

export type DimmerData = z.infer<typeof dimmerData>;
