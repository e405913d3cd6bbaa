import * as z from 'zod';
import { barCut } from './bars.ts';
import { cable } from './cables.ts';
import { caution } from './cautions.ts';
import { circuit } from './circuit.ts';
import { condition } from './conditions.ts';
import { drivers } from './drivers.ts';
import { finding } from './findings.ts';
import { heat } from './heat.ts';
import { hung } from './hung.ts';
import { installation } from './installation.ts';
import { light } from './light.ts';
import { note } from './notes.ts';
import { price } from './price.ts';
import { products } from './products.ts';
import { roomLight } from './room-light.ts';
import { schedule } from './schedules.ts';
import { section } from './section.ts';
import { setOut } from './set-out.ts';
import { num, text } from './values.ts';

/**
 * What comes out of a job: one schema, from which the types of the engine and the response schema of the service
 * are both made. Names carry units; ratios run 0 to 1; coordinates are measured from the panel's lower left
 * corner. Numbers are unrounded: the page and the papers round them for the reader.
 */
export const sizing = z.strictObject({
  engine: text,
  accuracy: z
    .enum(['quick', 'careful'])
    .describe('careful: heat from the field, tolerances in every combination'),
  products,
  set_V: num.describe('volts the drivers are set to'),
  section,
  setOut,
  bars: z
    .array(barCut)
    .describe('profile and cover as they are cut from bars; empty where neither is sold in bars'),
  cables: z.array(cable),
  installation,
  circuit,
  drivers,
  light,
  roomLight,
  hung,
  heat,
  conditions: z
    .array(condition)
    .describe('what has to be so for the figures to hold; empty for a job sized for full'),
  findings: z.array(finding),
  cautions: z.array(caution),
  schedules: z.array(schedule),
  price,
  notes: z.array(note),
});

export type Sizing = z.infer<typeof sizing>;
