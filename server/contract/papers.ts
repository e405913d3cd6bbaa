import * as z from 'zod';
import { accuracyQuery } from './questions.ts';

/** Size of the sheets. */
export const paperSize = z
  .enum(['A4', 'A3'], { error: 'paper must be A4 or A3.' })
  .default('A4')
  .meta({ title: 'Paper', description: 'A4 or A3, on the long side' });

/** Papers are worked out with care unless a quick look is asked for. */
export const paperQuery = accuracyQuery('careful').extend({ paper: paperSize });

const mm = z.number();

const segment = z.strictObject({
  ...{ x0_mm: mm, y0_mm: mm, x1_mm: mm, y1_mm: mm },
  width_mm: mm.optional().describe('its own, where slots have several widths'),
});

const ignored = z.strictObject({
  what: z.string().describe('kind of entity, or row of the table'),
  layer: z.string(),
  why: z.string(),
  count: z.int(),
});

const layer = z.strictObject({
  name: z.string(),
  lineCount: z.int(),
  polylineCount: z.int(),
  otherCount: z.int(),
});

/** Slots read from a drawing or a table, ready for `slots.segments` of a job, and all that was left out. */
export const slotsRead = z
  .strictObject({
    layer: z.string().nullable().describe('the layer read; null until one is chosen, and for a table'),
    layers: z.array(layer).describe('every layer with something on it'),
    unit: z.string().describe('unit of the drawing; everything in this answer is in mm'),
    segments: z.array(segment).describe("centre lines from the panel's lower left corner"),
    width_mm: mm.nullable().describe('width of the rectangles, where all have the same; else null'),
    ignored: z.array(ignored).describe('what did not become a slot, and why'),
    notes: z.array(z.string()).describe('what the maker should look at'),
  })
  .meta({ id: 'SlotsRead', title: 'Slots read from a drawing' });

/** How a DXF is to be read. */
export const dxfQuery = z.strictObject({
  layer: z.string().max(255).optional().describe('left out to learn which layers there are'),
  unit: z
    .enum(['mm', 'cm', 'dm', 'm', 'in', 'ft'], { error: 'unit must be mm, cm, dm, m, in or ft.' })
    .optional()
    .describe('taken only when the drawing does not say'),
  cornerX_mm: z.coerce
    .number({ error: 'cornerX_mm must be a number of millimetres.' })
    .default(0)
    .describe("where the panel's lower left corner is in the drawing"),
  cornerY_mm: z.coerce.number({ error: 'cornerY_mm must be a number of millimetres.' }).default(0),
});

export type SlotsRead = z.infer<typeof slotsRead>;

/** What the papers can print. */
export const printedCharacters = z
  .strictObject({
    ranges: z
      .array(z.tuple([z.int(), z.int()]))
      .describe('first and last code point of every stretch the embedded fonts have, ascending'),
  })
  .meta({ id: 'PrintedCharacters', title: 'Characters that the papers can print' });
