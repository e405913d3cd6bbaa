import type { Box } from '../numeric/taut-strings.ts';

/** A point of the section, or a direction in it. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A cover without thickness, alike from both sides; what it neither passes nor reflects it absorbs. */
export interface ProfileCover {
  readonly transmittance: number;
  readonly reflectance: number;
  /** Share of what passes that goes straight on, 0 to 1; the rest leaves as from a matt face. */
  readonly straight: number;
}

/** A straight U in the section, the row of lamps in the middle of its base. */
export interface LitProfile {
  /** Between the walls, and over them. */
  readonly inside_m: number;
  readonly width_m: number;
  /** From the lamps to the cover, and from the face that carries the profile to the outside of the cover or the rims. */
  readonly wallHeight_m: number;
  readonly height_m: number;
  /** Of strip and board, of the walls inside, and of flanks and rims. */
  readonly baseReflectance: number;
  readonly wallReflectance: number;
  readonly outsideReflectance: number;
  /** Null for a mouth that is open. */
  readonly cover: ProfileCover | null;
}

/** No cover is one that everything passes straight. */
export const coverOf = ({ cover }: LitProfile): ProfileCover =>
  cover ?? { transmittance: 1, reflectance: 0, straight: 1 };

/** Where a profile lies in its section, and how its own directions lie there. */
export interface PlacedProfile {
  readonly profile: LitProfile;
  /** All of it, and the room between lamps and cover. */
  readonly outer: Box;
  readonly inner: Box;
  /** Its middle along the face that carries it, counter-clockwise round the cavity. */
  readonly middle_m: number;
  /** How far the cover is off the face that carries the profile. */
  readonly mouth_m: number;
  /** The point so far along that face and off it. */
  readonly at: (along_m: number, off_m: number) => Point;
}

const boxOf = (a: Point, b: Point): Box => ({
  x0: Math.min(a.x, b.x),
  x1: Math.max(a.x, b.x),
  y0: Math.min(a.y, b.y),
  y1: Math.max(a.y, b.y),
});

/** What of a section a profile is placed by. */
interface Carrying {
  readonly profile?: LitProfile;
  readonly width_m: number;
  readonly depth_m: number;
  readonly strip: { readonly mount: 'back' | 'front' | 'side' | 'recessed'; readonly offset_m: number };
}

/** The profile of a section where it lies; null without one. */
export function placedProfile(section: Carrying): PlacedProfile | null {
  const { profile, strip, width_m, depth_m } = section;
  if (profile === undefined) return null;
  const isSide = strip.mount === 'side';
  const at = (along_m: number, off_m: number): Point =>
    isSide ? { x: off_m, y: depth_m - along_m } : { x: along_m, y: off_m };
  const offset_m = strip.mount === 'recessed' ? 0 : strip.offset_m;
  const middle_m = isSide ? depth_m / 2 - offset_m : width_m / 2 + offset_m;
  const mouth_m = strip.mount === 'recessed' ? profile.wallHeight_m : profile.height_m;
  const box = (width: number, from: number): Box =>
    boxOf(at(middle_m - width / 2, from), at(middle_m + width / 2, mouth_m));
  return {
    ...{ profile, middle_m, mouth_m, at },
    outer: box(profile.width_m, 0),
    inner: box(profile.inside_m, mouth_m - profile.wallHeight_m),
  };
}
