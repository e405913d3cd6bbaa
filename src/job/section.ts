import * as z from 'zod';
import { contact, metalFixings, profileChoice } from './profile.ts';
import { choice, line, quantity } from './quantity.ts';
import { wall } from './wall.ts';

/** Sheet materials for front and backing; conductivities stand in the heat folder under these names. */
export const boards = [
  'softwood',
  'oak',
  'ash',
  'maple',
  'walnut',
  'birch plywood',
  'MDF',
  'particleboard',
  'plasterboard',
] as const;

/** What the cavity faces look like; reflectances stand in the light folder under these names. */
export const finishes = [
  'matt white paint',
  'white plaster',
  'natural anodised aluminium',
  'maple or birch',
  'raw birch plywood',
  'light oak',
  'raw MDF',
  'light grey',
  'dark oak',
  'walnut',
  'mid grey',
  'matt black paint',
  'bare aluminium',
  'bright aluminium foil',
] as const;

/** Covers of a slot; transmittances stand in the light folder under these names. */
export const slotCovers = [
  'open',
  'opal acrylic',
  'light opal acrylic',
  'satin or frosted acrylic',
  'prismatic sheet',
  'clear acrylic, 3 mm',
] as const;

const board = (label: string) =>
  z.strictObject({
    material: choice(`${label} material`, boards),
    thickness_mm: quantity({
      label: `${label} thickness`,
      unit: 'mm',
      min: 1,
      max: 60,
      why: 'boards run from 1 mm veneer carriers to 60 mm solid timber',
    }),
    /** Left out, that of the material. */
    conductivity_W_per_mK: quantity({
      label: `${label} conductivity by its maker`,
      unit: 'W/(m·K)',
      min: 0.02,
      max: 250,
      why: 'cork and foam are 0.03 to 0.05, timber 0.1 to 0.2, stone 1 to 3, aluminium 160 to 240 W/(m·K)',
    })
      .nullable()
      .optional(),
    source: line(`Where the figures of the ${label.toLowerCase()} are from`, 120).optional(),
  });

const reflectance = (of: string) =>
  quantity({
    ...{ label: `Light reflectance ${of}`, unit: '', min: 0, max: 0.98, isWrittenPlain: true },
    why: 'white paint is about 0.8, black 0.05, foil 0.85',
  })
    .nullable()
    .default(null);

const faceEmissivity = (of: string) =>
  quantity({
    ...{ label: `Emissivity ${of}`, unit: '', min: 0.02, max: 1, isWrittenPlain: true },
    why: 'timber, paint and plastics are about 0.9, anodised aluminium 0.8, bare aluminium and foil 0.05 to 0.1',
  })
    .nullable()
    .default(null);

const faceSource = (of: string) => line(`Where the figures ${of} are from`, 120).default('');

/** What the maker of a finish says of a face, over the finish chosen; left out, the finish counts. */
const face = (of: string) =>
  z
    .strictObject({ reflectance: reflectance(of), emissivity: faceEmissivity(of), source: faceSource(of) })
    .default({ reflectance: null, emissivity: null, source: '' });

const faces = z
  .strictObject({
    back: face('of the backing'),
    side: face('of the cavity sides'),
    front: face('of the inner face of the front'),
    /** The sides of the slot meet the room, whatever they look like. */
    reveal: z
      .strictObject({
        reflectance: reflectance('of the sides of the slot'),
        source: faceSource('of the sides of the slot'),
      })
      .default({ reflectance: null, source: '' }),
  })
  .default({
    back: { reflectance: null, emissivity: null, source: '' },
    side: { reflectance: null, emissivity: null, source: '' },
    front: { reflectance: null, emissivity: null, source: '' },
    reveal: { reflectance: null, source: '' },
  });

/** The horizontal cut through the build-up, from the wall to the room. */
export const section = z.strictObject({
  available_mm: quantity({
    label: 'Depth available for the whole build-up',
    unit: 'mm',
    min: 10,
    max: 500,
    why: 'lit panels are built 30 to 100 mm deep',
  }),
  tolerance_mm: quantity({
    label: 'Tolerance of the build-up',
    unit: 'mm',
    min: 0,
    max: 20,
    why: 'walls are out of true by a few millimetres',
  }),
  backing: board('Backing'),
  cavity_mm: quantity({
    label: 'Cavity depth',
    unit: 'mm',
    min: 5,
    max: 300,
    why: 'strip and its solder joints need 5 mm; beyond 300 mm this is a room, not a cavity',
  }),
  front: board('Front'),
  batten_mm: quantity({
    label: 'Batten width between slots',
    unit: 'mm',
    min: 0,
    max: 500,
    why: 'give 0 where no batten stands between the slots',
  }),
  cover: choice('Slot cover', slotCovers),
  coverThickness_mm: quantity({
    label: 'Cover thickness',
    unit: 'mm',
    min: 1,
    max: 12,
    why: 'acrylic sheet is sold from 2 to 10 mm',
  }),
  strip: choice('Strip position', ['backing', 'front', 'side', 'recessed']),
  stripOffset_mm: quantity({
    label: 'Strip offset from the middle of the slot',
    unit: 'mm',
    min: -1000,
    max: 1000,
    why: 'the strip has to lie inside its own cavity',
  }),
  carrier: choice('Aluminium under the strip', ['none', 'flat aluminium']),
  carrierWidth_mm: quantity({
    label: 'Width of the aluminium flat',
    unit: 'mm',
    min: 5,
    max: 300,
    why: 'aluminium flats are sold from 10 to 200 mm wide',
  }),
  carrierThickness_mm: quantity({
    label: 'Thickness of the aluminium flat',
    unit: 'mm',
    min: 0.5,
    max: 10,
    why: 'aluminium flats are sold from 1 to 6 mm thick',
  }),
  carrierFinish: choice('Finish of the aluminium flat', ['anodised', 'bare']).default('anodised'),
  /** How the flat is held to the timber; left out, as in every job before it was asked, the two are taken as one. */
  carrierFixing: choice('Aluminium flat fixed by', metalFixings).nullable().default(null),
  carrierContact_m2K_per_W: contact('Contact between flat and timber').nullable().default(null),
  /** The aluminium profile the strip lies in; none where it is left out, as in every job before there were any. */
  profile: profileChoice.nullable().default(null),
  behind: choice('Behind the backing', ['insulation', 'inner wall', 'layers']),
  /** Layers of the wall; they count where `behind` is `layers`, and are kept where it is not. */
  wall: wall.nullable().default(null),
  backFinish: choice('Finish of the backing', finishes),
  sideFinish: choice('Finish of the cavity sides', finishes),
  frontFinish: choice('Finish of the inner face of the front', finishes),
  /** Left out, as the inner face of the front. */
  revealFinish: choice('Finish of the sides of the slot', finishes).nullable().default(null),
  faces,
});

export type Board = (typeof boards)[number];
export type Finish = (typeof finishes)[number];
export type SlotCover = (typeof slotCovers)[number];
