import type { CavityPiece } from './cavity-piece.ts';
import { type ConductionNetwork, nodesAlong } from './conduction.ts';
import type { AbsorbingFace, SectionLoads } from './section-description.ts';
import type { SectionGeometry } from './section-geometry.ts';
import type { CavityRadiation } from './section-radiation.ts';

/** What heat lands on. */
export interface HeatedParts {
  readonly network: ConductionNetwork;
  readonly geometry: SectionGeometry;
  readonly radiation: CavityRadiation;
  /** Inside a profile that is closed off from the cavity. */
  readonly inside: CavityRadiation | null;
}

/** A node and how much of an even load it takes. */
interface Landing {
  readonly node: number;
  readonly length_m: number;
}

/**
 * The sides of the cavity as light falls on them, strip and carrier being part of the side they lie on: so a carrier
 * may take up all of a side, and nothing jumps when it does.
 */
const landsOn: Readonly<Record<Exclude<AbsorbingFace, 'jambs'>, (piece: CavityPiece) => boolean>> = {
  backing: ({ wall, ofProfile }) => wall === 'backing' && ofProfile !== true,
  front: ({ wall, kind, ofProfile }) =>
    wall === 'front' && kind !== 'sheet' && kind !== 'opening' && ofProfile !== true,
  sides: ({ wall, kind, ofProfile }) =>
    wall !== 'backing' && wall !== 'front' && kind !== 'front' && ofProfile !== true,
  sheet: ({ kind }) => kind === 'sheet',
  cover: ({ kind }) => kind === 'cover inside',
  profile: ({ kind }) => kind === 'profile wall',
};

/** Every enclosure of a level. */
export const roomsOf = ({
  radiation,
  inside,
}: Pick<HeatedParts, 'radiation' | 'inside'>): CavityRadiation[] =>
  inside === null ? [radiation] : [radiation, inside];

function landings(level: HeatedParts, face: AbsorbingFace): Landing[] {
  const { network, geometry } = level;
  if (face === 'jambs')
    return geometry.films.filter(({ name }) => name === 'jambs').flatMap((film) => nodesAlong(network, film));
  return roomsOf(level)
    .flatMap(({ pieces }) => pieces)
    .filter((piece) => landsOn[face](piece))
    .flatMap(({ surface, side }) => nodesAlong(network, surface, side));
}

/**
 * What is heated in the stead of a face that a section does not have, or has by a hair only: battens flush with the slot
 * leave no front, a sheet as thick as the front leaves no jambs.
 */
const instead: Readonly<Partial<Record<AbsorbingFace, readonly AbsorbingFace[]>>> = {
  front: ['jambs', 'sheet'],
  jambs: ['front', 'sheet'],
};

function warmed(level: HeatedParts, face: AbsorbingFace): Landing[] {
  const faces = [face, ...(instead[face] ?? [])];
  return faces.map((one) => landings(level, one)).find((found) => found.length > 0) ?? [];
}

/** Spreads watts evenly over the length of what is warmed. */
function spread(watts: number, over: readonly Landing[], heat_W: Float64Array): void {
  const length = over.reduce((sum, n) => sum + n.length_m, 0);
  for (const { node, length_m } of over) heat_W[node] = heat_W[node]! + (watts * length_m) / length;
}

/**
 * Heat put into each node, W per metre of height: the strip's at its tape, light where it is absorbed. In a half section,
 * half of it. Throws where light is said to fall on what the section does not have.
 * Check: conservation in `tests/heat/section-field.test.ts`.
 */
export function landedHeat_W(level: HeatedParts, loads: SectionLoads): Float64Array {
  const share = level.geometry.half ? 0.5 : 1;
  const heat_W = new Float64Array(level.network.nodeCount);
  spread(share * loads.strip_W_per_m, nodesAlong(level.network, level.geometry.strip, 'far'), heat_W);
  for (const [face, watts] of Object.entries(loads.facesAbsorbed_W_per_m ?? {})) {
    if (watts === 0) continue;
    const over = warmed(level, face as AbsorbingFace);
    if (over.length === 0) throw new RangeError(`light on the ${face}, which this section does not have`);
    spread(share * watts, over, heat_W);
  }
  return heat_W;
}
