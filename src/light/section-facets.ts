import type { Facet } from '../numeric/view-factors.ts';
import { type LitSection, slotEdges } from './section.ts';

/** The faces light falls on; `opening` is the room side of the slot, where light leaves for good. */
export type Face = 'back' | 'sides' | 'front' | 'sheet' | 'sheet-outside' | 'reveal' | 'opening';

/** A strip of a face over which light is taken as even across the section. */
export interface SectionFacet extends Facet {
  readonly face: Face;
  /** Behind the slot plane, or in the thickness of the front. */
  readonly zone: 'cavity' | 'reveal';
  /** Measures the light that falls on it and is otherwise not there. */
  readonly probe: boolean;
  readonly reflectance: number;
  readonly transmittance: number;
  /** The facet on the other side of the sheet, or -1. */
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

interface Line {
  readonly face: Face;
  readonly zone: 'cavity' | 'reveal';
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly facetCount: number;
  readonly reflectance: number;
  readonly transmittance?: number;
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
    const { face, zone, reflectance, transmittance = 0 } = line;
    return { x0, y0, x1, y1, face, zone, probe: false, reflectance, transmittance, partner: -1 };
  });
}

/** Facets for a line: a dozen, more where it is long against the depth light has to spread over. */
function facetCount(line: Omit<Line, 'facetCount'>, depth_m: number, fineness: number): number {
  const length_m = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
  const needed = Math.min(48, Math.max(12, Math.ceil((4 * length_m) / depth_m)));
  return Math.round(fineness * needed);
}

/** The faces of the cavity, counter-clockwise from the left end of the back, which is parted below the slot's edges. */
function cavityLines(section: LitSection, fineness: number): Line[] {
  const { width_m: w, depth_m: d, reflectance, sheet } = section;
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const sideLight = { face: 'sides', zone: 'cavity', reflectance: reflectance.sides } as const;
  const backLight = { face: 'back', zone: 'cavity', reflectance: reflectance.back } as const;
  const frontLight = { face: 'front', zone: 'cavity', reflectance: reflectance.front } as const;
  const all: (Omit<Line, 'facetCount'> | null)[] = [
    { ...backLight, from: [0, 0], to: [s0, 0] },
    { ...backLight, from: [s0, 0], to: [s1, 0] },
    { ...backLight, from: [s1, 0], to: [w, 0] },
    section.endless ? null : { ...sideLight, from: [w, 0], to: [w, d] },
    { ...frontLight, from: [w, d], to: [s1, d] },
    sheet && { face: 'sheet', zone: 'cavity', ...sheet, from: [s1, d], to: [s0, d] },
    { ...frontLight, from: [s0, d], to: [0, d] },
    section.endless ? null : { ...sideLight, from: [0, d], to: [0, 0] },
  ];
  const tiny = 1e-9 * w;
  return all
    .filter((line) => line !== null)
    .filter(({ from, to }) => Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]) > tiny)
    .map((line) => ({ ...line, facetCount: facetCount(line, d, fineness) }));
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

/** Joins each sheet facet to the one on its other side; the two sides run in opposite senses. */
function joinSheet(facets: readonly SectionFacet[]): SectionFacet[] {
  const inside = facets.flatMap((f, i) => (f.face === 'sheet' ? [i] : []));
  const outside = facets.flatMap((f, i) => (f.face === 'sheet-outside' ? [i] : [])).reverse();
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
    ...{ face, zone: 'cavity', probe: true, reflectance: 0, transmittance: 0, partner: -1 },
    ...{ x0, y0: y, x1, y1: y },
  });
  return [
    probe('sheet', section.depth_m, s1, s0),
    probe('sheet', section.depth_m, centre + hair, centre - hair),
    probe('back', 0, s0, s1),
    probe('back', 0, centre - hair, centre + hair),
  ];
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
  const lines = [...cavityLines(section, fineness), ...revealLines(section, fineness)];
  const faces = joinSheet(lines.flatMap(cut));
  const first = faces.length;
  return {
    facets: [...faces, ...probeFacets(section)],
    probes: { slotPlane: first, slotCentre: first + 1, seenBack: first + 2, seenBackCentre: first + 3 },
  };
}
