import * as z from 'zod';
import { price_cents } from './prices.ts';
import { choice, line, quantity } from './quantity.ts';

const share = (label: string, why: string) =>
  quantity({ label, unit: '', min: 0, max: 1, isWrittenPlain: true, why });

const emissivity = (label: string) =>
  quantity({
    ...{ label, unit: '', min: 0.02, max: 1, isWrittenPlain: true },
    why: 'bare aluminium is about 0.1, anodised or painted 0.8 to 0.95',
  });

/** What is bought in one piece; null where it is sold by the metre. */
const bar_mm = (label: string) =>
  quantity({ label, unit: 'mm', min: 200, max: 10000, why: 'bars are sold at 1 to 6 m' });

/** A straight aluminium U by its measures, as a drawing of it gives them. */
export const profileData = z.strictObject({
  name: line('Profile name', 80),
  inside_mm: quantity({
    label: 'Inside width of the profile',
    unit: 'mm',
    min: 3,
    max: 100,
    why: 'strip is 3 to 30 mm wide',
  }),
  height_mm: quantity({
    label: 'Inside height of the profile, base to cover',
    unit: 'mm',
    min: 1,
    max: 100,
    why: 'profiles for strip are 4 to 40 mm high inside',
  }),
  wall_mm: quantity({
    label: 'Thickness of the profile’s walls',
    unit: 'mm',
    min: 0.3,
    max: 10,
    why: 'walls are drawn 0.8 to 2 mm thick',
  }),
  base_mm: quantity({
    label: 'Thickness of the profile’s base',
    unit: 'mm',
    min: 0.3,
    max: 20,
    why: 'bases are drawn 1 to 3 mm thick, up to 10 mm where they are to carry heat',
  }),
  conductivity_W_per_mK: quantity({
    label: 'Conductivity of the aluminium',
    unit: 'W/(m·K)',
    min: 50,
    max: 240,
    why: 'alloys for drawing are 160 to 220 W/(m·K)',
  }),
  insideEmissivity: emissivity('Emissivity inside the profile'),
  outsideEmissivity: emissivity('Emissivity outside the profile'),
  baseReflectance: share('Reflectance of strip and board', 'white boards are about 0.7 to 0.8'),
  wallReflectance: share(
    'Reflectance inside the profile',
    'anodised aluminium is about 0.7, white paint 0.8',
  ),
  outsideReflectance: share('Reflectance outside the profile', 'anodised aluminium is about 0.7, black 0.05'),
  endCap_mm: quantity({
    label: 'Length an end cap takes inside the profile',
    unit: 'mm',
    min: 0,
    max: 100,
    why: 'end caps are 1 to 10 mm thick; give 0 where the strip runs to the very end',
  }),
  bar_mm: bar_mm('Length of a bar of the profile').nullable(),
  price_cents: price_cents(
    'Price of a bar of the profile, or of a metre without a length, in cents',
  ).nullable(),
  price_cents_per_cap: price_cents('Price of an end cap, in cents').nullable(),
});

/** The kinds of cover. */
export const profileCoverKinds = ['clear', 'frosted', 'opal'] as const;

/** A cover of plastic on both walls, over the full width. */
export const profileCoverData = z.strictObject({
  thickness_mm: quantity({
    label: 'Thickness of the profile’s cover',
    unit: 'mm',
    min: 0.3,
    max: 10,
    why: 'covers are drawn 0.8 to 3 mm thick',
  }),
  transmittance: share(
    'Light the cover lets through',
    'opal covers pass 0.5 to 0.7, clear ones 0.85 to 0.92',
  ),
  reflectance: share('Light the cover reflects', 'clear covers reflect 0.08, opal ones 0.2 to 0.4'),
  straight: share(
    'Share of what passes that goes straight on',
    'nothing through opal, all of it through clear, some through frosted',
  ),
  conductivity_W_per_mK: quantity({
    label: 'Conductivity of the cover',
    unit: 'W/(m·K)',
    min: 0.1,
    max: 2,
    why: 'acrylic and polycarbonate are about 0.2, glass is 1 W/(m·K)',
  }),
  emissivity: emissivity('Emissivity of the cover'),
  limit_degC: quantity({
    label: 'Temperature the cover bears',
    unit: '°C',
    min: 40,
    max: 300,
    why: 'acrylic bears 65 to 90 °C for long, polycarbonate 100 to 120 °C',
  }),
  bar_mm: bar_mm('Length of a bar of the cover').nullable(),
  price_cents: price_cents(
    'Price of a bar of the cover, or of a metre without a length, in cents',
  ).nullable(),
});

/** How a profile or an aluminium flat is held to the timber it touches. */
export const metalFixings = ['tape', 'screws or clips', 'pressed or glued in'] as const;

/** A joint between metal and timber, over the whole face they touch with. */
export const contact = (label: string) =>
  quantity({
    ...{ label, unit: 'm²K/W', min: 0, max: 0.02 },
    why: 'tape is about 0.0005, a dry joint 0.002, half a millimetre of air 0.02, and poorer ones are not worked out',
  });

/** What the aluminium of a profile looks like. */
export const profileFinishes = ['anodised', 'bare', 'painted white', 'painted black'] as const;

/** The profile a strip lies in: an entry of the list, what its drawing says otherwise, its cover, and how it is fixed. */
export const profileChoice = z.strictObject({
  entry: line('Profile', 60),
  data: profileData.partial(),
  /** None leaves the profile open. */
  cover: z
    .strictObject({
      entry: choice('Cover of the profile', profileCoverKinds),
      /** An own product among those of the job; null for the typical cover of that look. */
      own: line('Own cover of the profile', 60).nullable().default(null),
      data: profileCoverData.partial(),
    })
    .nullable(),
  finish: choice('Finish of the profile', profileFinishes).default('anodised'),
  fixing: choice('Profile fixed by', metalFixings),
  contact_m2K_per_W: contact('Contact between profile and timber').nullable().default(null),
});

/** A profile with everything known of it. */
export const profileProduct = profileData.extend({
  cover: profileCoverData
    .extend({
      kind: z.enum(profileCoverKinds),
      own: z.string().nullable().describe('name of the own product it is; null for a typical cover'),
    })
    .nullable(),
  fixing: z.enum(metalFixings),
  finish: z.enum(profileFinishes),
  contact_m2K_per_W: z.number(),
  isLimitEntered: z.boolean().describe('whether what its cover bears was entered from a data sheet'),
});

export type ProfileData = z.infer<typeof profileData>;
export type ProfileCoverData = z.infer<typeof profileCoverData>;
export type ProfileCoverKind = (typeof profileCoverKinds)[number];
export type ProfileChoice = z.infer<typeof profileChoice>;
export type ProfileProduct = z.infer<typeof profileProduct>;

/** Over its walls. */
export const profileWidth_mm = ({ inside_mm, wall_mm }: ProfileProduct): number => inside_mm + 2 * wall_mm;

/** From the rear of the base to the outside of the cover, or to the rims without one. */
export const profileHeight_mm = ({ base_mm, height_mm, cover }: ProfileProduct): number =>
  base_mm + height_mm + (cover?.thickness_mm ?? 0);
