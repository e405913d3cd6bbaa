import {
  exchangeLength,
  type Facet,
  facetLength,
  gapExchangeLength,
  mirroredFacet,
} from '../numeric/view-factors.ts';
import type { ConductionNetwork } from './conduction.ts';
import { transferLengths_m } from './grey-exchange.ts';
import { lineAt } from './mesh.ts';
import type { SectionDescription } from './section-description.ts';
import type { CavityWall, SectionGeometry } from './section-geometry.ts';

/** What a piece of the cavity's wall is. */
export type FaceKind = 'backing' | 'front' | 'sides' | 'sheet' | 'strip' | 'carrier' | 'opening';

/** One mesh edge of the cavity's wall. */
export interface CavityFace extends Facet {
  readonly wall: CavityWall;
  readonly kind: FaceKind;
  readonly emissivity: number;
  /** Nodes at its ends; -1 for the plane of an open slot, which belongs to the room. */
  readonly nodeA: number;
  readonly nodeB: number;
}

const tolerance_m = 1e-7;

function within(at: number, from: number, to: number): boolean {
  return at > Math.min(from, to) - tolerance_m && at < Math.max(from, to) + tolerance_m;
}

/** What carries the surface at the middle of a wall's edge, and where that surface is. */
function surfaceAt(
  section: SectionDescription,
  geometry: SectionGeometry,
  wall: CavityWall,
  middle: number,
): { kind: FaceKind; emissivity: number; plane: number } {
  const { cavity, strip, carrier, slot } = geometry;
  const level = wall === 'backing' || wall === 'front';
  const plain = { backing: cavity.y1, front: cavity.y0, left: cavity.x0, right: cavity.x1 }[wall];
  const mountedHere = wall === (section.strip.mount === 'side' ? 'right' : section.strip.mount);
  if (mountedHere) {
    const plane = level ? strip.y0 : strip.x0;
    const [s0, s1] = level ? [strip.x0, strip.x1] : [strip.y0, strip.y1];
    if (within(middle, s0, s1)) return { kind: 'strip', emissivity: section.strip.emissivity, plane };
    if (carrier !== null && within(middle, level ? carrier.x0 : carrier.y0, level ? carrier.x1 : carrier.y1))
      return { kind: 'carrier', emissivity: section.strip.carrier!.emissivity, plane };
  }
  if (wall === 'backing') return { kind: 'backing', emissivity: section.backing.emissivity, plane: plain };
  if (!level) return { kind: 'sides', emissivity: section.batten.emissivity, plane: plain };
  if (slot === null || !within(middle, slot.x0, slot.x1))
    return { kind: 'front', emissivity: section.front.emissivity, plane: plain };
  return section.sheet === null
    ? { kind: 'opening', emissivity: 1, plane: plain }
    : { kind: 'sheet', emissivity: section.sheet.emissivity, plane: plain };
}

function facesOfWall(
  section: SectionDescription,
  geometry: SectionGeometry,
  network: ConductionNetwork,
  wall: CavityWall,
): CavityFace[] {
  const { mesh } = network;
  const { cavity } = geometry;
  const nx = mesh.xs.length;
  const level = wall === 'backing' || wall === 'front';
  const lines = level ? mesh.xs : mesh.ys;
  const [start, end] = level ? [cavity.x0, cavity.x1] : [cavity.y0, cavity.y1];
  const from = lineAt(lines, start);
  const to = lineAt(lines, end);
  // The wall as the view factors see it: carriers are taken as flush with what carries them.
  const at = { backing: cavity.y1, front: cavity.y0, left: cavity.x0, right: cavity.x1 }[wall];
  const faces: CavityFace[] = [];
  for (let k = from; k < to; k++) {
    const [p, q] = [lines[k]!, lines[k + 1]!];
    const { kind, emissivity, plane } = surfaceAt(section, geometry, wall, (p + q) / 2);
    const line = lineAt(level ? mesh.ys : mesh.xs, plane);
    const crossing = (step: number): number => (level ? line * nx + k + step : (k + step) * nx + line);
    const nodes = kind === 'strip' ? network.slitNode : network.node;
    const open = kind === 'opening';
    const forward = wall === 'front' || wall === 'right';
    const [c, d] = forward ? [p, q] : [q, p];
    faces.push({
      ...(level ? { x0: c, y0: at, x1: d, y1: at } : { x0: at, y0: c, x1: at, y1: d }),
      wall,
      kind,
      emissivity,
      nodeA: open ? -1 : nodes[crossing(0)]!,
      nodeB: open ? -1 : nodes[crossing(1)]!,
    });
  }
  return faces;
}

/** All faces of the cavity, counter-clockwise wall by wall, the open slot's last. */
export function cavityFaces(
  section: SectionDescription,
  geometry: SectionGeometry,
  network: ConductionNetwork,
): CavityFace[] {
  const walls: CavityWall[] = ['front', 'backing'];
  if (geometry.battenRight) walls.push('right');
  if (geometry.battenLeft) walls.push('left');
  const faces = walls.flatMap((wall) => facesOfWall(section, geometry, network, wall));
  return [...faces.filter((f) => f.nodeA >= 0), ...faces.filter((f) => f.nodeA < 0)];
}

/** Exchange lengths between the faces, with their mirror images where the section has mirrors. */
export function exchangeLengths_m(faces: readonly Facet[], geometry: SectionGeometry): Float64Array {
  const n = faces.length;
  const { x0: low, x1: high } = geometry;
  const images = faces.map((face) => mirroredFacet(face, low));
  const pair = (i: number, j: number): number => {
    const [a, b] = [faces[i]!, faces[j]!];
    if (!geometry.battenRight) return gapExchangeLength(a, b, { low, high });
    return exchangeLength(a, b) + (geometry.half ? exchangeLength(a, images[j]!) : 0);
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

/** Transfer lengths of the cavity's faces, see `transferLengths_m`. */
export function cavityTransfer_m(faces: readonly CavityFace[], geometry: SectionGeometry): Float64Array {
  return transferLengths_m({
    length_m: Float64Array.from(faces, facetLength),
    emissivity: Float64Array.from(faces, (f) => f.emissivity),
    exchange_m: exchangeLengths_m(faces, geometry),
  });
}
