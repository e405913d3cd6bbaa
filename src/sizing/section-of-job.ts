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
import { contacts_m2K_per_W } from '../job/profile-catalogue.ts';
import type { Board, Finish } from '../job/section.ts';
import { nearEdge_mm, sectionPitch_mm } from '../set-out/pitch.ts';
import type { LitProducts } from './light-of-job.ts';
import { behindOfJob } from './wall-of-job.ts';

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
const emissivity = {
  strip: 0.9,
  carrier: { anodised: 0.8, bare: materials['aluminium-mill'].emissivity },
} as const;

const aluminium_W_per_mK = materials['aluminium-anodised'].conductivity_W_per_mK;

/** Emissivity of finishes of bare metal; all others are as good as the timber beneath them. */
const metalEmissivity: Readonly<Partial<Record<Finish, number>>> = {
  'bare aluminium': materials['aluminium-mill'].emissivity,
  'bright aluminium foil': materials['aluminium-foil'].emissivity,
};

/** Emissivity of a face: by its maker, by its finish, or of the bare material. */
const emissivityOf = (own: number | null, finish: Finish, bare: number): number =>
  own ?? metalEmissivity[finish] ?? bare;

function layer(board: Job['section']['front'], own_emissivity: number | null, finish: Finish): Layer {
  const material: Material = materials[materialOf[board.material]];
  const { conductivityRange } = material;
  const own = board.conductivity_W_per_mK ?? null;
  return {
    thickness_m: board.thickness_mm / 1000,
    conductivity_W_per_mK: own ?? material.conductivity_W_per_mK,
    ...(own === null && conductivityRange && { conductivityRange }),
    emissivity: emissivityOf(own_emissivity, finish, material.emissivity),
  };
}

/**
 * What a job says of an aluminium flat, should there be one: emissivity by its finish, and the joint under it by what it is
 * fixed with unless given; none where neither is said.
 */
export function flatOf({ carrierFinish, carrierContact_m2K_per_W: given, carrierFixing }: Job['section']) {
  const contact_m2K_per_W = given ?? (carrierFixing === null ? null : contacts_m2K_per_W[carrierFixing]);
  return {
    emissivity: emissivity.carrier[carrierFinish],
    ...(contact_m2K_per_W !== null && { contact_m2K_per_W }),
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
            ...flatOf(section),
          },
  };
}

/** The section the heat question is asked of: the tightest pitch, the longest slot, the warmest room. */
export function sectionOfJob(job: Job, products: LitProducts, setOut: SetOut): SectionDescription {
  const { section } = job;
  const room_K = job.site.room_degC + freezing_K;
  const { faces } = section;
  const edge_mm = nearEdge_mm(setOut, job);
  const front = layer(section.front, faces.front.emissivity, section.frontFinish);
  return {
    pitch_m: sectionPitch_mm(setOut, job) / 1000,
    slotWidth_m: job.slots.width_mm / 1000,
    ...(edge_mm !== null && { edge_m: edge_mm / 1000 }),
    slotHeight_m: Math.max(...setOut.slots.map((slot) => slot.length_mm)) / 1000,
    front,
    cavityDepth_m: section.cavity_mm / 1000,
    backing: layer(section.backing, faces.back.emissivity, section.backFinish),
    battenWidth_m: section.batten_mm / 1000,
    batten: {
      conductivity_W_per_mK: materials['timber-450'].conductivity_W_per_mK,
      emissivity: emissivityOf(faces.side.emissivity, section.sideFinish, 0.9),
    },
    sheet:
      section.cover === 'open'
        ? null
        : {
            thickness_m: section.coverThickness_mm / 1000,
            conductivity_W_per_mK: materials.pmma.conductivity_W_per_mK,
            emissivity: materials.pmma.emissivity,
          },
    strip: mount(job, products),
    behind: behindOfJob(job),
    exchange: 'none',
    room_K,
    cavityAir: usualCavityAir,
  };
}
