import * as z from 'zod';
import { cableData } from '../job/cable.ts';
import { dimmerData } from '../job/dimmer.ts';
import { driverData } from '../job/driver.ts';
import { profileProduct } from '../job/profile.ts';
import { stripData } from '../job/strip.ts';
import { text } from './values.ts';

const entry = text.describe('the catalogue entry the job names');

/** What was calculated with: catalogue entries as they were, with the job's own figures laid over them. */
export const products = z.strictObject({
  strip: stripData.extend({ id: entry }),
  driver: driverData.extend({ id: entry }),
  furtherDrivers: z
    .array(driverData.extend({ id: entry }))
    .readonly()
    .describe('other models the job may be built with'),
  cable: cableData.extend({ id: entry }),
  trunk: cableData.extend({ id: entry }).describe('what a trunk is made of; often the same cable'),
  dimmer: dimmerData.extend({ id: entry }).nullable().describe('null where the job has none'),
  profile: profileProduct.extend({ id: entry }).nullable().describe('null where the strip lies in none'),
});
