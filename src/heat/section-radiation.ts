import { innerProduct } from '../numeric/inner-product.ts';
import { facetLength } from '../numeric/view-factors.ts';
import { stefanBoltzmann_W_per_m2K4 } from './air.ts';
import { cavityFaces, cavityTransfer_m, type Enclosure } from './cavity-faces.ts';
import type { CavityFace, CavityPiece } from './cavity-piece.ts';
import { type ConductionNetwork, nodesAlong } from './conduction.ts';
import type { SectionGeometry } from './section-geometry.ts';

/**
 * Radiation between the faces of an enclosure as conductances at one state: `q_ij = K_ij*sigma*(Ti^4 - Tj^4)` equals
 * `W_ij*(Ti - Tj)` with `W_ij = K_ij*sigma*(Ti^2 + Tj^2)*(Ti + Tj)`, which is symmetric, T being a face's mean. What falls
 * on a face is spread evenly over it; what it emits follows the temperature along it, by `4*e*sigma*T^3` more for each
 * kelvin over the mean, so that a face may be longer than the cells beside it. Faces of the open slot come last and
 * stand at room temperature.
 */
export interface CavityRadiation {
  readonly pieces: readonly CavityPiece[];
  readonly faces: readonly CavityFace[];
  /** Direct exchange areas per metre between the faces, and transfer lengths with all reflections. */
  readonly exchange_m: Float64Array;
  readonly transfer_m: Float64Array;
  /** How many faces belong to the section; the rest is the open slot. */
  readonly ownCount: number;
  /** Where each own face's nodes begin in `node`, at last where they end, and what share of the face each one has. */
  readonly nodeStart: Int32Array;
  readonly node: Int32Array;
  readonly share: Float64Array;
  /** Conductance between own faces, by rows of `ownCount`. */
  readonly pair_W_per_mK: Float64Array;
  /** Conductance of each own face to all others, the open slot included. */
  readonly total_W_per_mK: Float64Array;
  /** How much more each own face emits the warmer it is. */
  readonly emitted_W_per_mK: Float64Array;
  /** Conductance of each own face to the open slot. */
  readonly toRoom_W_per_mK: Float64Array;
}

/** Sets up the radiation in an enclosure of a section on a mesh. @param parts see `cavityFaces` */
export function radiationOf(
  { pieces, finest_m, exchange_m: exchange }: Enclosure,
  geometry: SectionGeometry,
  network: ConductionNetwork,
  parts: number,
): CavityRadiation {
  const faces = cavityFaces(pieces, geometry, { parts, finest_m });
  const own = faces.filter((face) => face.piece.kind !== 'opening');
  const exchange_m = exchange(faces);
  return {
    ...{ pieces, faces, exchange_m, transfer_m: cavityTransfer_m(faces, exchange_m) },
    ...nodeShares(own, network),
    ...conductancesAmong(own.length),
  };
}

/** The radiation in a section of the same sizes as another one, on the same mesh, with faces of other emissivities. */
export function radiationLike(
  radiation: CavityRadiation,
  { pieces }: Pick<Enclosure, 'pieces'>,
): CavityRadiation {
  const faces = radiation.faces.map((face) => ({
    ...face,
    piece: pieces[radiation.pieces.indexOf(face.piece)]!,
  }));
  const isAlike = pieces.every(({ emissivity }, i) => emissivity === radiation.pieces[i]!.emissivity);
  return {
    ...{ ...radiation, pieces, faces },
    transfer_m: isAlike ? radiation.transfer_m : cavityTransfer_m(faces, radiation.exchange_m),
    ...conductancesAmong(radiation.ownCount),
  };
}

/** Conductances among so many own faces, before there is a state. */
const conductancesAmong = (ownCount: number) => ({
  ownCount,
  pair_W_per_mK: new Float64Array(ownCount ** 2),
  total_W_per_mK: new Float64Array(ownCount),
  emitted_W_per_mK: new Float64Array(ownCount),
  toRoom_W_per_mK: new Float64Array(ownCount),
});

/** Shares of nodes in the mean of each face, temperatures being straight between nodes. */
function nodeShares(faces: readonly CavityFace[], network: ConductionNetwork) {
  const nodeStart = new Int32Array(faces.length + 1);
  const node: number[] = [];
  const share: number[] = [];
  for (const [i, { piece, from_m, to_m }] of faces.entries()) {
    const along = nodesAlong(network, piece.surface, piece.side);
    for (let k = 1; k < along.length; k++) {
      const [a, b] = [along[k - 1]!, along[k]!];
      const [start, end] = [Math.max(a.at_m, from_m), Math.min(b.at_m, to_m)];
      if (end <= start) continue;
      const length = (end - start) / (to_m - from_m);
      const towardsB = ((start + end) / 2 - a.at_m) / (b.at_m - a.at_m);
      node.push(a.node, b.node);
      share.push(length * (1 - towardsB), length * towardsB);
    }
    nodeStart[i + 1] = node.length;
  }
  return { nodeStart, node: Int32Array.from(node), share: Float64Array.from(share) };
}

/** Temperature of own face `i`. */
export function faceTemperature_K(
  { nodeStart, node, share }: CavityRadiation,
  i: number,
  temperature_K: Float64Array,
): number {
  let mean = 0;
  for (let k = nodeStart[i]!; k < nodeStart[i + 1]!; k++) mean += share[k]! * temperature_K[node[k]!]!;
  return mean;
}

/** Brings the conductances up to a state. */
export function updateRadiation(
  radiation: CavityRadiation,
  temperature_K: Float64Array,
  room_K: number,
): void {
  const { faces, ownCount, transfer_m, pair_W_per_mK, total_W_per_mK, emitted_W_per_mK, toRoom_W_per_mK } =
    radiation;
  const count = faces.length;
  const at = Float64Array.from(faces, (_, i) =>
    i < ownCount ? faceTemperature_K(radiation, i, temperature_K) : room_K,
  );
  for (let i = 0; i < ownCount; i++) {
    let total = 0;
    let room = 0;
    const ti = at[i]!;
    for (let j = 0; j < count; j++) {
      const tj = at[j]!;
      const w = stefanBoltzmann_W_per_m2K4 * transfer_m[i * count + j]! * (ti * ti + tj * tj) * (ti + tj);
      total += w;
      if (j < ownCount) pair_W_per_mK[i * ownCount + j] = w;
      else room += w;
    }
    total_W_per_mK[i] = total;
    emitted_W_per_mK[i] =
      4 * stefanBoltzmann_W_per_m2K4 * faces[i]!.piece.emissivity * facetLength(faces[i]!) * ti ** 3;
    toRoom_W_per_mK[i] = room;
  }
}

/** Adds the radiant heat leaving each node at temperatures `v` (over a room at 0) to `into`. */
export function addRadiation(radiation: CavityRadiation, v: Float64Array, into: Float64Array): void {
  const { ownCount, nodeStart, node, share, pair_W_per_mK, total_W_per_mK, emitted_W_per_mK } = radiation;
  const at = new Float64Array(ownCount);
  for (let i = 0; i < ownCount; i++) at[i] = faceTemperature_K(radiation, i, v);
  for (let i = 0; i < ownCount; i++) {
    const given = innerProduct(pair_W_per_mK, i * ownCount, at, 0, ownCount);
    const mean = at[i]!;
    const heat = total_W_per_mK[i]! * mean - given;
    for (let k = nodeStart[i]!; k < nodeStart[i + 1]!; k++)
      into[node[k]!]! += share[k]! * (heat + emitted_W_per_mK[i]! * (v[node[k]!]! - mean));
  }
}

function give(
  { nodeStart, node, share }: CavityRadiation,
  i: number,
  what: number,
  into: Float64Array,
): void {
  for (let k = nodeStart[i]!; k < nodeStart[i + 1]!; k++) into[node[k]!]! += share[k]! * what;
}

/** Adds something of each own face to its nodes, by their shares. */
export function addToNodes(radiation: CavityRadiation, perFace: Float64Array, into: Float64Array): void {
  for (let i = 0; i < radiation.ownCount; i++) give(radiation, i, perFace[i]!, into);
}
