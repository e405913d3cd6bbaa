import * as z from 'zod';
import { caseKeys } from './cases.ts';
import { ids, num, range, text } from './values.ts';

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
  model: num.describe('of the models the job allows, from 0: its driver, then its further ones'),
  place: text,
  x_mm: num,
  y_mm: num,
  outputs: z.array(output),
  rated_W: num,
  derating: num.describe('for the air with everything at the watts delivered'),
  derated_degC: num.describe('that air'),
  ambient_degC: num.describe('air at the average watts'),
  case_degC: num.describe('at the average watts'),
  lifeRatio: num.describe('life over what its maker states at tc, by the rule that 10 K halve it; at most 2'),
  watts: num.describe('delivered, in a pulse too'),
  average_W: num.describe('the same on average over the pulses, where the dimmer is limited'),
  input_W: num.describe('from the mains at those watts'),
  input_A: num,
  loss_W: num.describe('heat in the driver, on average'),
});

const placedCase = z.strictObject({ driver: text, ...caseKeys });

const driverPlace = z.strictObject({
  name: text,
  driverCount: num,
  fits: z.boolean(),
  fitNote: text,
  cases: z.array(placedCase).describe('where each driver is to be fixed'),
  without: ids.describe('what there is no room for'),
  loss_W: num.describe('heat of all that stands there, on average'),
  air_degC: num,
});

const breakerLoad = z.strictObject({
  id: text,
  drivers: ids,
  input_A: num.describe('its drivers take, at the watts they deliver'),
  inrush_A: num.describe('peaks of its drivers added, as when all start at the same instant'),
  share: num.describe('of what it may start together, each driver taking one over the number of its model'),
});

const onBreaker = z.strictObject({
  model: num,
  name: text,
  input_A: num.describe('of one driver at full load'),
  printed: num.nullable().describe('drivers on a B16 by the maker or, else, typical; it goes first'),
  isPrinted: z.boolean().describe('whether that number was entered from the sheet of the maker'),
  bySteady: num.nullable().describe('drivers by their steady current; null where the printed number stands'),
  byInrush: num.nullable().describe('drivers by their inrush; null where the printed number stands'),
  mostDrivers: num,
  formula: text,
  isInrushPrinted: z
    .boolean()
    .describe('whether the inrush was entered from the sheet of the maker; else typical'),
});

/** Which driver carries what, where it stands, and what it takes from the mains. */
export const drivers = z.strictObject({
  drivers: z.array(driver),
  places: z.array(driverPlace),
  method: text.describe('how loads were allocated and what that is worth'),
  sharing: z
    .strictObject({
      driverCount: num,
      price_cents: num.nullable().describe('of the drivers; null where not every model has a price'),
      isProved: z
        .boolean()
        .describe('whether nothing is cheaper; without prices, whether nothing takes fewer drivers'),
      gap: num.describe(
        'part by which the price, or without prices the number, may be above the least; 0 where proved',
      ),
      leastPrice_cents: num.nullable().describe('no choice costs less'),
      leastCount: num.describe('without prices: no choice takes fewer drivers; else 0'),
      isSideBySide: z.boolean().describe('whether the runs of every driver lie side by side'),
      sideBySide: z
        .strictObject({ driverCount: num, price_cents: num.nullable() })
        .nullable()
        .describe('what it would take side by side where it is not; null where it is or cannot be'),
    })
    .describe('how good the choice of drivers is known to be'),
  lowerBoundCount: num.describe('no allocation can use fewer drivers than this'),
  input_W: num,
  input_A: num,
  standby_W: num
    .nullable()
    .describe(
      'from the mains with every light dimmed to nothing; null where the mains go off with the light',
    ),
  breaker: z.strictObject({
    name: text,
    curve: z.enum(['B', 'C', 'D']),
    rating_A: num,
    peak_A: num.describe('the breaker surely rides through'),
    models: z.array(onBreaker).describe('how many of each model in use one breaker may start together'),
    most: text.describe('the same in words'),
    loads: z
      .array(breakerLoad)
      .describe('breaker by breaker; none where not even one driver of some model may start on one'),
  }),
});

export type PlacedCase = z.infer<typeof placedCase>;
export type Driver = z.infer<typeof driver>;
export type OnBreaker = z.infer<typeof onBreaker>;
export type BreakerLoad = z.infer<typeof breakerLoad>;
export type DriverOutput = z.infer<typeof output>;
export type DriversAnswer = z.infer<typeof drivers>;
