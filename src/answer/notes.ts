import * as z from 'zod';
import { text } from './values.ts';

/** What has to stand beside the numbers of a sheet. */
export const note = z.strictObject({
  sheet: z.enum(['section', 'drivers']).describe('the sheet it belongs to'),
  onCover: z.boolean().describe('whether it stands on the cover as well, because numbers do not hold'),
  sentence: text,
});

export type Note = z.infer<typeof note>;
