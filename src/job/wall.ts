import * as z from 'zod';
import { choice, line, quantity } from './quantity.ts';

/** What layers of a wall are made of; conductivities stand in the heat folder under these names. */
export const wallMaterials = [
  'air, not ventilated',
  'plasterboard',
  'gypsum plaster',
  'softwood',
  'OSB',
  'birch plywood',
  'MDF',
  'brick',
  'dense concrete block',
  'aerated concrete block',
  'concrete',
  'mineral wool',
  'expanded polystyrene',
  'polyurethane foam',
  'wood fibre insulation',
  'other',
] as const;

const wallLayer = z.strictObject({
  material: choice('Layer of the wall', wallMaterials),
  thickness_mm: quantity({
    label: 'Thickness of the layer',
    unit: 'mm',
    min: 0.1,
    max: 1000,
    why: 'layers run from a foil to a metre of masonry',
  }),
  /** Left out, that of the material. */
  conductivity_W_per_mK: quantity({
    label: 'Conductivity by its maker',
    unit: 'W/(m·K)',
    min: 0.005,
    max: 400,
    why: 'vacuum panels are 0.007, masonry 0.5 to 1.5, aluminium 160 to 240 W/(m·K)',
  })
    .nullable()
    .default(null),
  timberShare: quantity({
    label: 'Share of the wall’s face that is timber in this layer',
    unit: '',
    min: 0,
    max: 0.5,
    why: 'studs with head and sole plates are 0.1 to 0.25 of a timber frame; steel studs are left out',
  }).default(0),
  bridge_W_per_mK: quantity({
    label: 'Conductivity of that timber',
    unit: 'W/(m·K)',
    min: 0.05,
    max: 1.5,
    why: 'timber is 0.12 to 0.18, mortar about 0.9; metal is not worked out by this method',
  })
    .nullable()
    .default(null),
  emissivity: quantity({
    label: 'Emissivity of one face of the air layer',
    unit: '',
    min: 0.02,
    max: 1,
    isWrittenPlain: true,
    why: 'clean aluminium foil is 0.05 to 0.1, paper, timber and masonry 0.9',
  })
    .nullable()
    .default(null),
  source: line('Where the figures of the layer are from', 120).default(''),
});

/** The wall behind the backing, layer by layer from the back of the backing to the air on its far side. */
export const wall = z.strictObject({
  layers: z
    .array(wallLayer)
    .min(1, { error: 'A wall of layers has at least one layer: add one, or choose insulation.' })
    .max(10, { error: 'A wall takes at most 10 layers.' }),
  beyond: choice('On the far side of the wall', ['room', 'outside']),
  /** Left out for a room, it is as warm as the room of the piece. */
  beyond_degC: quantity({
    label: 'Warmest air on the far side',
    unit: '°C',
    min: -40,
    max: 80,
    why: 'a cold store to a wall in the sun',
  })
    .nullable()
    .default(null),
});

export type Wall = z.infer<typeof wall>;
export type WallLayerChoice = z.infer<typeof wallLayer>;
export type WallMaterial = (typeof wallMaterials)[number];
