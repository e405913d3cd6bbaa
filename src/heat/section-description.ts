import type { GapCorrelation } from './correlations.ts';

/** One solid layer of the build-up. */
export interface Layer {
  readonly thickness_m: number;
  readonly conductivity_W_per_mK: number;
  /** Least and most the conductivity may be, where it is known; a band takes 15 % either way otherwise. */
  readonly conductivityRange?: { readonly low: number; readonly high: number };
  /** Total hemispherical emissivity of the face towards the cavity, above 0 and at most 1. */
  readonly emissivity: number;
}

/** A metal flat or profile base between the strip and what carries it. */
interface Carrier {
  readonly thickness_m: number;
  readonly width_m: number;
  readonly conductivity_W_per_mK: number;
  readonly emissivity: number;
  /**
   * Between the flat and the timber it lies on, over all of the face they touch with: 0 to 0.02; left out, they are one
   * with each other. A flat with such a joint ends half a millimetre before a batten or board beside it.
   */
  readonly contact_m2K_per_W?: number;
}

/** A plastic cover lying on the walls of a profile over its full width. */
interface ProfileCover {
  readonly thickness_m: number;
  readonly conductivity_W_per_mK: number;
  readonly emissivity: number;
}

/** A straight aluminium U with sharp corners, the strip on the inside of its base. */
export interface Profile {
  readonly base_m: number;
  readonly wall_m: number;
  /** Between the walls. */
  readonly inside_m: number;
  /** Of the walls above the inside of the base. */
  readonly wallHeight_m: number;
  readonly conductivity_W_per_mK: number;
  readonly insideEmissivity: number;
  readonly outsideEmissivity: number;
  readonly cover: ProfileCover | null;
  /** Between profile and timber, over all of the face they touch with: 0 to 0.02 as made, worked out to 0.05. */
  readonly contact_m2K_per_W: number;
}

/** Where the strip is stuck, and how. */
interface StripMount {
  /**
   * On the backing, on the inner face of the front beside the slot, on the flank of the batten, or in a profile that
   * fills the slot, its mouth in the room face.
   */
  readonly mount: 'backing' | 'front' | 'side' | 'recessed';
  readonly width_m: number;
  /**
   * Where the strip's middle is: on backing and front its distance from the middle of the slot; on a side its
   * distance behind the inner face of the front.
   */
  readonly offset_m: number;
  /** Tape and foil between the strip and what carries it. */
  readonly contact_m2K_per_W: number;
  readonly carrier: Carrier | null;
  /** The profile the strip lies in; none where it is left out. Then there is no carrier. */
  readonly profile?: Profile;
  readonly emissivity: number;
}

/** What is behind the backing: no heat that way (the safe default), or an air at a temperature. */
type Behind =
  | { readonly kind: 'insulation' }
  | {
      readonly kind: 'room';
      /** From the back of the backing to that air: wall, air gap and surface film together. */
      readonly resistance_m2K_per_W: number;
      /** Least and most it may be, where it is doubtful; known where it is left out. */
      readonly resistanceRange?: { readonly low: number; readonly high: number };
      readonly air_K: number;
    };

/** How the air in the cavity is taken to conduct. */
export interface CavityAir {
  /** A gap correlation, `still` air (Nu 1), or `iso6946`, the coefficient of that standard's air layer. */
  readonly correlation: GapCorrelation | 'still' | 'iso6946';
  /** Along the gap the air conducts like across it, or as still air. */
  readonly along: 'alike' | 'still';
  /** Multiplies the convective coefficient; 1 unless a band is being worked out. */
  readonly factor: number;
}

/**
 * A horizontal section through the build-up that repeats at the slot pitch: SI units, kelvin. It describes an
 * upright slot; for sloping or level slots the cavity correlations do not hold.
 */
export interface SectionDescription {
  /** Distance from slot to slot; the section is cut at the middle of what lies between two slots. */
  readonly pitch_m: number;
  readonly slotWidth_m: number;
  /**
   * From the middle of the slot to where the panel ends beside it (`isEdgeRight`: on which side), where that is nearer than
   * half a pitch; no heat passes there (the safe choice). Left out, another slot is on either side.
   */
  readonly edge_m?: number;
  /** Height of the slot and of the cavity behind it. */
  readonly slotHeight_m: number;
  readonly front: Layer;
  readonly cavityDepth_m: number;
  readonly backing: Layer;
  /** Width of the batten between two cavities; 0 for an endless cavity. */
  readonly battenWidth_m: number;
  readonly batten: { readonly conductivity_W_per_mK: number; readonly emissivity: number };
  /** Sheet in the slot, flush with the inner face of the front; none leaves the slot open. */
  readonly sheet: Layer | null;
  readonly strip: StripMount;
  readonly behind: Behind;
  /** Air exchanged through an open slot by its own buoyancy, or none (the safe default). */
  readonly exchange: 'none' | 'buoyant';
  readonly room_K: number;
  readonly cavityAir: CavityAir;
}

/** Heat put into one pitch, per metre of slot height. */
export interface SectionLoads {
  /** Electrical watts less all light, out of the strip's width. */
  readonly strip_W_per_m: number;
  /** Light that stays in, spread evenly over the face it falls on. */
  readonly facesAbsorbed_W_per_m?: Partial<Record<AbsorbingFace, number>>;
}

/**
 * What light falls on. `jambs` are the sides of the slot; battens flush with the slot leave no inner face of the front,
 * and what is given for it warms the jambs. Light in a profile's `cover` enters on its inner face between the walls, light
 * in the `profile` on the inside of its walls.
 */
export type AbsorbingFace = 'backing' | 'front' | 'jambs' | 'sides' | 'sheet' | 'cover' | 'profile';

/** ElSherbiny's correlation, across the gap and along it alike. */
export const usualCavityAir: CavityAir = { correlation: 'elsherbiny', along: 'alike', factor: 1 };

/** Film of the room on everything it touches, 1/0.13 W/(m2K): ISO 6946, upright surface, inside (secondary). */
export const roomResistance_m2K_per_W = 0.13;

/** Width of the cavity between two battens, or of one pitch of an endless cavity. */
export function cavityWidth_m(section: SectionDescription): number {
  return section.pitch_m - section.battenWidth_m;
}

/**
 * On which side of the slot the panel ends, where it does: on that of a strip on backing or front, and away from one on a
 * flank, which is where each is warmer than between two slots; right where the strip is in the middle.
 */
export const isEdgeRight = ({ strip: { mount, offset_m } }: SectionDescription): boolean =>
  mount === 'recessed' || (mount !== 'side' && offset_m >= 0);

/** Width of a profile over its walls. */
export const profileWidth_m = ({ inside_m, wall_m }: Profile): number => inside_m + 2 * wall_m;

/** Height of a profile from the rear of its base to the outside of its cover, or to its rims without one. */
export const profileHeight_m = ({ base_m, wallHeight_m, cover }: Profile): number =>
  base_m + wallHeight_m + (cover?.thickness_m ?? 0);

/** Front, cavity and backing together. */
export function overallDepth_m(section: SectionDescription): number {
  return section.front.thickness_m + section.cavityDepth_m + section.backing.thickness_m;
}

/** All heat put into one pitch, W per metre of height. */
export function totalHeat_W_per_m(loads: SectionLoads): number {
  const absorbed = Object.values(loads.facesAbsorbed_W_per_m ?? {});
  return absorbed.reduce((sum, watts) => sum + watts, loads.strip_W_per_m);
}
