import type { Section } from '../answer/section.ts';
import { freezing_K } from '../constants.ts';
import { type HeatIssue, heatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import {
  layerResistance_m2K_per_W,
  mostLimitRatio,
  surfaceResistance_m2K_per_W,
  type WallLayer,
  type WallResistance,
  wallResistance,
} from '../heat/wall-layers.ts';
import { bridgeTimber_W_per_mK, wallMaterials } from '../heat/wall-materials.ts';
import type { Job } from '../job/job.ts';
import type { Wall, WallLayerChoice, WallMaterial } from '../job/wall.ts';

/** Materials of the job document by the names the heat tables know them under; air and one's own have no entry there. */
const materialOf: Readonly<Record<WallMaterial, keyof typeof wallMaterials | null>> = {
  'air, not ventilated': null,
  plasterboard: 'plasterboard',
  'gypsum plaster': 'plaster',
  softwood: 'softwood',
  OSB: 'osb',
  'birch plywood': 'plywood',
  MDF: 'mdf',
  brick: 'brick',
  'dense concrete block': 'dense-block',
  'aerated concrete block': 'aerated-block',
  concrete: 'concrete',
  'mineral wool': 'mineral-wool',
  'expanded polystyrene': 'eps',
  'polyurethane foam': 'pur',
  'wood fibre insulation': 'wood-fibre',
  other: null,
};

/** Boards, blocks and wool of one name differ by so much in resistance. */
const wallDoubt = 0.15;

/** The layer as heat sees it. A conductivity typed for air is none of its own: air resists by its table. */
function heatedLayer(layer: WallLayerChoice): WallLayer {
  const { material, thickness_mm, conductivity_W_per_mK, timberShare, bridge_W_per_mK, emissivity } = layer;
  const entry = materialOf[material];
  const isAir = material === 'air, not ventilated';
  return {
    thickness_m: thickness_mm / 1000,
    conductivity_W_per_mK: isAir
      ? null
      : (conductivity_W_per_mK ?? (entry === null ? Number.NaN : wallMaterials[entry].conductivity_W_per_mK)),
    emissivity: isAir ? emissivity : null,
    bridge:
      timberShare === 0
        ? null
        : { share: timberShare, conductivity_W_per_mK: bridge_W_per_mK ?? bridgeTimber_W_per_mK },
  };
}

const filmOf = ({ beyond }: Wall): number =>
  surfaceResistance_m2K_per_W[beyond === 'room' ? 'inside' : 'outside'];

/** From the back of the backing to the air beyond. */
const toBeyond = (wall: Wall): WallResistance => wallResistance(wall.layers.map(heatedLayer), filmOf(wall));

/**
 * From the back of the backing to the air of the next room: an unventilated air layer 0.18, plasterboard 12.5 mm
 * 0.06 and the room film 0.13 m2K/W (ISO 6946, secondary).
 */
const innerWall: Wall = {
  layers: [
    { material: 'air, not ventilated', thickness_mm: 25 },
    { material: 'plasterboard', thickness_mm: 12.5 },
  ].map((layer) => ({
    ...(layer as Pick<WallLayerChoice, 'material' | 'thickness_mm'>),
    ...{ conductivity_W_per_mK: null, timberShare: 0, bridge_W_per_mK: null, emissivity: null, source: '' },
  })),
  beyond: 'room',
  beyond_degC: null,
};

/** The wall a job stands before; null where that is taken as insulation. */
function wallOf({ section }: Job): Wall | null {
  if (section.behind === 'insulation') return null;
  return section.behind === 'inner wall' ? innerWall : section.wall;
}

/** What is behind the backing as heat sees it; layers of one's own are known to 15 % beyond the two limits of the method. */
export function behindOfJob(job: Job): SectionDescription['behind'] {
  const wall = wallOf(job);
  if (wall === null) return { kind: 'insulation' };
  const { resistance_m2K_per_W, upper_m2K_per_W, lower_m2K_per_W } = toBeyond(wall);
  const range = { low: lower_m2K_per_W * (1 - wallDoubt), high: upper_m2K_per_W * (1 + wallDoubt) };
  return {
    kind: 'room',
    resistance_m2K_per_W,
    ...(job.section.behind === 'layers' && { resistanceRange: range }),
    air_K: (wall.beyond_degC ?? job.site.room_degC) + freezing_K,
  };
}

/** A wall that the method cannot be asked of. */
export function wallIssues(job: Job): HeatIssue[] {
  const wall = wallOf(job);
  if (wall === null) return [];
  const { upper_m2K_per_W, lower_m2K_per_W } = toBeyond(wall);
  if (upper_m2K_per_W <= mostLimitRatio * lower_m2K_per_W) return [];
  return [
    heatIssue(
      'wall-bridged-too-much',
      { upper_m2K_per_W, lower_m2K_per_W },
      'What bridges the layers of the wall behind conducts so much better than they do that its resistance cannot be worked out this way. Lower the share of timber or its conductivity, or take insulation, which is the cautious choice.',
      { field: 'section.wall.layers' },
    ),
  ];
}

/** What was worked out of the wall behind, for papers and page. */
export function behindAnswer(job: Job): Section['behind'] {
  const wall = wallOf(job);
  if (wall === null) return null;
  const film = filmOf(wall);
  return {
    ...toBeyond(wall),
    U_W_per_m2K:
      1 /
      wallResistance(wall.layers.map(heatedLayer), surfaceResistance_m2K_per_W.inside + film)
        .resistance_m2K_per_W,
    film_m2K_per_W: film,
    beyond: wall.beyond,
    beyond_degC: wall.beyond_degC ?? job.site.room_degC,
    layers: wall.layers.map((layer) => ({
      name: layer.material,
      thickness_mm: layer.thickness_mm,
      timberShare: layer.timberShare,
      resistance_m2K_per_W: layerResistance_m2K_per_W(heatedLayer(layer)),
      source: layer.source,
    })),
  };
}
