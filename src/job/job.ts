import * as z from 'zod';
import { cableData } from './cable.ts';
import { driverData } from './driver.ts';
import { lifeTest } from './life-test.ts';
import { choice, count, line, quantity } from './quantity.ts';
import { section } from './section.ts';
import { mostSlots, slots } from './slots.ts';
import { stripData } from './strip.ts';

/** Name and version every job document carries, so that a file from another program or a later version is told apart. */
export const jobFormat = { name: 'slotwatt-job', version: 1 } as const;

/** Title block fields after ISO 7200. */
const title = z.strictObject({
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
  lifeTests: z.array(lifeTest).max(3, { error: 'A job holds at most three life tests.' }),
});

export const arrangements = ['start', 'finish', 'both', 'between', 'crossed'] as const;

const slotNumber = count({
  label: 'Slot number',
  min: 1,
  max: mostSlots,
  why: 'slots are numbered from 1, left to right or bottom to top',
});

const feedCount = count({
  label: 'Feed points between the ends',
  min: 1,
  max: 20,
  why: 'each is a joint somebody has to solder',
});

const feeds = z.strictObject({
  arrangement: choice('Feed arrangement', arrangements),
  betweenCount: feedCount,
  exceptions: z
    .array(
      z.strictObject({
        slot: slotNumber,
        arrangement: choice('Feed arrangement', arrangements),
        betweenCount: feedCount,
      }),
    )
    .max(mostSlots),
  terminal_mohm: quantity({
    label: 'Contact resistance of a terminal, per conductor',
    unit: 'mΩ',
    min: 0,
    max: 1000,
    why: 'a soldered pad is below 1 mΩ, a clip-on connector 5 to 50 mΩ',
  }),
  joint_mohm: quantity({
    label: 'Contact resistance of a strip joint, per rail',
    unit: 'mΩ',
    min: 0,
    max: 1000,
    why: 'a soldered joint is below 1 mΩ, a clip-on connector 5 to 50 mΩ',
  }),
});

/** One cable per feed point, a trunk with taps, a trunk that comes back, or from run to run. */
export const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;

const cables = z.strictObject({
  entry: line('Cable from the catalogue', 60),
  data: cableData.partial(),
  layout: choice('Cable layout', layouts),
  way: choice('Cable way', ['head', 'foot']),
  wayInset_mm: quantity({
    label: 'Cable way from the edge of the panel',
    unit: 'mm',
    min: 0,
    max: 2000,
    why: 'the way runs inside the panel, along its top or bottom',
  }),
  tail_mm: quantity({
    label: 'Tail at each end of a cable',
    unit: 'mm',
    min: 0,
    max: 5000,
    why: 'enough to reach the terminal and be made off',
  }),
  allowance: quantity({
    label: 'Length allowance',
    unit: '',
    min: 0,
    max: 0.5,
    why: 'a ratio, 0.1 for one tenth more than the way measured',
  }),
  cable_degC: quantity({
    label: 'Cable temperature',
    unit: '°C',
    min: -10,
    max: 90,
    why: 'the temperature its conductors reach in use; 40 °C is common inside a panel',
  }),
  grouped: count({
    label: 'Circuits bunched in one way',
    min: 1,
    max: 20,
    why: 'grouping factors are tabled to 20 circuits',
  }),
});

const driverPlace = z.strictObject({
  name: line('Driver place', 30),
  x_mm: quantity({
    label: 'Driver place from the left edge',
    unit: 'mm',
    min: -20000,
    max: 50000,
    why: 'measured from the lower left corner of the panel; may lie outside it',
  }),
  y_mm: quantity({
    label: 'Driver place from the bottom',
    unit: 'mm',
    min: -10000,
    max: 20000,
    why: 'measured from the lower left corner of the panel; may lie outside it',
  }),
  width_mm: quantity({
    label: 'Width of the driver place',
    unit: 'mm',
    min: 20,
    max: 5000,
    why: 'inside measure',
  }),
  height_mm: quantity({
    label: 'Height of the driver place',
    unit: 'mm',
    min: 20,
    max: 5000,
    why: 'inside measure',
  }),
  depth_mm: quantity({
    label: 'Depth of the driver place',
    unit: 'mm',
    min: 10,
    max: 2000,
    why: 'inside measure',
  }),
  vented: z.boolean({ error: 'Vented must be true or false.' }).meta({ title: 'Vented to the room' }),
  ventOpening_mm2: quantity({
    label: 'Free area of each vent opening',
    unit: 'mm²',
    min: 0,
    max: 1000000,
    why: 'one opening low and one high, after the loss in louvre or mesh',
  }),
});

const drivers = z.strictObject({
  entry: line('Driver from the catalogue', 60),
  data: driverData.partial(),
  reserve: quantity({
    label: 'Reserve',
    unit: '',
    min: 0,
    max: 0.6,
    why: 'a ratio, 0.2 to load a driver to 80 % at most (common practice)',
  }),
  set_V: quantity({
    label: 'Output voltage the driver is set to',
    unit: 'V',
    min: 5,
    max: 60,
    why: 'extra-low voltage; usually the nominal voltage of the strip',
  }).nullable(),
  outputCeiling_W: quantity({
    label: 'Ceiling of one output',
    unit: 'W',
    min: 10,
    max: 1000,
    why: 'rules that ask for limited outputs put it at 100 W',
  }).nullable(),
  places: z
    .array(driverPlace)
    .min(1, { error: 'Drivers need a place: give at least one.' })
    .max(12, { error: 'A job holds at most 12 driver places.' }),
});

const zone = z.strictObject({
  name: line('Zone name', 30),
  slots: z
    .array(slotNumber)
    .min(1, { error: 'A zone without slots: name at least one slot or remove the zone.' })
    .max(mostSlots, { error: `A zone holds at most ${mostSlots} slots: name each slot once.` }),
});

const dimming = z.strictObject({
  levels: z
    .array(
      quantity({
        label: 'Working level',
        unit: '',
        min: 0,
        max: 1,
        why: 'a ratio of full, at which the wanted brightness is judged',
      }),
    )
    .min(1, { error: 'Give one level for each channel of the strip.' })
    .max(4, { error: 'A strip has at most four channels.' }),
  /** What the dimmer must still reach; null for the lowest of the working levels. */
  lowest: quantity({
    label: 'Lowest level',
    unit: '',
    min: 0.0001,
    max: 1,
    why: 'a ratio of full, which the dimmer must still reach without flicker',
  })
    .nullable()
    .default(null),
  sizeFor: choice('Sized for', ['all on', 'levels']),
  pwm_Hz: quantity({
    label: 'Dimming frequency',
    unit: 'Hz',
    min: 50,
    max: 100000,
    why: 'dimmers switch at 100 Hz to 30 kHz',
  }).nullable(),
  zones: z.array(zone).max(40),
});

const light = z.strictObject({
  wanted_cd_per_m2: quantity({
    label: 'Wanted brightness of a slot',
    unit: 'cd/m²',
    min: 1,
    max: 5000,
    why: 'a candle-lit wall is near 1, a bright window near 5,000',
  }),
  viewing_mm: quantity({
    label: 'Viewing distance',
    unit: 'mm',
    min: 200,
    max: 20000,
    why: 'from close inspection to the far side of a hall',
  }),
  floor_mm: quantity({
    label: 'Bottom of the panel above the floor',
    unit: 'mm',
    min: 0,
    max: 6000,
    why: 'it decides what a standing or a sitting eye sees of the LEDs',
  }),
});

/** How people meet the face of the panel; limits of each stand in the heat folder. Left out, it is touched. */
const touches = ['touched', 'leant on', 'seat or bed head'] as const;

/** The same as a reader finds it. */
export const touchText: Readonly<Record<(typeof touches)[number], string>> = {
  touched: 'touched in passing',
  'leant on': 'leant on for minutes',
  'seat or bed head': 'a seat or a bed head, for hours',
};

const site = z.strictObject({
  room_degC: quantity({
    label: 'Warmest room temperature',
    unit: '°C',
    min: 5,
    max: 45,
    why: 'living rooms reach 30 °C in summer',
  }),
  mains_V: quantity({
    label: 'Mains voltage',
    unit: 'V',
    min: 100,
    max: 277,
    why: 'public supplies run from 100 to 277 V',
  }),
  breakerCurve: choice('Circuit-breaker type', ['B', 'C', 'D']),
  breaker_A: quantity({
    label: 'Circuit-breaker rating',
    unit: 'A',
    min: 6,
    max: 32,
    why: 'lighting circuits are protected by 6 to 20 A',
  }),
  dropLimit: quantity({
    label: 'Limit of voltage drop from driver to furthest LED',
    unit: '',
    min: 0.005,
    max: 0.2,
    why: 'a ratio, 0.05 after IEC 60364-7-715',
  }),
  fallLimit: quantity({
    label: 'Limit of brightness drop-off along a slot',
    unit: '',
    min: 0.01,
    max: 0.5,
    why: 'a ratio; a slow drop-off of 0.1 goes unseen',
  }),
  touch: choice('How people meet the front', touches).default('touched'),
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
  panel,
  slots,
  section,
  strip,
  feeds,
  cables,
  drivers,
  dimming,
  light,
  site,
});

export type Job = z.infer<typeof job>;
export type Arrangement = (typeof arrangements)[number];
export type DriverPlace = z.infer<typeof driverPlace>;

/** The job document as JSON Schema (draft 2020-12), with labels, units and the reason of every bound. */
export function jobJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(job, { io: 'input' }) as Record<string, unknown>;
}
