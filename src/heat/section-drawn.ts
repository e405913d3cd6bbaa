import { type Layer, type Profile, profileWidth_m, type SectionDescription } from './section-description.ts';

/** Widths are drawn to this, so that their halves and all edges lie on a grid of half of it. */
const grid_m = 2e-6;

const drawn = (length_m: number): number => Math.round(length_m / grid_m) * grid_m;

/** Nothing vanishes by being drawn. */
const atLeast = (length_m: number): number => Math.max(grid_m, drawn(length_m));

const layer = <Solid extends Pick<Layer, 'thickness_m'>>(solid: Solid): Solid => ({
  ...solid,
  thickness_m: atLeast(solid.thickness_m),
});

const profileDrawn = (profile: Profile): Profile => ({
  ...profile,
  base_m: atLeast(profile.base_m),
  wall_m: atLeast(profile.wall_m),
  inside_m: atLeast(profile.inside_m),
  wallHeight_m: atLeast(profile.wallHeight_m),
  cover: profile.cover && layer(profile.cover),
});

/**
 * A section as it is drawn: every length to 2 µm, so that two edges are one or at least 1 µm apart, and what touches to
 * within that does not reach beyond what it touches. A wall is built to tenths of a millimetre; a mesh with two lines
 * nearer than it can tell apart has no answer at all.
 *
 * @param section one that `sectionIssues` found nothing against
 * Check: `tests/trials/geometry.test.ts`.
 */
export function drawnSection(section: SectionDescription): SectionDescription {
  const { strip } = section;
  const front = layer(section.front);
  const pitch_m = drawn(section.pitch_m);
  const cavityDepth_m = atLeast(section.cavityDepth_m);
  const profile = strip.profile && profileDrawn(strip.profile);
  const mouth_m = strip.mount === 'recessed' && profile ? profileWidth_m(profile) : section.slotWidth_m;
  const slotWidth_m = Math.min(drawn(mouth_m), pitch_m - grid_m);
  const batten_m = section.battenWidth_m === 0 ? 0 : atLeast(section.battenWidth_m);
  const battenWidth_m = Math.min(batten_m, pitch_m - slotWidth_m);
  const { sheet, edge_m } = section;
  const tallest_m = (strip.mount === 'side' ? pitch_m - battenWidth_m : cavityDepth_m) - grid_m;
  return {
    ...section,
    ...(edge_m !== undefined && { edge_m: drawn(edge_m) }),
    ...{ pitch_m, slotWidth_m, battenWidth_m, cavityDepth_m, front, backing: layer(section.backing) },
    sheet: sheet && {
      ...layer(sheet),
      thickness_m: Math.min(atLeast(sheet.thickness_m), front.thickness_m),
    },
    strip: {
      ...strip,
      width_m: atLeast(strip.width_m),
      offset_m: drawn(strip.offset_m),
      ...(profile && { profile }),
      carrier: strip.carrier && {
        ...strip.carrier,
        width_m: atLeast(strip.carrier.width_m),
        thickness_m: Math.min(atLeast(strip.carrier.thickness_m), tallest_m),
      },
    },
  };
}
