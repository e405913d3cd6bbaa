import { stefanBoltzmann_W_per_m2K4 } from './air.ts';
import type { CavityFace } from './cavity-faces.ts';

/**
 * Radiation between the cavity's faces as conductances at one state: `q_ij = K_ij*sigma*(Ti^4 - Tj^4)` equals
 * `W_ij*(Ti - Tj)` with `W_ij = K_ij*sigma*(Ti^2 + Tj^2)*(Ti + Tj)`, which is symmetric. A face's temperature is the
 * mean of its two nodes. Faces of the open slot come last and stand at room temperature.
 */
export interface CavityRadiation {
  readonly faces: readonly CavityFace[];
  /** How many faces belong to the section; the rest is the open slot. */
  readonly ownCount: number;
  readonly transfer_m: Float64Array;
  /** Conductance between own faces, by rows of `ownCount`. */
  readonly pair_W_per_mK: Float64Array;
  /** Conductance of each own face to all others, the open slot included. */
  readonly total_W_per_mK: Float64Array;
  /** Conductance of each own face to the open slot. */
  readonly toRoom_W_per_mK: Float64Array;
}

/** Sets up the radiation of the given faces and transfer lengths. */
export function radiationOf(faces: readonly CavityFace[], transfer_m: Float64Array): CavityRadiation {
  const ownCount = faces.filter((face) => face.nodeA >= 0).length;
  return {
    faces,
    ownCount,
    transfer_m,
    pair_W_per_mK: new Float64Array(ownCount * ownCount),
    total_W_per_mK: new Float64Array(ownCount),
    toRoom_W_per_mK: new Float64Array(ownCount),
  };
}

/** Temperature of an own face. */
export function faceTemperature_K(face: CavityFace, temperature_K: Float64Array): number {
  return (temperature_K[face.nodeA]! + temperature_K[face.nodeB]!) / 2;
}

/** Brings the conductances up to a state. */
export function updateRadiation(
  radiation: CavityRadiation,
  temperature_K: Float64Array,
  room_K: number,
): void {
  const { faces, ownCount, transfer_m, pair_W_per_mK, total_W_per_mK, toRoom_W_per_mK } = radiation;
  const count = faces.length;
  const at = Float64Array.from(faces, (f) => (f.nodeA < 0 ? room_K : faceTemperature_K(f, temperature_K)));
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
    toRoom_W_per_mK[i] = room;
  }
}

/** Adds the radiant heat leaving each node at temperatures `v` (over a room at 0) to `into`. */
export function addRadiation(radiation: CavityRadiation, v: Float64Array, into: Float64Array): void {
  const { faces, ownCount, pair_W_per_mK, total_W_per_mK } = radiation;
  const at = new Float64Array(ownCount);
  for (let i = 0; i < ownCount; i++) at[i] = faceTemperature_K(faces[i]!, v);
  for (let i = 0; i < ownCount; i++) {
    const row = i * ownCount;
    let heat = total_W_per_mK[i]! * at[i]!;
    for (let j = 0; j < ownCount; j++) heat -= pair_W_per_mK[row + j]! * at[j]!;
    const { nodeA, nodeB } = faces[i]!;
    into[nodeA] = into[nodeA]! + heat / 2;
    into[nodeB] = into[nodeB]! + heat / 2;
  }
}

/** Adds something of each own face, half to each of its nodes. */
export function addToNodes(radiation: CavityRadiation, perFace: Float64Array, into: Float64Array): void {
  for (let i = 0; i < radiation.ownCount; i++) {
    const { nodeA, nodeB } = radiation.faces[i]!;
    into[nodeA] = into[nodeA]! + perFace[i]! / 2;
    into[nodeB] = into[nodeB]! + perFace[i]! / 2;
  }
}
