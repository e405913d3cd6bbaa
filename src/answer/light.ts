import * as z from 'zod';
import { brightnessWords } from './brightness.ts';
import { ids, num, range, text } from './values.ts';

/** Slots that are dimmed to the same levels and judged by the same brightness. */
const lightZone = z.strictObject({
  zone: text
    .nullable()
    .describe(
      'the zone that has levels or a brightness of its own; null for all slots that go by those of the job',
    ),
  name: text.describe('what they are called together: "the wall" where all slots are alike'),
  slots: ids,
  luminance_cd_per_m2: num.describe('of what is seen, at nominal volts and the working levels'),
  lowest_cd_per_m2: num
    .nullable()
    .describe('the same with every channel at the lowest level; null where nothing is lit'),
  band_cd_per_m2: range.describe(
    'the luminance over the tolerances of strip, finishes and sheets, all at one end',
  ),
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
  neededFlux_lm_per_m: num.describe('that gives the wanted brightness at full'),
  fluxShare: num
    .optional()
    .describe('of the light on the data sheet, the strip as warm as the working levels make it'),
  ofWidth: z
    .strictObject({
      width_mm: num,
      full_cd_per_m2: num.describe('as that of the wall'),
      outFraction: num.describe('as that of the wall'),
      ripple: num.describe('as that of the wall'),
    })
    .optional()
    .describe(
      'where slots have several widths: these slots, in a section of their own; the figures of the wall are those of the width whose strip is warmest',
    ),
  needed_W_per_m: num.describe('the same, at the lumens per watt of the chosen strip'),
  threshold: num.describe('contrast the eye can just see here'),
  visibility: num.describe('ripple over the contrast threshold'),
  dotsSeen: z
    .enum(['hidden', 'faint', 'visible', 'plain'])
    .describe('whether the LEDs show as hot spots; plain where the LEDs themselves are seen'),
  dots: text.describe('the same in words'),
});

/** How bright a slot is, how even, and what it takes to be as bright as wanted. */
export const light = z.strictObject({
  seen: z
    .enum(['cover', 'back', 'back through the cover', 'profile cover', 'profile'])
    .describe(
      'what the eye meets: a slot cover that spreads light, or what is behind the slot; of a profile there its opal cover, or what shows through another',
    ),
  full_cd_per_m2: num.describe('brightness of what is seen, at nominal volts and full'),
  zones: z
    .array(lightZone)
    .describe('slots by the levels they are dimmed to, in the order of the wall; one where all are alike'),
  warm: z
    .strictObject({
      strip_degC: num.describe('at its nominal watts, or as the job gives it'),
      fluxShare: num.describe('of the light on its data sheet, which is that at 25 °C'),
    })
    .optional()
    .describe(
      'the light of the warm strip, in every brightness and flux here; left out where the data sheet does not say what it loses',
    ),
  views: z
    .array(
      z.strictObject({
        angle_deg: num.describe(
          'of the eye from straight ahead, across the slot; positive to the right of an upright slot',
        ),
        full_cd_per_m2: num.describe('mean over the width of the slot, at full'),
        pastReveal: num.describe('share of that width in which one looks past the sides of the slot'),
        showsLamps: z.boolean().describe('LEDs themselves lie in one of the lines of sight'),
      }),
    )
    .describe('from straight ahead and from either side, by an eye some metres away'),
  outFraction: num.describe('light that leaves the slot over light of the strip'),
  ripple: num.describe('Michelson contrast along the slot'),
  balance: num.describe('light in less light out and absorbed, as a ratio'),
  colourHex: text,
  profile: z
    .array(z.strictObject({ along_mm: num, relative: num }))
    .describe('over two LED pitches on the slot'),
  absorbed: z
    .strictObject({ back: num, sides: num, front: num, reveal: num, sheet: num, cover: num, profile: num })
    .describe('share of the strip light taken by each face'),
  ofProfile: z
    .strictObject({
      leavingShare: num.describe(
        'light that leaves the profile in black surroundings over light of the strip',
      ),
      cover_cd_per_m2: num.describe(
        'mean brightness of its cover or mouth where it is, at nominal volts and full',
      ),
      ripple: num
        .nullable()
        .describe('Michelson contrast along the middle of its cover; null where all light goes straight on'),
      cutOff_deg: num
        .nullable()
        .describe('straight light leaves within this of the normal across; null where none goes straight'),
    })
    .nullable()
    .describe('null where the strip lies in no profile'),
  bareLampsSeen: z.array(z.enum(['standing', 'sitting'])).describe('by whom the LEDs themselves are seen'),
});

export type LightAnswer = z.infer<typeof light>;
export type LightZone = z.infer<typeof lightZone>;
