import * as z from 'zod';
import { num, range, text } from './values.ts';

const temperature = z.strictObject({
  id: text,
  name: text,
  value_degC: num,
  low_degC: num,
  high_degC: num,
  power: num.describe(
    'the rise over the room goes with this power of the watts of the strip, near those of the job',
  ),
  limit_degC: num
    .nullable()
    .describe(
      'the one that decides: the lowest passed that says no, else the lowest passed, else the lowest',
    ),
  limits: z
    .array(
      z.strictObject({
        id: text,
        limit_degC: num,
        beyond: z.enum(['caution', 'refuse', 'breach']),
        basis: text,
        remedy: text
          .nullable()
          .describe('what helps against this limit alone; what cools stands in a finding'),
      }),
    )
    .describe('the deciding one first, the others from the lowest'),
  x_mm: num.nullable().describe('where it is, from the middle of the slot; null where it is not one place'),
  y_mm: num.nullable().describe('where it is, from the room face inwards'),
  slotWidth_mm: num
    .optional()
    .describe('where slots have several widths: of those it is warmest beside; x and y are in their section'),
});

/** The field of the section: mesh lines and temperatures, for drawing isotherms. */
const field = z.strictObject({
  xs_mm: z.array(num).describe('from the middle of the slot across'),
  ys_mm: z.array(num).describe('from the room face inwards'),
  temperature_degC: z.array(num.nullable()).describe('row by row along x; null where there is no material'),
  half: z.boolean().describe('the other half is the mirror image'),
  meshes: z.array(z.strictObject({ nodeCount: num, stripPeak_degC: num, moved_K: num.nullable() })),
});

/** How warm the section gets, and where the watts go. */
export const heat = z.strictObject({
  method: text,
  validity: text,
  unknown: text
    .nullable()
    .describe('why the temperatures do not hold for this job, and what to do; null where they hold'),
  strip_W_per_m: num.describe('electrical, at the worst place'),
  stripBand_W_per_m: range.describe(
    'the same over the tolerances of the circuit, the strip as warm as they make it',
  ),
  heat_W_per_m: num.describe('left in the build-up'),
  temperatures: z.array(temperature),
  paths: z.array(z.strictObject({ name: text, watts_per_m: num })),
  balance: num.describe('watts in less watts out, as a ratio'),
  life: z
    .strictObject({ hours: num.nullable(), atLeast: z.boolean(), sentence: text })
    .describe('until 0.7 of the light is left; no number without a life test of the LEDs'),
  upperEnd_K: num.describe('allowance for stratification: the warmer upper end of a tall closed cavity'),
  profile: z
    .strictObject({
      mean_degC: num.describe('of base and walls'),
      coverInside_degC: num.nullable().describe('mean of the cover’s inner face; null without a cover'),
      coverOutside_degC: num.nullable(),
      air_degC: num.describe('between the walls'),
      contact_W_per_m: num.describe('heat from the profile into the timber it touches'),
      airMoves: z
        .boolean()
        .describe('the air under the cover is no longer still: the cover is warmer than calculated'),
    })
    .nullable()
    .describe('means, without the allowance for the upper end; null where the strip lies in no profile'),
  field: field.nullable(),
});

export type HeatAnswer = z.infer<typeof heat>;
