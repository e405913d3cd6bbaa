import { type Box, closeRows, tautStrings } from '../numeric/taut-strings.ts';
import { type Facet, mirroredFacet } from '../numeric/view-factors.ts';
import type { CavityFace, CavityPiece, CavityWall } from './cavity-piece.ts';
import type { Segment } from './conduction.ts';
import { type ProfileGeometry, profileBlocks } from './profile-geometry.ts';
import { type Profile, profileHeight_m, type SectionDescription } from './section-description.ts';
import type { SectionGeometry } from './section-geometry.ts';

type Edge = 'x0' | 'x1' | 'y0' | 'y1';

/** Which wall of a room an edge of a box is like, for what lies outside it and for what lies inside. */
const seenFrom: Readonly<Record<'outside' | 'inside', Readonly<Record<Edge, CavityWall>>>> = {
  outside: { x0: 'right', x1: 'left', y0: 'backing', y1: 'front' },
  inside: { x0: 'left', x1: 'right', y0: 'front', y1: 'backing' },
};

/** How a profile's own directions lie in the section. */
function edgesOf({ strip }: SectionDescription): { mouth: Edge; rear: Edge; low: Edge; high: Edge } {
  return strip.mount === 'side'
    ? { mouth: 'x0', rear: 'x1', low: 'y0', high: 'y1' }
    : { mouth: 'y0', rear: 'y1', low: 'x0', high: 'x1' };
}

type Span = readonly [number, number];

/** Pieces of a profile by where they are along and off the face that carries it. */
function laying(profile: ProfileGeometry) {
  return (
    piece: Pick<CavityPiece, 'wall' | 'kind' | 'emissivity'> & Partial<CavityPiece>,
    along: Span,
    off: Span,
  ): CavityPiece[] => {
    const surface: Segment = profile.placed(along, off);
    const hasLength = surface.x1 - surface.x0 + surface.y1 - surface.y0 > 1e-7;
    return hasLength ? [{ ofProfile: true, ...piece, surface }] : [];
  };
}

/** Widths of a profile from its middle, and heights off the face that carries it. */
function measures({ inside_m, wall_m, base_m, wallHeight_m }: Profile, middle: number) {
  const [near, far] = [inside_m / 2, inside_m / 2 + wall_m];
  return {
    ...{ low: middle - far, innerLow: middle - near, innerHigh: middle + near, high: middle + far },
    ...{ base: base_m, rim: base_m + wallHeight_m },
  };
}

/** The two flanks up to a height, the edges of the cover being part of them; of a half section there is one. */
function flanks(
  section: SectionDescription,
  geometry: SectionGeometry,
  from: number,
  to: number,
): CavityPiece[] {
  const profile = section.strip.profile!;
  const drawn = geometry.profile!;
  const lay = laying(drawn);
  const { low, high, rim } = measures(profile, drawn.middle);
  const edges = edgesOf(section);
  const sides = [
    { at: high, wall: seenFrom.outside[edges.high] },
    ...(geometry.half ? [] : [{ at: low, wall: seenFrom.outside[edges.low] }]),
  ];
  const flank = { kind: 'flank', side: 'far' } as const;
  return sides.flatMap(({ at, wall }) => [
    ...lay({ ...flank, wall, emissivity: profile.outsideEmissivity }, [at, at], [from, Math.min(to, rim)]),
    ...lay(
      { ...flank, wall, emissivity: profile.cover?.emissivity ?? 1 },
      [at, at],
      [Math.max(from, rim), to],
    ),
  ]);
}

/** Strip, base and walls inside the profile. */
function linings(section: SectionDescription, geometry: SectionGeometry): CavityPiece[] {
  const profile = section.strip.profile!;
  const lay = laying(geometry.profile!);
  const m = measures(profile, geometry.profile!.middle);
  const edges = edgesOf(section);
  const half_m = section.strip.width_m / 2;
  const { middle } = geometry.profile!;
  const [from, to] = [middle - half_m, middle + half_m];
  const floor: Span = [m.base, m.base];
  const metal = { emissivity: profile.insideEmissivity };
  const base = { ...metal, kind: 'profile base', wall: seenFrom.inside[edges.rear] } as const;
  const wall = { ...metal, kind: 'profile wall' } as const;
  return [
    ...lay({ ...base, kind: 'strip', emissivity: section.strip.emissivity, side: 'far' }, [from, to], floor),
    ...(geometry.half ? [] : lay(base, [m.innerLow, from], floor)),
    ...lay(base, [to, m.innerHigh], floor),
    ...lay({ ...wall, wall: seenFrom.inside[edges.high] }, [m.innerHigh, m.innerHigh], [m.base, m.rim]),
    ...(geometry.half
      ? []
      : lay({ ...wall, wall: seenFrom.inside[edges.low] }, [m.innerLow, m.innerLow], [m.base, m.rim])),
  ];
}

/** What of the profile stands in the cavity, and the jambs of a niche behind it. */
export function standingPieces(section: SectionDescription, geometry: SectionGeometry): CavityPiece[] {
  const profile = section.strip.profile!;
  const drawn = geometry.profile!;
  const lay = laying(drawn);
  const m = measures(profile, drawn.middle);
  const edges = edgesOf(section);
  const height = profileHeight_m(profile);
  const outside = { emissivity: profile.outsideEmissivity, side: 'far' } as const;
  if (section.strip.mount === 'recessed') {
    const out = height - section.front.thickness_m;
    const rear = { ...outside, kind: 'profile face', wall: seenFrom.outside[edges.rear] } as const;
    const jambs = { kind: 'front', emissivity: section.front.emissivity, ofProfile: false } as const;
    return [
      ...lay(rear, [m.low, m.high], [0, 0]),
      ...flanks(section, geometry, 0, Math.max(0, out)),
      ...lay({ ...jambs, wall: 'right' }, [m.high, m.high], [Math.min(0, out), 0]),
      ...(geometry.half ? [] : lay({ ...jambs, wall: 'left' }, [m.low, m.low], [Math.min(0, out), 0])),
    ];
  }
  const mouth = seenFrom.outside[edges.mouth];
  const beside = flanks(section, geometry, 0, height);
  if (profile.cover !== null) {
    const cover = {
      kind: 'profile face',
      wall: mouth,
      emissivity: profile.cover.emissivity,
      side: 'far',
    } as const;
    return [...beside, ...lay(cover, [m.low, m.high], [height, height])];
  }
  const rim = { ...outside, kind: 'profile face', wall: mouth } as const;
  return [
    ...beside,
    ...(geometry.half ? [] : lay(rim, [m.low, m.innerLow], [height, height])),
    ...lay(rim, [m.innerHigh, m.high], [height, height]),
    ...linings(section, geometry),
  ];
}

/** The faces inside a profile that is closed by a cover, or by the mouth of the slot; none where it is open to the cavity. */
export function insidePieces(section: SectionDescription, geometry: SectionGeometry): CavityPiece[] {
  const { profile, mount } = section.strip;
  if (profile === undefined || (profile.cover === null && mount !== 'recessed')) return [];
  const m = measures(profile, geometry.profile!.middle);
  const wall = seenFrom.inside[edgesOf(section).mouth];
  const end =
    profile.cover === null
      ? ({ kind: 'opening', wall, emissivity: 1 } as const)
      : ({ kind: 'cover inside', wall, emissivity: profile.cover.emissivity } as const);
  return [
    ...linings(section, geometry),
    ...laying(geometry.profile!)(end, [m.innerLow, m.innerHigh], [m.rim, m.rim]),
  ];
}

/** A way a face is seen again: turned over at a mirror or not, and moved along the panel. */
interface Image {
  readonly mirrored: boolean;
  readonly moved_m: number;
}

/** Images of an endless gap are followed so many depths to either side, and so many periods; what is further closes the rows. */
const followed = { depths: 5, periods: 4 } as const;

/** How the mirrors of a section show the cavity: at the middle of the slot, or endlessly where no batten stands. */
function imagesOf({ half, battenRight, x0, x1, cavity }: SectionGeometry): Image[] {
  if (battenRight) return mirrorsOf(half);
  const period_m = 2 * (x1 - x0);
  const needed = 1 + Math.ceil((followed.depths * (cavity.y1 - cavity.y0)) / period_m);
  const reach = Math.min(followed.periods, needed);
  return Array.from({ length: 2 * reach + 1 }, (_, k) => (k - reach) * period_m).flatMap((moved_m) =>
    mirrorsOf(true).map((image) => ({ ...image, moved_m })),
  );
}

const mirrorsOf = (isMirrored: boolean): Image[] =>
  (isMirrored ? [false, true] : [false]).map((mirrored) => ({ mirrored, moved_m: 0 }));

const turnedFacet = (facet: Facet, { mirrored, moved_m }: Image, low: number): Facet => {
  const turned = mirrored ? mirroredFacet(facet, low) : facet;
  return { ...turned, x0: turned.x0 + moved_m, x1: turned.x1 + moved_m };
};

const turnedBox = (box: Box, { mirrored, moved_m }: Image, low: number): Box => ({
  ...box,
  x0: (mirrored ? 2 * low - box.x1 : box.x0) + moved_m,
  x1: (mirrored ? 2 * low - box.x0 : box.x1) + moved_m,
});

/** A room with its blocks, and how mirrors along `x = low` show it. */
interface MirroredRoom {
  readonly low: number;
  readonly images: readonly Image[];
  readonly box: Box;
  readonly blocks: readonly Box[];
}

/** Direct exchange areas per metre between faces of a room, the images of the second among them. */
function exchangeAmong_m(
  faces: readonly CavityFace[],
  { low, images, box, blocks }: MirroredRoom,
): Float64Array {
  const boxes = images.map((image) => turnedBox(box, image, low));
  const { anchored, exchange_m } = tautStrings({
    bounds: {
      ...box,
      x0: Math.min(...boxes.map(({ x0 }) => x0)),
      x1: Math.max(...boxes.map(({ x1 }) => x1)),
    },
    blocks: images.flatMap((image) => blocks.map((block) => turnedBox(block, image, low))),
  });
  const own = faces.map(anchored);
  const seen = images.map((image) => faces.map((face) => anchored(turnedFacet(face, image, low))));
  const n = faces.length;
  const table_m = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const length_m = seen.reduce((sum, there) => sum + exchange_m(own[i]!, there[j]!), 0);
      table_m[i * n + j] = length_m;
      table_m[j * n + i] = length_m;
    }
  return table_m;
}

/** Direct exchange areas per metre between the faces of the cavity, past the profile that stands in it. */
export function cavityExchange_m(
  section: SectionDescription,
  geometry: SectionGeometry,
  faces: readonly CavityFace[],
): Float64Array {
  const { cavity, battenRight, x0, x1 } = geometry;
  const ends = battenRight ? cavity : { x0, x1 };
  const table_m = exchangeAmong_m(faces, {
    low: x0,
    images: imagesOf(geometry),
    box: { x0: ends.x0, x1: ends.x1, y0: 0, y1: cavity.y1 },
    blocks: profileBlocks(section, geometry, geometry.profile!),
  });
  if (!battenRight) closeRows(table_m, faces);
  return table_m;
}

/** Direct exchange areas per metre between the faces inside a profile. */
export function insideExchange_m(
  { half, x0, profile }: SectionGeometry,
  faces: readonly CavityFace[],
): Float64Array {
  return exchangeAmong_m(faces, { low: x0, images: mirrorsOf(half), box: profile!.inner, blocks: [] });
}
