import type { SetOut } from '../answer/set-out.ts';
import { freezing_K } from '../constants.ts';
import { type Material, materials } from '../heat/materials.ts';
import {
  type Layer,
  type Profile,
  type SectionDescription,
  usualCavityAir,
} from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { ProfileProduct } from '../job/profile.ts';
import type { Board } from '../job/section.ts';
import { sectionPitch_mm } from '../set-out/pitch.ts';
import type { LitProducts } from './light-of-job.ts';

/** Boards of the job document by the names the heat tables know them under. */
const materialOf: Readonly<Record<Board, keyof typeof materials>> = {
  softwood: 'timber-450',
  oak: 'oak',
  ash: 'ash',
  maple: 'maple',
  walnut: 'timber-700',
  'birch plywood': 'plywood-700',
  MDF: 'mdf-800',
  particleboard: 'particleboard-600',
  plasterboard: 'plasterboard-700',
};

/** Acrylic tape and the strip's own foil: 0.3 to 1.3e-3 m2K/W on data sheets (memory); the poor end. */
const tape_m2K_per_W = 1.3e-3;

/** Strip under a clear coat or solder mask, and anodised aluminium: handbook emissivities (memory). */
const emissivity = { strip: 0.9, carrier: 0.8 } as const;

const aluminium_W_per_mK = materials['aluminium-anodised'].conductivity_W_per_mK;

/**
 * From the back of the backing to the air of the next room: an unventilated air layer 0.18, plasterboard 12.5 mm
 * 0.06 and the room film 0.13 m2K/W (ISO 6946, secondary).
 */
const innerWall_m2K_per_W = 0.18 + 0.0125 / 0.21 + 0.13;

function layer(board: { readonly material: Board; readonly thickness_mm: number }): Layer {
  const material: Material = materials[materialOf[board.material]];
  const { conductivity_W_per_mK, conductivityRange } = material;
  return {
    thickness_m: board.thickness_mm / 1000,
    conductivity_W_per_mK,
    ...(conductivityRange && { conductivityRange }),
    emissivity: material.emissivity,
  };
}

/** The profile as heat sees it. */
function heatedProfile(profile: ProfileProduct): Profile {
  const { cover } = profile;
  return {
    base_m: profile.base_mm / 1000,
    wall_m: profile.wall_mm / 1000,
    inside_m: profile.inside_mm / 1000,
    wallHeight_m: profile.height_mm / 1000,
    conductivity_W_per_mK: profile.conductivity_W_per_mK,
    insideEmissivity: profile.insideEmissivity,
    outsideEmissivity: profile.outsideEmissivity,
    contact_m2K_per_W: profile.contact_m2K_per_W,
    cover: cover && {
      thickness_m: cover.thickness_mm / 1000,
      conductivity_W_per_mK: cover.conductivity_W_per_mK,
      emissivity: cover.emissivity,
    },
  };
}

function mount(job: Job, { strip, profile }: LitProducts): SectionDescription['strip'] {
  const { section } = job;
  const offset_mm =
    section.strip === 'side' ? section.cavity_mm / 2 - section.stripOffset_mm : section.stripOffset_mm;
  return {
    mount: section.strip,
    width_m: strip.width_mm / 1000,
    offset_m: offset_mm / 1000,
    contact_m2K_per_W: tape_m2K_per_W,
    emissivity: emissivity.strip,
    ...(profile && { profile: heatedProfile(profile) }),
    carrier:
      section.carrier === 'none'
        ? null
        : {
            thickness_m: section.carrierThickness_mm / 1000,
            width_m: section.carrierWidth_mm / 1000,
            conductivity_W_per_mK: aluminium_W_per_mK,
            emissivity: emissivity.carrier,
          },
  };
}

/** The section the heat question is asked of: the tightest pitch, the longest slot, the warmest room. */
export function sectionOfJob(job: Job, products: LitProducts, setOut: SetOut): SectionDescription {
  const { section } = job;
  const room_K = job.site.room_degC + freezing_K;
  const front = layer(section.front);
  return {
    pitch_m: sectionPitch_mm(setOut, job) / 1000,
    slotWidth_m: job.slots.width_mm / 1000,
    slotHeight_m: Math.max(...setOut.slots.map((slot) => slot.length_mm)) / 1000,
    front,
    cavityDepth_m: section.cavity_mm / 1000,
    backing: layer(section.backing),
    battenWidth_m: section.batten_mm / 1000,
    batten: { conductivity_W_per_mK: materials['timber-450'].conductivity_W_per_mK, emissivity: 0.9 },
    sheet:
      section.cover === 'open'
        ? null
        : {
            thickness_m: section.coverThickness_mm / 1000,
            conductivity_W_per_mK: materials.pmma.conductivity_W_per_mK,
            emissivity: materials.pmma.emissivity,
          },
    strip: mount(job, products),
    behind:
      section.behind === 'insulation'
        ? { kind: 'insulation' }
        : { kind: 'room', resistance_m2K_per_W: innerWall_m2K_per_W, air_K: room_K },
    exchange: 'none',
    room_K,
    cavityAir: usualCavityAir,
  };
}
