import * as z from 'zod';
import { ingress } from './ingress.ts';
import { price_cents } from './prices.ts';
import { choice, count, line, oneOf, quantity } from './quantity.ts';

/** A constant-voltage driver as its data sheet describes it. */
export const driverData = z.strictObject({
  name: line('Driver name', 80),
  output_V: oneOf('Driver voltage', 'V', [12, 24, 48]),
  rated_W: quantity({
    label: 'Rated output',
    unit: 'W',
    min: 5,
    max: 1000,
    why: 'trade sizes run from 10 to 600 W',
  }),
  outputCount: count({ label: 'Output terminals', min: 1, max: 8, why: 'drivers have one to eight outputs' }),
  current_A: quantity({
    label: 'Current limit of one output',
    unit: 'A',
    min: 0.1,
    max: 100,
    why: 'rated watts over volts, as printed on the case',
  }),
  tolerance: quantity({
    label: 'Output tolerance',
    unit: '',
    min: 0,
    max: 0.1,
    why: 'IEC 62384 allows up to 0.1 of the rated voltage either way',
  }),
  efficiency: quantity({
    label: 'Efficiency at full load',
    unit: '',
    min: 0.5,
    max: 0.99,
    why: 'a ratio, 0.88 for 88 %',
  }),
  powerFactor: quantity({
    label: 'Power factor',
    unit: '',
    isWrittenPlain: true,
    min: 0.3,
    max: 1,
    why: 'a ratio up to 1',
  }),
  standby_W: quantity({
    label: 'Drawn from the mains with nothing lit',
    unit: 'W',
    min: 0,
    max: 20,
    why: 'data sheets print 0.2 to 1 W',
  }),
  inrush_A: quantity({
    label: 'Inrush peak',
    unit: 'A',
    min: 0.1,
    max: 500,
    why: 'data sheets print 5 to 100 A',
  }),
  inrush_us: quantity({
    label: 'Inrush width at half height',
    unit: 'µs',
    min: 1,
    max: 20000,
    why: 'data sheets print 50 to 2,000 µs',
  }),
  perBreakerB16: count({
    label: "Drivers on one B16 breaker, from the maker's sheet",
    min: 1,
    max: 500,
    why: 'as printed; it takes precedence over the formula',
  }).nullable(),
  length_mm: quantity({
    label: 'Case length',
    unit: 'mm',
    min: 20,
    max: 800,
    why: 'cases are 50 to 500 mm long',
  }),
  width_mm: quantity({
    label: 'Case width',
    unit: 'mm',
    min: 10,
    max: 400,
    why: 'cases are 15 to 150 mm wide',
  }),
  height_mm: quantity({
    label: 'Case height',
    unit: 'mm',
    min: 8,
    max: 200,
    why: 'cases are 12 to 80 mm high',
  }),
  clearance_mm: quantity({
    label: 'Clearance round the case',
    unit: 'mm',
    min: 0,
    max: 200,
    why: 'makers ask for 0 to 50 mm of free air',
  }),
  fullLoadAmbient_degC: quantity({
    label: 'Highest ambient at full load',
    unit: '°C',
    min: 20,
    max: 90,
    why: 'data sheets print 40 to 60 °C',
  }),
  derating_per_K: quantity({
    label: 'Derating above that, per kelvin',
    unit: '1/K',
    min: 0,
    max: 0.2,
    why: 'a ratio of rated watts, commonly 0.025 per kelvin',
  }),
  highestAmbient_degC: quantity({
    label: 'Highest ambient at all',
    unit: '°C',
    min: 25,
    max: 100,
    why: 'data sheets print 45 to 70 °C',
  }),
  caseLimit_degC: quantity({
    label: 'Case limit tc',
    unit: '°C',
    min: 40,
    max: 120,
    why: 'marked on the case, usually 75 to 90 °C',
  }),
  terminalConductors: count({
    label: 'Conductors one output terminal takes',
    min: 1,
    max: 8,
    why: 'a clamp takes one; some drivers have two to four side by side',
  }),
  outputsDimTogether: z
    .boolean({ error: 'Outputs dimmed together must be true or false.' })
    .meta({ title: 'All outputs are dimmed together' }),
  control: choice('How it dims itself', ['none', 'mains phase', '1-10 V', 'DALI', 'switch']),
  ip: ingress('IP rating of the driver'),
  price_cents: price_cents('Price of a driver, in cents').nullable(),
});

export type DriverData = z.infer<typeof driverData>;
