import * as z from 'zod';

/** Says that the service answers, and with which engine. */
export const health = z
  .strictObject({ status: z.literal('up'), engine: z.string().describe('version of the engine') })
  .meta({ id: 'Health', title: 'Health' });
