import * as z from 'zod';
import { ids, num, text } from './values.ts';

export const conductors = z.enum(['both', 'positive', 'return']);

const point = z.strictObject({ x_mm: num, y_mm: num });

const cableEnd = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('output'), id: text.describe('of the driver output') }),
    z.strictObject({
      kind: z.literal('dimmer'),
      id: text.describe('of the dimmer'),
      side: z.enum(['in', 'out']).describe('fed by the driver, or feeding the strips'),
    }),
    z.strictObject({
      kind: z.literal('block'),
      id: text.describe('of the distribution block'),
      way: num.nullable().describe('number of its way, from 1; null where the block is fed'),
    }),
    z.strictObject({ kind: z.literal('tap'), id: text.describe('of the tap on a trunk or a ring') }),
    z.strictObject({
      kind: z.literal('pad'),
      run: text,
      cutLine: num,
      feedPoint: text.nullable().describe('null where the cable leaves a run for the next'),
    }),
  ])
  .describe('what an end of a cable is made off to');

export const surroundings = ['place', 'remote', 'riser', 'way', 'panel', 'slot'] as const;

const stretch = z
  .strictObject({
    in: z
      .enum(surroundings)
      .describe(
        'place: inside a driver place; remote: between a remote place and the panel; riser: from a place to the way; way: along the head or foot run; panel: from the way to a slot; slot: beside the strip of a run',
      ),
    from: point,
    to: point,
    length_mm: num.describe('longer than from end to end where it goes round an inner corner of the wall'),
    togetherCount: num.describe('circuits that lie side by side there, this one included'),
    air_degC: num.describe('of what is round the cable there'),
  })
  .describe('a straight stretch of the way of a cable');

const leg = z
  .strictObject({
    id: text,
    from: cableEnd,
    to: cableEnd,
    serves: ids.describe('feed points that draw through this part'),
    way_mm: num,
    length_mm: num.describe('its part of the cut length'),
    current_A: num,
    cores_A: z
      .array(num)
      .describe(
        'of each core in its order: plus counted from its first end to its last, a minus from its last end home; negative the other way about',
      ),
    drop_V: num.describe('out and home'),
    loss_W: num,
    contacts_W: num.describe('of it in contacts at pads, taps and blocks; a fuse and a dimmer are none'),
    loop_ohm: num.describe('both conductors at 20 degC'),
  })
  .describe('part of a cable between two things it is connected to; a cable without taps is one');

const core = z
  .strictObject({
    number: num.describe('counted from 1'),
    mark: text.describe('colour or number to mark it with'),
    rail: z.enum(['plus', 'minus']),
    channel: text.nullable().describe('whose return it is; null for plus and for a strip of one channel'),
    from: text.describe('terminal it is made off to'),
    to: text,
    current_A: num,
  })
  .describe('one conductor of a cable');

/** The cables: from where to where, which way, core by core, what they carry and what protects them. */
export const cable = z.strictObject({
  id: text,
  kind: z
    .enum(['link', 'feed', 'trunk', 'branch', 'run to run'])
    .describe(
      'link: between devices of one place; feed: to a run; trunk: past taps, uncut; branch: from a tap to a run',
    ),
  name: text,
  output: text.describe('driver output it hangs on'),
  from: cableEnd,
  to: cableEnd,
  conductors,
  serves: ids.describe('feed points that draw through this cable'),
  legs: z.array(leg),
  cores: z.array(core),
  soldCoreCount: num
    .nullable()
    .describe('cores of the cable as bought; null where it is not sold with so many'),
  spareCoreCount: num.describe('cores of the cable as bought that nothing is connected to'),
  stretches: z.array(stretch).describe('of its way, one after the other'),
  panels: ids.describe(
    'marks of the panels it passes or ends in, from left to right; empty in a wall without panels',
  ),
  route: z.array(point),
  way_mm: num.describe('along its stretches'),
  tails_mm: num.describe('at its two ends together, to be made off'),
  length_mm: num.describe('to be cut: way and tails, with the allowance'),
  conductorCount: num,
  area_mm2: num,
  outer_mm: num.describe('outside diameter as bought, spare cores included'),
  current_A: num.describe('in its busiest leg'),
  design_A: num.describe('in its busiest leg, should any other leg, run or feed of the same output be dead'),
  drop_V: num.describe('out and home, from its first end to where its volts are lowest; amid a ring'),
  loss_W: num,
  contacts_W: num.describe('of it in contacts at pads, taps and blocks'),
  capacity_A: num.describe('after the factors of the worst stretch'),
  rating: z
    .strictObject({
      table_A: num.describe('of the table for its size, or the next below, in air of 30 degC'),
      ambientFactor: num,
      groupingFactor: num,
      sizeFactor: num.describe('1; less for a conductor thinner than any in the table'),
    })
    .describe('what that is the product of; a table value of 0 where it may carry nothing there'),
  worstStretch: num.describe('index of the stretch that decides it'),
  capacityNote: text.nullable().describe('where that goes beyond the tables it rests on'),
  fuse: text.nullable().describe('of the fuse that protects it'),
  fuse_A: num.nullable(),
  fuseOpens: z
    .boolean()
    .describe('the rated current of the driver is enough to open the fuse; false without one'),
  protectedBy: z.enum(['fuse', 'driver', 'nothing']),
  farShort_A: num.describe('current of a short at the far end of what this cable feeds'),
  farShortNoticed: z.boolean().describe('the fuse opens or the driver reaches its limit'),
  loop_ohm: num.describe('both conductors at 20 degC, from end to end'),
});

export type CableEnd = z.infer<typeof cableEnd>;
export type Stretch = z.infer<typeof stretch>;
export type Leg = z.infer<typeof leg>;
export type Core = z.infer<typeof core>;
export type Cable = z.infer<typeof cable>;
