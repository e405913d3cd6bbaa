import * as z from 'zod';
import { choice, line, quantity } from './quantity.ts';

/** How people meet the face of the panel; limits of each stand in the heat folder. Left out, it is touched. */
const touches = ['touched', 'leant on', 'seat or bed head'] as const;

/** The same as a reader finds it. */
export const touchText: Readonly<Record<(typeof touches)[number], string>> = {
  touched: 'touched in passing',
  'leant on': 'leant on for minutes',
  'seat or bed head': 'a seat or a bed head, for hours',
};

/** Dry indoors; steam and splashes; water that runs or is hosed. */
const moistures = ['dry', 'damp', 'wet'] as const;

/** The room, its mains and the limits the job is judged by. */
export const site = z.strictObject({
  /** Which rules the papers cite and count in; nothing on them says that anything conforms. */
  rules: choice('Rules of the country', ['IEC', 'BS 7671', 'NEC']).default('IEC'),
  note: line('Note for the electrician', 200).default(''),
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
  /** Null where the job says nothing of it: a dry room is assumed, and a caution says so. */
  moisture: choice('Moisture where it stands', moistures).nullable().default(null),
  /** Null where the job says nothing of it. */
  escapeRoute: choice('On an escape route', ['no', 'yes']).nullable().default(null),
});

export type Site = z.infer<typeof site>;
