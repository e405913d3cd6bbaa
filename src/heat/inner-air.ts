import { airAt, rayleigh } from './air.ts';
import type { CavityConvection } from './cavity-air.ts';
import { type ConductionNetwork, nodesAlong } from './conduction.ts';
import type { SectionDescription } from './section-description.ts';
import type { SectionGeometry } from './section-geometry.ts';
import type { CavityRadiation } from './section-radiation.ts';

/** What bounds the air inside a profile at a state. */
export interface InnerAir {
  readonly strip_K: number;
  /** The cover's inner face, the room where a recessed profile has none; null where the cavity's air goes on inside. */
  readonly far_K: number | null;
}

/** What of a level the air inside a profile depends on. */
interface Profiled {
  readonly section: SectionDescription;
  readonly geometry: SectionGeometry;
  readonly network: ConductionNetwork;
  readonly inside: CavityRadiation | null;
}

/** A node and the length it stands for. */
interface Standing {
  readonly node: number;
  readonly length_m: number;
}

/** Mean temperature along a line by the lengths its nodes stand for. */
export function meanAlong_K(along: readonly Standing[], temperature_K: Float64Array): number {
  const length = along.reduce((sum, n) => sum + n.length_m, 0);
  return along.reduce((sum, n) => sum + n.length_m * temperature_K[n.node]!, 0) / length;
}

/** Mean temperature over an area by the shares of the nodes. */
export function meanOver_K(area_m2: Float64Array, temperature_K: Float64Array): number {
  let sum = 0;
  let whole = 0;
  for (const [i, area] of area_m2.entries()) {
    sum += area * temperature_K[i]!;
    whole += area;
  }
  return sum / whole;
}

/** What bounds the air inside the profile of a level; null without a profile. */
export function innerAirOf(
  { section, geometry, network, inside }: Profiled,
  temperature_K: Float64Array,
): InnerAir | null {
  if (geometry.profile === null) return null;
  const strip_K = meanAlong_K(nodesAlong(network, geometry.strip, 'far'), temperature_K);
  if (inside === null) return { strip_K, far_K: null };
  const cover = inside.pieces.find(({ kind }) => kind === 'cover inside');
  const far_K =
    cover === undefined ? section.room_K : meanAlong_K(nodesAlong(network, cover.surface), temperature_K);
  return { strip_K, far_K };
}

/** Conductivity of the air between the walls of a profile, which only conducts: at the mean of what bounds it, or the cavity's. */
export function innerConductivity_W_per_mK(
  level: Profiled,
  cavity: CavityConvection,
  temperature_K: Float64Array,
): number {
  const inner = innerAirOf(level, temperature_K);
  if (inner === null || inner.far_K === null) return cavity.across_W_per_mK / cavity.nusselt;
  return airAt((inner.strip_K + inner.far_K) / 2).conductivity_W_per_mK;
}

/** Rayleigh number to which air inside a profile does no more than conduct, to 2 %. */
export const stillBelow_Ra = 3800;

/**
 * Rayleigh number of the air under a cover over the height of the walls, strip less cover, properties at their mean.
 * Below 3800 still air holds to 2 %; at 7000 moving air carries some 12 % more, which cools the strip and warms the cover.
 * Source: the law of ElSherbiny et al. for an upright gap, see `elSherbiny`. Check: `tests/heat/profile.test.ts`.
 */
export function innerRayleigh(
  { strip_K, far_K }: { strip_K: number; far_K: number },
  height_m: number,
): number {
  return rayleigh({ length_m: height_m, difference_K: strip_K - far_K, air: airAt((strip_K + far_K) / 2) });
}
