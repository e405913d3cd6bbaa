import * as z from 'zod';
import { cableData } from '../../src/job/cable.ts';
import { dimmerData } from '../../src/job/dimmer.ts';
import { driverData } from '../../src/job/driver.ts';
import { profileCoverData, profileData } from '../../src/job/profile.ts';
import { stripData } from '../../src/job/strip.ts';

const id = z.string().describe('the word a job names the entry by');

/** What a job may choose from. Entries are typical values; the maker's data sheet takes precedence. */
export const catalogue = z
  .strictObject({
    strips: z.array(stripData.extend({ id })),
    drivers: z.array(driverData.extend({ id })),
    dimmers: z.array(dimmerData.extend({ id })),
    cables: z.array(cableData.extend({ id })),
    profiles: z.array(profileData.extend({ id })),
    profileCovers: z.array(profileCoverData.extend({ id, name: z.string() })),
    boards: z.array(z.string()).describe('materials of front and backing'),
    finishes: z.array(z.string()).describe('finishes of the faces of the cavity'),
    slotCovers: z.array(z.string()).describe('covers of a slot'),
  })
  .meta({ id: 'Catalogue', title: 'Catalogue' });
