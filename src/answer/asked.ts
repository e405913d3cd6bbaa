import * as z from 'zod';
import { layouts } from '../job/cables.ts';
import { driverData } from '../job/driver.ts';
import { stripChannel, stripData } from '../job/strip.ts';
import { place } from './findings.ts';
import { num, overRange, text } from './values.ts';

/**
 * Answers to the questions asked the other way round: how long, how thick, how deep, how little, what a data sheet
 * leaves out, and what the meters of the electrician say. Like the answer to a job, one schema gives the types of
 * the engine and the responses of the service.
 */

const feed = z
  .strictObject({
    kind: z.enum(['start', 'finish', 'both', 'crossed', 'between', 'ends-and-between']),
    feedCount: num.describe('all feed points together'),
  })
  .describe('how the run is fed');

const reach = z.strictObject({
  arrangement: text.describe('in words'),
  feed,
  byDrop_m: num.nullable().describe('longest run within the drop limit; null where one unit is too long'),
  byFall_m: num.nullable().describe('longest run within the limit of brightness drop-off'),
});

const size = z.strictObject({
  entry: text.describe('of the list of cables'),
  name: text,
  drop: num,
  enough: z.boolean(),
});

export const askedCircuit = z.strictObject({
  run: text.describe('the run with the largest drop, whose cable and strip the questions are asked of'),
  run_m: num,
  lead_m: num.describe('of the cable to a feed point of it, or of its last part behind a tap'),
  longest: z.array(reach),
  sizes: z
    .array(size)
    .describe('drop of the worst run with every cable of this size, links in a place as they are'),
  leastSize: text.nullable().describe('entry of the thinnest that is enough'),
  feeds: z.array(
    z.strictObject({ feedCount: num, arrangement: text, feed, drop: num, fall: num, enough: z.boolean() }),
  ),
  leastFeedCount: num.nullable(),
  middle: z.strictObject({ set_V: num, lowest: num, highest: num }).nullable(),
  remarks: z.array(text),
});

const sweepPoint = z.strictObject({
  cavity_mm: num,
  strip_W_per_m: num,
  solder_degC: num,
  timber_degC: num,
  solderHigh_degC: num.describe('solder point at the warm end of its band'),
  margin_K: num.describe('to the first limit that binds, at the warm end of the band'),
  passes: z.boolean(),
});

export const askedHeat = z.strictObject({
  byDepth: z.array(sweepPoint),
  passing_mm: z
    .array(z.strictObject({ from_mm: num, to_mm: num }))
    .describe('depths that pass; empty for none'),
  gaps: z
    .array(z.strictObject({ cavity_mm: num, reason: text }))
    .describe('depths looked at that cannot be built'),
  byPower: z.array(sweepPoint),
  highest_W_per_m: num
    .nullable()
    .describe('electrical, drawn where the strip draws most; null where nothing passes'),
  highestNominal_W_per_m: num
    .nullable()
    .describe(
      'on the data sheet of the strip; null where not bounded, or where the wall is refused with such a strip',
    ),
  highestIsBounded: z.boolean(),
  variants: z.array(
    z.strictObject({
      key: z.enum([
        'with-carrier',
        'without-carrier',
        'slot-closed',
        'slot-open',
        'with-profile',
        'without-profile',
      ]),
      name: text.describe('in words'),
      carrier: z
        .strictObject({ width_mm: num, thickness_mm: num })
        .nullable()
        .describe('under the strip; null for none'),
      cover_mm: num.nullable().describe('thickness of the sheet over the slot; null for none'),
      profile: text
        .nullable()
        .describe('entry of the list for the profile the strip lies in, with an opal cover; null for none'),
      solder_degC: num,
      timber_degC: num,
      change_K: num,
      passes: z.boolean(),
    }),
  ),
  room_degC: num,
});

export const askedLight = z.strictObject({
  needed: z
    .strictObject({
      flux_lm_per_m: num,
      watts_per_m: num,
      level: num.describe(
        'working level, of full, at which the chosen strip does; above 1 where full is not enough',
      ),
    })
    .describe('a strip that gives the wanted brightness at full'),
  given: z
    .strictObject({ seen_cd_per_m2: num, flux_lm_per_m: num, watts_per_m: num })
    .describe('the chosen strip at full, at the dimmest cut unit'),
  saving: z.strictObject({ watts: num, drivers_W: num, kelvins: num }).describe('both strips at full'),
  strips: z.array(
    z.strictObject({
      id: text,
      name: text,
      enough: z.boolean(),
      level: num.describe('working level, of full, that gives the wanted brightness'),
      watts_per_m: num.describe('drawn at that level, on average'),
      fullWatts_per_m: num,
    }),
  ),
  leastDepth_mm: num.nullable().describe('cavity that hides the LEDs'),
  leastLampsPerMetre: num.nullable(),
  remarks: z.array(text),
});

const model = z.strictObject({
  entry: text.describe('of the list of drivers'),
  control: driverData.shape.control
    .nullable()
    .describe('how it is taken to dim itself; null for as its entry says'),
});

export const askedDrivers = z.strictObject({
  rows: z.array(
    z.strictObject({
      kind: z.enum(['as it is', 'one model', 'mix']),
      models: z.array(model).describe('of a mix only those it takes; the first is the driver of the job'),
      name: text.describe('in words'),
      driverCount: num.nullable().describe('null where the job is refused with them, here and below'),
      price_cents: num.nullable().describe('of the drivers; null also where not every model has a price'),
      load: num.nullable().describe('of the output that is loaded most, ratio of usable watts'),
      input_W: num.nullable().describe('from the mains'),
      passes: z
        .boolean()
        .describe('no check on drivers fails, nor any other that does not fail as the job is'),
      why: text.nullable().describe('why not; null where it passes'),
      isProved: z
        .boolean()
        .describe('whether nothing cheaper, or without prices no fewer of these, would do'),
    }),
  ),
  remarks: z.array(text),
});

export const askedLayouts = z.strictObject({
  rows: z.array(
    z.strictObject({
      zone: text.nullable().describe('id of the zone that is laid so; null for the wall'),
      zoneName: text.nullable(),
      layout: z.enum(layouts),
      isJobs: z.boolean().describe('whether it is laid so now'),
      cable_m: num.nullable().describe('of all cables, as cut; null where the job is refused with it'),
      drop: num.nullable().describe('worst of the wall'),
      passes: z
        .boolean()
        .describe('no check on cables and volts fails, nor any other that does not fail as the job is'),
      why: text.nullable().describe('why not; null where it passes'),
    }),
  ),
  remarks: z.array(text),
});

const fittedRail = z.strictObject({
  rail_mohm_per_m: num.describe('each rail at 20 °C, to three figures'),
  taken: z.boolean().describe('whether it is the one in data'),
  drop: z
    .strictObject({ ratio: num.describe('over nominal volts'), asked_V: num, reached_V: num })
    .nullable()
    .describe('drop asked for, and drop of the run solved again with this rail; null for copper'),
  widthOf2oz_mm: num.describe('width a rail of 2 oz copper would have'),
});

export const askedStrip = z.strictObject({
  data: stripData
    .pick({
      nominal_V: true,
      law: true,
      dropout_V: true,
      unitsPerMetre: true,
      lampsPerMetre: true,
      railPositive_mohm_per_m: true,
      railReturn_mohm_per_m: true,
      longestRun_mm: true,
    })
    .partial({ dropout_V: true, longestRun_mm: true })
    .describe('to be put over strip.data of a job'),
  channel: stripChannel
    .pick({ watts_per_m: true, lampsInSeries: true, lampForward_V: true })
    .describe('to be put over the one channel of strip.data.channels'),
  rails: z.array(fittedRail).describe('of a longest run whose drop is not known: one for each usual drop'),
  basis: z.array(
    z.strictObject({
      field: text.nullable().describe('of the job document; null where it has none'),
      from: z.enum(['data sheet', 'worked out', 'usual value', 'fitted']),
      sentence: text,
    }),
  ),
  remarks: z.array(text),
});

export type AskedFeed = z.infer<typeof feed>;
export type AskedVariant = AskedHeat['variants'][number];
export type AskedCircuit = z.infer<typeof askedCircuit>;
export type AskedHeat = z.infer<typeof askedHeat>;
export type AskedLight = z.infer<typeof askedLight>;
export type AskedDrivers = z.infer<typeof askedDrivers>;
export type AskedLayouts = z.infer<typeof askedLayouts>;
export type AskedStrip = z.infer<typeof askedStrip>;

const measured = (unit: string) =>
  num.nullable().optional().describe(`in ${unit}; null or left out where not measured`);

/** What was written into one row of the test sheet. */
export const writtenRow = z.strictObject({
  row: text.describe('reference of the row, from the first column of the test sheet'),
  loop_ohm: z
    .union([num, overRange])
    .nullable()
    .optional()
    .describe('in Ω; OL where the meter was beyond its range; null or left out where not measured'),
  noLoad_V: measured('V'),
  loaded_V: measured('V'),
  current_A: measured('A'),
});

const judgedReading = z.strictObject({
  row: text,
  quantity: z.enum(['loop', 'noLoad', 'loaded', 'current']).describe('Ω, V, V, A'),
  predicted: num,
  low: num,
  high: num,
  measured: z.union([num, overRange]).nullable(),
  judgement: z.enum(['not measured', 'in band', 'below band', 'above band', 'open circuit']),
});

const suspect = z.strictObject({
  kind: z.enum(['resistance', 'open circuit', 'missing run', 'unfed run', 'none']),
  name: text.describe('in words; the run for a run that draws nothing, empty for nothing wrong'),
  place,
  ohm: num.nullable().describe('extra resistance; null where there is none to name'),
  ohmSpread: num.nullable().describe('one standard deviation of the ohms'),
  posterior: num.describe('0 to 1: probability after the readings, among the explanations compared'),
});

export const judgedReadings = z.strictObject({
  rows: z.array(judgedReading).describe('every box of the test sheet, in its order'),
  verdict: z.enum(['as predicted', 'found', 'cannot tell']),
  sentence: text,
  suspects: z.array(suspect).describe('most likely first; one when found, none when as predicted'),
  readingCount: num,
  chiSquare: num.describe('weighted sum of squares of the best explanation'),
  goodFit: num.describe('what chance passes once in a thousand times'),
});

export type WrittenRow = z.infer<typeof writtenRow>;
export type JudgedReadings = z.infer<typeof judgedReadings>;
