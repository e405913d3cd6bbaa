import * as z from 'zod';
import { line } from './quantity.ts';

/** Title block fields after ISO 7200. */
export const title = z.strictObject({
  job: line('Job name', 60),
  client: line('Client', 60),
  place: line('Place', 60),
  maker: line('Maker', 60),
  drawnBy: line('Drawn by', 40),
  documentNumber: line('Document number', 30),
  revision: line('Revision', 6),
  date: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, {
      error: 'Date must be written year-month-day, such as 2026-03-31, or left empty.',
    })
    .meta({ title: 'Date' }),
});
