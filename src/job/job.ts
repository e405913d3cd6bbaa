import * as z from 'zod';
import { cables } from './cables.ts';
import { dimming } from './dimming.ts';
import { drivers } from './drivers.ts';
import { feeds } from './feeds.ts';
import { hung } from './hung.ts';
import { lifeTest } from './life-test.ts';
import { light } from './light.ts';
import { openings } from './opening.ts';
import { ownProduct } from './own-product.ts';
import { panels } from './panels.ts';
import { prices } from './prices.ts';
import { choice, line, quantity } from './quantity.ts';
import { section } from './section.ts';
import { site } from './site.ts';
import { slots } from './slots.ts';
import { stripData } from './strip.ts';
import { title } from './title.ts';

/** Name and version every job document carries, so that a file from another program or a later version is told apart. */
export const jobFormat = { name: 'slotwatt-job', version: 2 } as const;

const panel = z.strictObject({
  width_mm: quantity({
    label: 'Panel width',
    unit: 'mm',
    min: 50,
    max: 30000,
    why: 'from a shelf edge to a wall of 30 m',
  }),
  height_mm: quantity({
    label: 'Panel height',
    unit: 'mm',
    min: 50,
    max: 8000,
    why: 'from a shelf edge to a hall of 8 m',
  }),
});

/** A catalogue entry by its id, with whatever the real data sheet says otherwise. */
const strip = z.strictObject({
  entry: line('Strip from the catalogue', 60),
  data: stripData.partial(),
  anchor: choice('Strip along the slot', ['middle', 'start', 'finish']),
  /** Given instead of the temperature that is worked out. */
  strip_degC: quantity({
    label: 'Temperature of the strip, given',
    unit: '°C',
    min: -10,
    max: 120,
    why: 'measured on the strip in use; left out, it is worked out',
  })
    .nullable()
    .default(null),
  /** Offcuts in stock, which cost nothing. */
  offcuts_mm: z
    .array(
      quantity({
        label: 'Offcut of the strip in stock',
        unit: 'mm',
        min: 10,
        max: 100000,
        why: 'what is left of reels, up to whole ones',
      }),
    )
    .max(60, { error: 'A job takes at most 60 offcuts from stock.' })
    .default([]),
  lifeTests: z.array(lifeTest).max(3, { error: 'A job holds at most three life tests.' }),
});

/**
 * The one document that describes the piece and every choice; everything else is computed from it. Strict:
 * an unknown key is an error, so that a slip of the pen never vanishes silently.
 */
export const job = z.strictObject({
  format: z.strictObject({
    name: z.literal(jobFormat.name, {
      error: 'This is not a Slotwatt job: format.name must be "slotwatt-job".',
    }),
    version: z.literal(jobFormat.version, { error: `format.version must be ${jobFormat.version}.` }),
  }),
  title,
  /** The whole wall, unfolded; where panels are listed, as large as they are together. */
  panel,
  panels,
  openings,
  slots,
  section,
  strip,
  feeds,
  cables,
  drivers,
  dimming,
  light,
  hung,
  site,
  prices,
  /** Copies of the workshop's own products that the job uses, so that it opens anywhere with the same meaning. */
  products: z.array(ownProduct).max(40, { error: 'A job carries at most 40 own products.' }).default([]),
});

export type Job = z.infer<typeof job>;

export type { DriverPlace } from './driver-place.ts';
export type { Arrangement } from './feeds.ts';

/** The job document as JSON Schema (draft 2020-12), with labels, units and the reason of every bound. */
export function jobJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(job, { io: 'input' }) as Record<string, unknown>;
}
