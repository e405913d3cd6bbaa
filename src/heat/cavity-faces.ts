import { directExchange, facetLength, gapDirectExchange, mirroredFacet } from '../numeric/view-factors.ts';
import type { CavityFace, CavityPiece, CavityWall, FaceKind } from './cavity-piece.ts';
import type { Segment } from './conduction.ts';
import { transferLengths_m } from './grey-exchange.ts';
import { cutLines, gradedLines } from './mesh.ts';
import { cavityExchange_m, insideExchange_m, insidePieces, standingPieces } from './profile-faces.ts';
import type { SectionDescription } from './section-description.ts';
import { drawnSection } from './section-drawn.ts';
import type { SectionGeometry } from './section-geometry.ts';

/**
 * Faces of the coarsest cut: short at the ends of every piece, where what falls on a wall changes most. Beside faces a
 * third as long at every cut, some fifty sections differed by 0.03 K at most, all but one by less than 0.01 K.
 */
const finestFace_m = { cavity: 0.002, profile: 0.001 } as const;
const grading = { growth: 2.5, coarsest_m: 0.015 };

const tolerance_m = 1e-7;

function within(at: number, from: number, to: number): boolean {
  return at > Math.min(from, to) - tolerance_m && at < Math.max(from, to) + tolerance_m;
}

const isLevel = (wall: CavityWall): boolean => wall === 'backing' || wall === 'front';

function wallPlane({ cavity }: SectionGeometry, wall: CavityWall): number {
  return { backing: cavity.y1, front: cavity.y0, left: cavity.x0, right: cavity.x1 }[wall];
}

/** A stretch along a wall, in a plane of its own. */
function stretch(wall: CavityWall, plane: number, from: number, to: number): Segment {
  return isLevel(wall)
    ? { x0: from, y0: plane, x1: to, y1: plane }
    : { x0: plane, y0: from, x1: plane, y1: to };
}

/** Whether the strip is stuck to a wall. */
function carriesStrip(section: SectionDescription, wall: CavityWall): boolean {
  const { mount } = section.strip;
  return wall === { side: 'right', recessed: 'front', backing: 'backing', front: 'front' }[mount];
}

/** What carries the surface at a place along a wall, and where that surface is. */
function surfaceAt(
  section: SectionDescription,
  geometry: SectionGeometry,
  wall: CavityWall,
  place: number,
): { kind: FaceKind; emissivity: number; plane: number } {
  const { strip, carrier, slot, profile } = geometry;
  const level = isLevel(wall);
  const plain = wallPlane(geometry, wall);
  if (profile === null && carriesStrip(section, wall)) {
    const plane = level ? strip.y0 : strip.x0;
    const [s0, s1] = level ? [strip.x0, strip.x1] : [strip.y0, strip.y1];
    if (within(place, s0, s1)) return { kind: 'strip', emissivity: section.strip.emissivity, plane };
    if (carrier !== null && within(place, level ? carrier.x0 : carrier.y0, level ? carrier.x1 : carrier.y1))
      return { kind: 'carrier', emissivity: section.strip.carrier!.emissivity, plane };
  }
  if (wall === 'backing') return { kind: 'backing', emissivity: section.backing.emissivity, plane: plain };
  if (!level) return { kind: 'sides', emissivity: section.batten.emissivity, plane: plain };
  if (slot === null || !within(place, slot.x0, slot.x1))
    return { kind: 'front', emissivity: section.front.emissivity, plane: plain };
  return section.sheet === null
    ? { kind: 'opening', emissivity: 1, plane: plain }
    : { kind: 'sheet', emissivity: section.sheet.emissivity, plane: plain };
}

function piecesOfWall(
  section: SectionDescription,
  geometry: SectionGeometry,
  wall: CavityWall,
): CavityPiece[] {
  const { cavity, strip, carrier, slot, profile } = geometry;
  const spanOf = (box: Segment): [number, number] => (isLevel(wall) ? [box.x0, box.x1] : [box.y0, box.y1]);
  const [start, end] = spanOf(cavity);
  const mounted = carriesStrip(section, wall) ? (profile === null ? [strip, carrier] : [profile.outer]) : [];
  const boxes = [...mounted, wall === 'front' ? slot : null].filter((box) => box !== null);
  const inside = boxes.flatMap(spanOf).filter((at) => at > start + tolerance_m && at < end - tolerance_m);
  const stops = [start, ...inside.sort((a, b) => a - b), end];
  return stops.slice(1).flatMap((to, k) => {
    const from = stops[k]!;
    const isHidden =
      profile !== null && mounted.length > 0 && within((from + to) / 2, ...spanOf(profile.outer));
    if (to - from < tolerance_m || isHidden) return [];
    const { kind, emissivity, plane } = surfaceAt(section, geometry, wall, (from + to) / 2);
    const surface = stretch(wall, plane, from, to);
    return [{ wall, kind, emissivity, surface, ...(kind === 'strip' && { side: 'far' }) }];
  });
}

/** The pieces of the cavity's walls, the open slot's last. */
function cavityPieces(section: SectionDescription, geometry: SectionGeometry): CavityPiece[] {
  const walls: CavityWall[] = ['front', 'backing'];
  if (geometry.battenRight) walls.push('right');
  if (geometry.battenLeft) walls.push('left');
  const plain = walls.flatMap((wall) => piecesOfWall(section, geometry, wall));
  const pieces = geometry.profile === null ? plain : [...plain, ...standingPieces(section, geometry)];
  return [...pieces.filter((p) => p.kind !== 'opening'), ...pieces.filter((p) => p.kind === 'opening')];
}

/**
 * The pieces cut into faces, counter-clockwise round the cavity.
 * @param cut into how many equal parts each face of the coarsest cut is cut again, and how long that is at the ends of a piece
 */
export function cavityFaces(
  pieces: readonly CavityPiece[],
  geometry: SectionGeometry,
  { parts, finest_m }: { readonly parts: number; readonly finest_m: number },
): CavityFace[] {
  return pieces.flatMap((piece) => {
    const { wall, surface } = piece;
    const ends = isLevel(wall) ? [surface.x0, surface.x1] : [surface.y0, surface.y1];
    const breaks = ends.map((at) => ({ at, finest_m }));
    const lines = cutLines(gradedLines(breaks, grading), parts);
    const forward = wall === 'front' || wall === 'right';
    return Array.from(lines.subarray(1), (to_m, k) => {
      const from_m = lines[k]!;
      const [c, d] = forward ? [from_m, to_m] : [to_m, from_m];
      const plane =
        geometry.profile === null ? wallPlane(geometry, wall) : isLevel(wall) ? surface.y0 : surface.x0;
      return { ...stretch(wall, plane, c, d), piece, from_m, to_m };
    });
  });
}

/** Direct exchange areas per metre between the faces, with their mirror images where the section has mirrors. */
export function directExchange_m(faces: readonly CavityFace[], geometry: SectionGeometry): Float64Array {
  const n = faces.length;
  const { x0: low, x1: high } = geometry;
  const images = faces.map((face) => mirroredFacet(face, low));
  const pair = (i: number, j: number): number => {
    const [a, b] = [faces[i]!, faces[j]!];
    if (a.piece.wall === b.piece.wall && isLevel(a.piece.wall)) return 0;
    if (!geometry.battenRight) return gapDirectExchange(a, b, { low, high });
    return directExchange(a, b) + (geometry.half ? directExchange(a, images[j]!) : 0);
  };
  const exchange_m = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const length_m = pair(i, j);
      exchange_m[i * n + j] = length_m;
      exchange_m[j * n + i] = length_m;
    }
  return exchange_m;
}

/** An enclosure whose faces exchange radiation: the cavity, or the inside of a profile. */
export interface Enclosure {
  readonly pieces: readonly CavityPiece[];
  /** Faces of the coarsest cut at the ends of every piece. */
  readonly finest_m: number;
  readonly exchange_m: (faces: readonly CavityFace[]) => Float64Array;
}

/** The cavity of a section, and the inside of its profile where that is closed off from it. */
export function enclosuresOf(
  described: SectionDescription,
  geometry: SectionGeometry,
): { readonly cavity: Enclosure; readonly inside: Enclosure | null } {
  const section = drawnSection(described);
  const inside = insidePieces(section, geometry);
  return {
    cavity: {
      pieces: cavityPieces(section, geometry),
      finest_m: finestFace_m.cavity,
      exchange_m: (faces) =>
        geometry.profile === null
          ? directExchange_m(faces, geometry)
          : cavityExchange_m(section, geometry, faces),
    },
    inside:
      inside.length === 0
        ? null
        : {
            pieces: inside,
            finest_m: finestFace_m.profile,
            exchange_m: (faces) => insideExchange_m(geometry, faces),
          },
  };
}

/** Transfer lengths of the cavity's faces by their direct exchange, see `transferLengths_m`. */
export function cavityTransfer_m(faces: readonly CavityFace[], exchange_m: Float64Array): Float64Array {
  return transferLengths_m({
    length_m: Float64Array.from(faces, facetLength),
    emissivity: Float64Array.from(faces, ({ piece }) => piece.emissivity),
    exchange_m,
  });
}
