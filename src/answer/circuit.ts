import * as z from 'zod';
import { num, range, text } from './values.ts';

const circuitBand = z.strictObject({
  lowest_V: range,
  drop: range,
  fall: range,
  unit_V_least: z.array(num),
  unit_V_greatest: z.array(num),
  unit_light_least: z.array(num),
  unit_light_greatest: z.array(num),
});

const pad = z
  .strictObject({
    cutLine: num.describe('0 at the start, the unit count at the finish'),
    plus_V: num,
    minus_V: z.array(num).describe('of each channel of the strip'),
  })
  .describe('potentials where a cable lands on a run or leaves it, over the minus of its driver output');

const circuitRun = z.strictObject({
  run: text,
  driver: text,
  output: text,
  feed_A: z.array(z.strictObject({ feedPoint: text, current_A: num, terminal_V: num })),
  pads: z.array(pad).describe('in the order of their cut lines'),
  unit_V: z.array(num).describe('across each cut unit of the worst channel, from the start'),
  unit_A: z
    .array(num)
    .describe('drawn by each cut unit, all channels together, averaged over the pulses of a dimmer'),
  unit_light: z
    .array(num)
    .describe(
      'of all channels together, relative to all at nominal volts at the same levels: without any dimming',
    ),
  channels: z
    .array(
      z.strictObject({ name: text, unit_V: z.array(num), unit_A: z.array(num), unit_light: z.array(num) }),
    )
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
  strip_degC: num.describe(
    'temperature of the strip that volts and watts are worked out at, or that the job gives',
  ),
  band: circuitBand.nullable().describe('over every combination of tolerances; null in a quick answer'),
});

/** Volts, amps and watts of every run, and whether they add up. */
export const circuit = z.strictObject({
  runs: z.array(circuitRun),
  level: z
    .enum(['full', 'working', 'mix'])
    .describe(
      'at which volts, amps and watts stand: full, in a pulse too; working under a steady limit; the worst mix under a limit of the mix',
    ),
  stripTemperature: z.enum(['worked out', 'given']).describe('where the temperature of the strip is from'),
  supply_W: num.describe('what the drivers deliver at that level'),
  average_W: num.describe('the same on average over the pulses, where the dimmer is limited'),
  lamps_W: num,
  stripCopper_W: num.describe('in strip rails and joints'),
  cable_W: num.describe('in cables and their terminals'),
  dimmer_W: num.describe('in dimmers, and taken by them for themselves; 0 without'),
  unaccounted_A: num.describe('current unaccounted for at the worst node'),
  imbalance_W: num.describe('driver watts less LED, copper and dimmer watts'),
  iterationCount: num,
  tolerances: text.describe('what the bands are taken over; empty in a quick answer'),
});

export type CircuitRun = z.infer<typeof circuitRun>;
export type CircuitAnswer = z.infer<typeof circuit>;
