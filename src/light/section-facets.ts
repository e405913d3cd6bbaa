import type { Facet } from '../numeric/view-factors.ts';
import type { Drawn, Face, Line, Zone } from './line.ts';
import { type PlacedProfile, placedProfile } from './profile.ts';
import { insideLines, mouthLines, standingLines } from './profile-lines.ts';
import { type LitSection, slotEdges } from './section.ts';

/** A strip of a face over which light is taken as even across the section. */
export interface SectionFacet extends Facet {
  readonly face: Face;
  /** Behind the slot plane, in the thickness of the front, or inside a profile. */
  readonly zone: Zone;
  /** Measures the light that falls on it and is otherwise not there. */
  readonly probe: boolean;
  readonly reflectance: number;
  /** What passes and leaves as from a matt face, and what passes straight. */
  readonly transmittance: number;
  readonly straight: number;
  /** The facet on the other side of the sheet or cover, or -1. */
  readonly partner: number;
}

/** Places at which light is measured, as positions in the list of facets. */
export interface Probes {
  readonly slotPlane: number;
  readonly slotCentre: number;
  /** The part of the back straight behind the slot, and the line on it behind the slot's centre. */
  readonly seenBack: number;
  readonly seenBackCentre: number;
}

/** Cuts a line into facets that grow finer towards its ends, where light changes fastest. */
function cut(line: Line): SectionFacet[] {
  const node = (i: number): readonly [number, number] => {
    const share = (1 - Math.cos((Math.PI * i) / line.facetCount)) / 2;
    return [
      line.from[0] + share * (line.to[0] - line.from[0]),
      line.from[1] + share * (line.to[1] - line.from[1]),
    ];
  };
  return Array.from({ length: line.facetCount }, (_, i) => {
    const [x0, y0] = node(i);
    const [x1, y1] = node(i + 1);
    const { face, zone, reflectance, transmittance = 0, straight = 0 } = line;
    return { x0, y0, x1, y1, face, zone, probe: false, reflectance, transmittance, straight, partner: -1 };
  });
}

/** A line that brings its own number of facets, as many times as fine as asked. */
const counted = ({ facetCount: own, ...line }: Drawn, fineness: number) => ({
  ...line,
  ...(own !== undefined && { facetCount: Math.round(own * fineness) }),
});

/** Facets for a line: a dozen, more where it is long against the depth light has to spread over. */
function facetCount(line: Omit<Line, 'facetCount'>, depth_m: number, fineness: number): number {
  const length_m = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
  const needed = Math.min(48, Math.max(12, Math.ceil((4 * length_m) / depth_m)));
  return Math.round(fineness * needed);
}

type Look = Pick<Line, 'face' | 'zone' | 'reflectance'>;

/** The back from the left, parted below the slot's edges, with the profile that stands on it. */
function backLines(section: LitSection, look: Look): Drawn[] {
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const { width_m: w, strip } = section;
  const placed = strip.mount === 'back' ? placedProfile(section) : null;
  const ends = placed === null ? [] : [placed.outer.x0, placed.outer.x1];
  const stops = [0, s0, s1, ...ends, w].sort((a, b) => a - b);
  const isUnder = (x: number): boolean => placed !== null && x > placed.outer.x0 && x < placed.outer.x1;
  const lines = stops.slice(1).flatMap((to, k): Drawn[] => {
    const from = stops[k]!;
    return isUnder((from + to) / 2) ? [] : [{ ...look, from: [from, 0], to: [to, 0] }];
  });
  return placed === null ? lines : [...lines, ...standingLines(placed)];
}

/** The left side from the front, with the profile that stands on it. */
function leftLines(section: LitSection, look: Look): Drawn[] {
  const { depth_m: d, strip } = section;
  const placed = strip.mount === 'side' ? placedProfile(section) : null;
  if (placed === null) return [{ ...look, from: [0, d], to: [0, 0] }];
  const { outer } = placed;
  return [
    { ...look, from: [0, d], to: [0, outer.y1] },
    ...standingLines(placed),
    { ...look, from: [0, outer.y0], to: [0, 0] },
  ];
}

/** The faces of the cavity, counter-clockwise from the left end of the back, which is parted below the slot's edges. */
function cavityLines(section: LitSection, fineness: number): Line[] {
  const { width_m: w, depth_m: d, reflectance, sheet } = section;
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const sideLight = { face: 'sides', zone: 'cavity', reflectance: reflectance.sides } as const;
  const backLight = { face: 'back', zone: 'cavity', reflectance: reflectance.back } as const;
  const frontLight = { face: 'front', zone: 'cavity', reflectance: reflectance.front } as const;
  const all: (Drawn | null)[] = [
    ...backLines(section, backLight),
    section.endless ? null : { ...sideLight, from: [w, 0], to: [w, d] },
    { ...frontLight, from: [w, d], to: [s1, d] },
    sheet && { face: 'sheet', zone: 'cavity', ...sheet, from: [s1, d], to: [s0, d] },
    { ...frontLight, from: [s0, d], to: [0, d] },
    ...(section.endless ? [] : leftLines(section, sideLight)),
  ];
  const tiny = 1e-9 * w;
  return all
    .filter((line) => line !== null)
    .filter(({ from, to }) => Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]) > tiny)
    .map((line) => ({ facetCount: facetCount(line, d, fineness), ...counted(line, fineness) }));
}

/** The faces in the thickness of the front, counter-clockwise from the sheet's outside. */
function revealLines(section: LitSection, fineness: number): Line[] {
  const { depth_m: d, reveal, sheet } = section;
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const top = d + reveal.depth_m;
  const jambCount = Math.round(6 * fineness);
  const jamb = {
    face: 'reveal',
    zone: 'reveal',
    facetCount: jambCount,
    reflectance: reveal.reflectance,
  } as const;
  const lines: Line[] = [
    { face: 'opening', zone: 'reveal', from: [s1, top], to: [s0, top], facetCount: 1, reflectance: 0 },
  ];
  if (reveal.depth_m > 0) {
    lines.push({ ...jamb, from: [s1, d], to: [s1, top] }, { ...jamb, from: [s0, top], to: [s0, d] });
  }
  if (sheet) {
    const line = { face: 'sheet-outside', zone: 'reveal', ...sheet, from: [s0, d], to: [s1, d] } as const;
    lines.push({ ...line, facetCount: facetCount(line, d, fineness) });
  }
  return lines;
}

/** Joins each facet of a sheet to the one on its other side; the two sides run in opposite senses. */
function joinSides(facets: readonly SectionFacet[], [near, far]: readonly [Face, Face]): SectionFacet[] {
  const inside = facets.flatMap((f, i) => (f.face === near ? [i] : []));
  const outside = facets.flatMap((f, i) => (f.face === far ? [i] : [])).reverse();
  return facets.map((facet, i) => {
    const own = inside.indexOf(i);
    if (own >= 0) return { ...facet, partner: outside[own]! };
    const other = outside.indexOf(i);
    return other >= 0 ? { ...facet, partner: inside[other]! } : facet;
  });
}

/** Facets that only measure: the slot plane, its centre line, and the back seen through the slot. */
function probeFacets(section: LitSection): SectionFacet[] {
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const centre = (s0 + s1) / 2;
  const hair = section.slotWidth_m / 2000;
  const probe = (face: Face, y: number, x0: number, x1: number): SectionFacet => ({
    ...{ face, zone: 'cavity', probe: true, reflectance: 0, transmittance: 0, straight: 0, partner: -1 },
    ...{ x0, y0: y, x1, y1: y },
  });
  return [
    probe('sheet', section.depth_m, s1, s0),
    probe('sheet', section.depth_m, centre + hair, centre - hair),
    probe('back', 0, s0, s1),
    probe('back', 0, centre - hair, centre + hair),
  ];
}

/** The facets of a profile that is all there is: its inside, its cover, and the room before it. */
function recessedFacets(placed: PlacedProfile, lining: readonly Line[], fineness: number) {
  const [cover, opening] = mouthLines(placed).map((line) => counted(line, fineness) as Line);
  const faces = joinSides([...lining, cover!, opening!].flatMap(cut), ['cover-inside', 'cover']);
  const { inner } = placed;
  const [middle, hair] = [(inner.x0 + inner.x1) / 2, (inner.x1 - inner.x0) / 2000];
  const probe = (x0: number, x1: number): SectionFacet => ({
    ...{
      face: 'cover-inside',
      zone: 'inside',
      probe: true,
      reflectance: 0,
      transmittance: 0,
      straight: 0,
      partner: -1,
    },
    ...{ x0, x1, y0: inner.y1, y1: inner.y1 },
  });
  const [plane, centre] = [faces.length, faces.length + 1];
  return {
    facets: [...faces, probe(inner.x1, inner.x0), probe(middle + hair, middle - hair)],
    probes: { slotPlane: plane, slotCentre: centre, seenBack: plane, seenBackCentre: centre },
  };
}

/**
 * Cuts the section into facets, counter-clockwise round the cavity and round the reveal, and adds the probes.
 *
 * @param section a section whose rules have been checked.
 * @param fineness multiplies the number of facets on every face; 1 is meant for use, more for proof.
 * @returns facets with the probes last, and where the probes are.
 */
export function sectionFacets(
  section: LitSection,
  fineness: number,
): { readonly facets: readonly SectionFacet[]; readonly probes: Probes } {
  const placed = placedProfile(section);
  const lining = placed === null ? [] : insideLines(placed).map((line) => counted(line, fineness) as Line);
  if (placed !== null && section.strip.mount === 'recessed') return recessedFacets(placed, lining, fineness);
  const lines = [...cavityLines(section, fineness), ...revealLines(section, fineness), ...lining];
  const faces = joinSides(joinSides(lines.flatMap(cut), ['sheet', 'sheet-outside']), [
    'cover-inside',
    'cover',
  ]);
  const first = faces.length;
  return {
    facets: [...faces, ...probeFacets(section)],
    probes: { slotPlane: first, slotCentre: first + 1, seenBack: first + 2, seenBackCentre: first + 3 },
  };
}
