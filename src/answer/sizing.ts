import * as z from 'zod';
import { cableData } from '../job/cable.ts';
import { driverData } from '../job/driver.ts';
import { stripData } from '../job/strip.ts';
import { brightnessWords } from './brightness.ts';

/**
 * What comes out of a job: one schema, from which the types of the engine and the response schema of the service
 * are both made. Names carry units; ratios run 0 to 1; coordinates are measured from the panel's lower left
 * corner. Numbers are unrounded: the page and the papers round them for the reader.
 */
const num = z.number();
const text = z.string();
const ids = z.array(text);

export const place = z.strictObject({
  slot: text.optional(),
  run: text.optional(),
  driver: text.optional(),
  cable: text.optional(),
  feedPoint: text.optional(),
  field: text.optional().describe('path into the job document'),
});

const entry = text.describe('the catalogue entry the job names');

/** What was calculated with: catalogue entries as they were, with the job's own figures laid over them. */
const products = z.strictObject({
  strip: stripData.extend({ id: entry }),
  driver: driverData.extend({ id: entry }),
  cable: cableData.extend({ id: entry }),
});

const slotLine = z.strictObject({
  id: text,
  number: num.describe(
    'its place in the list of the job, from 1, by which zones and feed exceptions name it',
  ),
  x0_mm: num,
  y0_mm: num,
  x1_mm: num,
  y1_mm: num,
  length_mm: num,
  width_mm: num,
});

const piece = z.strictObject({ id: text, run: text, unitCount: num, length_mm: num, reel: text });

const conductors = z.enum(['both', 'positive', 'return']);

const feedPoint = z.strictObject({
  id: text,
  run: text,
  cutLine: num.describe('0 at the start, the unit count at the finish'),
  conductors,
  at: z.enum(['start', 'finish', 'between']),
  x_mm: num,
  y_mm: num,
});

const run = z.strictObject({
  id: text,
  slot: text,
  zone: text.nullable().describe('name of the zone it is dimmed in; null for none'),
  unitCount: num,
  strip_mm: num,
  darkStart_mm: num,
  darkFinish_mm: num,
  x0_mm: num.describe('where the strip starts'),
  y0_mm: num,
  x1_mm: num,
  y1_mm: num,
  pieces: z.array(piece),
  jointLines: z.array(num).describe('cut lines where two pieces are joined'),
  feedPoints: z.array(feedPoint),
});

const reel = z.strictObject({ id: text, length_mm: num, pieces: ids, used_mm: num, left_mm: num });

const neighbour = z.strictObject({
  slot: text,
  beside: text.describe('the next slot, square across'),
  side: z.enum(['left', 'right']).describe('of the slot, seen from its start to its finish'),
  from_mm: num.describe('along the slot from its start'),
  to_mm: num,
  fromDistance_mm: num.describe(
    'square across from centre line to centre line, at the beginning of the stretch',
  ),
  toDistance_mm: num.describe('the same at its end'),
});

export const setOut = z.strictObject({
  slots: z
    .array(slotLine)
    .describe('in the order one meets them along the wall, whichever way they were listed'),
  neighbours: z
    .array(neighbour)
    .describe('who lies beside whom: every stretch of every slot, seen from both'),
  runs: z.array(run).describe('in the order of the slots'),
  reels: z.array(reel),
  reelMethod: text.describe('how the reels were found and what that is worth'),
  strip_m: num,
  jointCount: num,
});

const point = z.strictObject({ x_mm: num, y_mm: num });

const cableEnd = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('output'), id: text.describe('of the driver output') }),
    z.strictObject({ kind: z.literal('tap'), id: text.describe('of the tap on a trunk or a ring') }),
    z.strictObject({
      kind: z.literal('pad'),
      run: text,
      cutLine: num,
      feedPoint: text.nullable().describe('null where the cable leaves a run for the next'),
    }),
  ])
  .describe('what an end of a cable is made off to');

export const cable = z.strictObject({
  id: text,
  name: text,
  from: cableEnd,
  to: cableEnd,
  conductors,
  serves: ids.describe('feed points that draw through this cable'),
  route: z.array(point),
  way_mm: num.describe('along the cable way'),
  length_mm: num.describe('with tails and allowance'),
  conductorCount: num,
  current_A: num,
  drop_V: num,
  loss_W: num,
  capacity_A: num.describe('after ambient and grouping factors'),
  fuse_A: num.nullable(),
  fuseOpens: z
    .boolean()
    .describe('the rated current of the driver is enough to open the fuse; false without one'),
  protectedBy: z.enum(['fuse', 'driver', 'nothing']),
  farShort_A: num.describe('current of a short at the far end of what this cable feeds'),
  farShortNoticed: z.boolean().describe('the fuse opens or the driver reaches its limit'),
  loop_ohm: num.describe('both conductors at 20 degC'),
});

const range = z.strictObject({ least: num, greatest: num });

const circuitBand = z.strictObject({
  lowest_V: range,
  drop: range,
  fall: range,
  unit_V_least: z.array(num),
  unit_V_greatest: z.array(num),
  unit_light_least: z.array(num),
  unit_light_greatest: z.array(num),
});

const circuitRun = z.strictObject({
  run: text,
  driver: text,
  output: text,
  feed_A: z.array(z.strictObject({ feedPoint: text, current_A: num, terminal_V: num })),
  unit_V: z.array(num).describe('across each cut unit of the worst channel, from the start'),
  unit_light: z
    .array(num)
    .describe(
      'of all channels together, relative to all at nominal volts at the same levels: without any dimming',
    ),
  channels: z
    .array(z.strictObject({ name: text, unit_V: z.array(num), unit_light: z.array(num) }))
    .describe('each channel by itself, where the strip has several; else empty'),
  lowest_V: num,
  lowestUnit: num,
  highest_V: num,
  drop_V: num.describe('from driver to the furthest unit'),
  drop: num.describe('the same as a ratio of the nominal voltage'),
  fall: num.describe('brightness drop-off along the run'),
  neighbour: num
    .nullable()
    .describe('largest difference of light to the neighbouring slot at the same height'),
  watts: num,
  copper_W: num,
  worst_W_per_m: num.describe('at the unit that draws most'),
  strip_degC: num.describe('temperature of the strip that volts and watts are worked out at'),
  band: circuitBand.nullable().describe('over every combination of tolerances; null in a quick answer'),
});

export const circuit = z.strictObject({
  runs: z.array(circuitRun),
  level: z
    .enum(['full', 'working'])
    .describe('at which volts, amps and watts stand: full, in a pulse too; working under a steady limit'),
  supply_W: num.describe('what the drivers deliver at that level'),
  average_W: num.describe('the same on average over the pulses, where the dimmer is limited'),
  lamps_W: num,
  stripCopper_W: num.describe('in strip rails and joints'),
  cable_W: num.describe('in cables and their terminals'),
  unaccounted_A: num.describe('current unaccounted for at the worst node'),
  imbalance_W: num.describe('driver watts less LED and copper watts'),
  iterationCount: num,
  tolerances: text.describe('what the bands are taken over; empty in a quick answer'),
});

const output = z.strictObject({
  id: text,
  runs: ids,
  watts: num,
  current_A: num,
  usable_W: num,
  load: num.describe('ratio of usable watts'),
  band_W: range.nullable().describe('over every combination of tolerances; null in a quick answer'),
});

const driver = z.strictObject({
  id: text,
  name: text,
  place: text,
  x_mm: num,
  y_mm: num,
  outputs: z.array(output),
  rated_W: num,
  derating: num.describe('for the air with everything at the watts delivered'),
  ambient_degC: num.describe('air at the average watts'),
  case_degC: num.describe('at the average watts'),
  lifeRatio: num.describe('life over what its maker states at tc, by the rule that 10 K halve it; at most 2'),
  watts: num.describe('delivered, in a pulse too'),
  average_W: num.describe('the same on average over the pulses, where the dimmer is limited'),
  input_W: num.describe('from the mains at those watts'),
  input_A: num,
  loss_W: num.describe('heat in the driver, on average'),
});

const placedCase = z.strictObject({
  driver: text,
  x_mm: num.describe("of its lower left corner, from the panel's"),
  y_mm: num,
  across_mm: num,
  up_mm: num,
  deep_mm: num,
});

const driverPlace = z.strictObject({
  name: text,
  driverCount: num,
  fits: z.boolean(),
  fitNote: text,
  cases: z.array(placedCase).describe('where each driver is to be fixed'),
  without: ids.describe('drivers for which there is no room in equal rows'),
  loss_W: num,
  air_degC: num,
});

export const drivers = z.strictObject({
  drivers: z.array(driver),
  places: z.array(driverPlace),
  method: text.describe('how loads were allocated and what that is worth'),
  lowerBoundCount: num.describe('no allocation can use fewer drivers than this'),
  input_W: num,
  input_A: num,
  breaker: z.strictObject({
    name: text,
    curve: z.enum(['B', 'C', 'D']),
    rating_A: num,
    input_A: num.describe('of one driver at full load'),
    peak_A: num.describe('the breaker surely rides through'),
    printed: num.nullable().describe('drivers on a B16 by the maker or, else, typical; it goes first'),
    isPrinted: z.boolean().describe('whether that number was entered from the sheet of the maker'),
    bySteady: num
      .nullable()
      .describe('drivers by their steady current; null where the printed number stands'),
    byInrush: num.nullable().describe('drivers by their inrush; null where the printed number stands'),
    mostDrivers: num,
    breakerCount: num,
    formula: text,
  }),
});

export const light = z.strictObject({
  luminance_cd_per_m2: num.describe('of what is seen, at nominal volts and the working levels'),
  seen: z
    .enum(['cover', 'back', 'back through the cover'])
    .describe('what the eye meets: a cover that spreads light, or what is behind the slot'),
  full_cd_per_m2: num.describe('the same at full'),
  lowest_cd_per_m2: num
    .nullable()
    .describe('the same with every channel at the lowest level; null where nothing is lit'),
  wanted_cd_per_m2: num.describe('at the working levels'),
  band: z.enum(brightnessWords).describe('how bright that is, at the working levels'),
  level: text.describe('the same in words'),
  levels: z.strictObject({
    full: z.literal(1),
    working: z
      .array(num)
      .describe('of each channel, ratios of full: what the wanted brightness is judged at'),
    lowest: num.nullable().describe('what the dimmer must reach'),
  }),
  neededLevels: z
    .array(num)
    .describe(
      'working levels that give the wanted brightness, as to be entered; empty where full is not enough',
    ),
  outFraction: num.describe('light that leaves the slot over light of the strip'),
  ripple: num.describe('Michelson contrast along the slot'),
  visibility: num.describe('ripple over the contrast threshold'),
  dotsSeen: z
    .enum(['hidden', 'faint', 'visible', 'plain'])
    .describe('whether the LEDs show as hot spots; plain where the LEDs themselves are seen'),
  dots: text.describe('the same in words'),
  neededFlux_lm_per_m: num.describe('that gives the wanted brightness at full'),
  needed_W_per_m: num.describe('the same, at the lumens per watt of the chosen strip'),
  balance: num.describe('light in less light out and absorbed, as a ratio'),
  colourHex: text,
  profile: z
    .array(z.strictObject({ along_mm: num, relative: num }))
    .describe('over two LED pitches on the slot'),
  threshold: num.describe('contrast the eye can just see here'),
  absorbed: z
    .strictObject({ back: num, sides: num, front: num, reveal: num, sheet: num })
    .describe('share of the strip light taken by each face'),
  bareLampsSeen: z.array(z.enum(['standing', 'sitting'])).describe('by whom the LEDs themselves are seen'),
});

const layer = z.strictObject({
  id: z.enum(['backing', 'cavity', 'front']),
  name: text,
  thickness_mm: num,
});

/** The section heat and light are asked of. */
const section = z.strictObject({
  pitch_mm: num.describe(
    'after which it repeats: the closest neighbours, square across; for a slot with none beside it the width of the panel, 1000 at most',
  ),
  layers: z.array(layer).describe('of the build-up, from the wall'),
  depth_mm: num,
  available_mm: num,
});

const temperature = z.strictObject({
  id: text,
  name: text,
  value_degC: num,
  low_degC: num,
  high_degC: num,
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
});

/** The field of the section: mesh lines and temperatures, for drawing isotherms. */
const field = z.strictObject({
  xs_mm: z.array(num).describe('from the middle of the slot across'),
  ys_mm: z.array(num).describe('from the room face inwards'),
  temperature_degC: z.array(num.nullable()).describe('row by row along x; null where there is no material'),
  half: z.boolean().describe('the other half is the mirror image'),
  meshes: z.array(z.strictObject({ nodeCount: num, stripPeak_degC: num, moved_K: num.nullable() })),
});

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
  field: field.nullable(),
});

export const statuses = ['fails', 'watch', 'passes', 'note'] as const;

const remedy = z.strictObject({
  sentence: text.describe('one thing to change'),
  field: text
    .nullable()
    .describe('path into the job document of what it changes; null where nothing in it does'),
});

export const finding = z.strictObject({
  id: text,
  question: z.enum(['set-out', 'circuit', 'drivers', 'heat', 'light', 'cables', 'depth']),
  status: z.enum(statuses),
  place,
  title: text,
  value: num.nullable(),
  limit: num.nullable(),
  margin: num.nullable().describe('positive while there is room'),
  unit: text,
  basis: text.describe('what the limit rests on'),
  sentence: text.describe('what it means'),
  remedies: z.array(remedy).describe('what to change, the best first; empty where nothing is asked for'),
});

export const condition = z.strictObject({
  id: z.enum(['dimmer-limit']),
  holds: z.enum(['heat', 'everything']).describe('what holds only under it'),
  levels: z
    .array(num)
    .describe('of each channel, which the dimmer must be unable to go above; ratios of full'),
  sentence: text.describe('what has to be so, and who sees to it'),
  short: text.describe('the same in a few words, to stand after "this holds"'),
});

/** What has to stand beside the numbers of a sheet. */
const note = z.strictObject({
  sheet: z.enum(['section', 'drivers']).describe('the sheet it belongs to'),
  onCover: z.boolean().describe('whether it stands on the cover as well, because numbers do not hold'),
  sentence: text,
});

export const caution = z.strictObject({ id: text, sentence: text, basis: text, because: text });

const cell = z.union([z.string(), z.number(), z.null()]);

export const schedule = z.strictObject({
  id: z.enum([
    'drivers',
    'cables',
    'feed-points',
    'cutting-list',
    'reels',
    'bill',
    'test-sheet',
    'protection',
  ]),
  title: text,
  columns: z.array(
    z.strictObject({
      key: text,
      label: text,
      unit: text,
      digits: num.describe('decimals to show; the row holds the unrounded number'),
    }),
  ),
  rows: z.array(z.array(cell)),
  notes: z.array(text).describe('what the figures in it rest on, to be printed with it'),
});

/** The whole answer to one job. */
export const sizing = z.strictObject({
  engine: text,
  accuracy: z
    .enum(['quick', 'careful'])
    .describe('careful: heat from the field, tolerances in every combination'),
  products,
  set_V: num.describe('volts the drivers are set to'),
  section,
  setOut,
  cables: z.array(cable),
  circuit,
  drivers,
  light,
  heat,
  conditions: z
    .array(condition)
    .describe('what has to be so for the figures to hold; empty for a job sized for full'),
  findings: z.array(finding),
  cautions: z.array(caution),
  schedules: z.array(schedule),
  notes: z.array(note),
});

export type Section = z.infer<typeof section>;
export type CableEnd = z.infer<typeof cableEnd>;
export type PlacedCase = z.infer<typeof placedCase>;
export type SetOut = z.infer<typeof setOut>;
export type SlotLine = z.infer<typeof slotLine>;
export type Neighbour = z.infer<typeof neighbour>;
export type Run = z.infer<typeof run>;
export type Piece = z.infer<typeof piece>;
export type Reel = z.infer<typeof reel>;
export type FeedPoint = z.infer<typeof feedPoint>;
export type Cable = z.infer<typeof cable>;
export type CircuitRun = z.infer<typeof circuitRun>;
export type CircuitAnswer = z.infer<typeof circuit>;
export type Driver = z.infer<typeof driver>;
export type DriverOutput = z.infer<typeof output>;
export type DriversAnswer = z.infer<typeof drivers>;
export type LightAnswer = z.infer<typeof light>;
export type HeatAnswer = z.infer<typeof heat>;
export type Finding = z.infer<typeof finding>;
export type Remedy = z.infer<typeof remedy>;
export type FindingStatus = (typeof statuses)[number];
export type Condition = z.infer<typeof condition>;
export type Note = z.infer<typeof note>;
export type Caution = z.infer<typeof caution>;
export type Schedule = z.infer<typeof schedule>;
export type ScheduleCell = z.infer<typeof cell>;
export type Sizing = z.infer<typeof sizing>;
