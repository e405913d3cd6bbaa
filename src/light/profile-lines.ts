import type { Drawn } from './line.ts';
import { coverOf, type LitProfile, type PlacedProfile } from './profile.ts';

/** Facets of each piece: light changes fastest across the cover and along the walls. */
const facets = { cover: 12, base: 12, wall: 10, flank: 8, rim: 3 } as const;

/** How both sides of a cover take light. */
function coverLook(profile: LitProfile) {
  const { transmittance, reflectance, straight } = coverOf(profile);
  return {
    reflectance,
    transmittance: (1 - straight) * transmittance,
    straight: straight * transmittance,
    facetCount: facets.cover,
  };
}

/** Draws lines between points along and off the face that carries the profile. */
function drawing({ at }: PlacedProfile) {
  return (
    look: Omit<Drawn, 'from' | 'to'>,
    from: readonly [number, number],
    to: readonly [number, number],
  ): Drawn => {
    const [a, b] = [at(...from), at(...to)];
    return { ...look, from: [a.x, a.y], to: [b.x, b.y] };
  };
}

/** What of the profile stands in the cavity: flank, rim, cover, rim, flank. */
export function standingLines(placed: PlacedProfile): Drawn[] {
  const { profile, middle_m: m, mouth_m: top } = placed;
  const [near, far] = [profile.inside_m / 2, profile.width_m / 2];
  const draw = drawing(placed);
  const outside = { face: 'flank', zone: 'cavity', reflectance: profile.outsideReflectance } as const;
  const flank = { ...outside, facetCount: facets.flank };
  const rim = { ...outside, facetCount: facets.rim };
  const cover = { face: 'cover', zone: 'cavity', ...coverLook(profile), straight: 0 } as const;
  return [
    draw(flank, [m - far, 0], [m - far, top]),
    draw(rim, [m - far, top], [m - near, top]),
    draw(cover, [m - near, top], [m + near, top]),
    draw(rim, [m + near, top], [m + far, top]),
    draw(flank, [m + far, top], [m + far, 0]),
  ];
}

/** The inside of the profile: base, wall, cover, wall. */
export function insideLines(placed: PlacedProfile): Drawn[] {
  const { profile, middle_m: m, mouth_m: top } = placed;
  const near = profile.inside_m / 2;
  const foot = top - profile.wallHeight_m;
  const draw = drawing(placed);
  const lining = { face: 'lining', zone: 'inside' } as const;
  const base = { ...lining, reflectance: profile.baseReflectance, facetCount: facets.base };
  const wall = { ...lining, reflectance: profile.wallReflectance, facetCount: facets.wall };
  const cover = { face: 'cover-inside', zone: 'inside', ...coverLook(profile) } as const;
  return [
    draw(base, [m - near, foot], [m + near, foot]),
    draw(wall, [m + near, foot], [m + near, top]),
    draw(cover, [m + near, top], [m - near, top]),
    draw(wall, [m - near, top], [m - near, foot]),
  ];
}

/** The outside of a cover that lies in the room face, and the room before it. */
export function mouthLines(placed: PlacedProfile): [Drawn, Drawn] {
  const { profile, middle_m: m, mouth_m: top } = placed;
  const near = profile.inside_m / 2;
  const draw = drawing(placed);
  const cover = { face: 'cover', zone: 'cavity', ...coverLook(profile), straight: 0 } as const;
  const opening = { face: 'opening', zone: 'cavity', reflectance: 0, facetCount: 1 } as const;
  return [draw(cover, [m - near, top], [m + near, top]), draw(opening, [m + near, top], [m - near, top])];
}
