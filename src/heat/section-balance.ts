import { conjugateGradients } from '../numeric/conjugate-gradients.ts';
import { type MultifrontalMatrix, solveFronts } from '../numeric/multifrontal.ts';
import { facetLength } from '../numeric/view-factors.ts';
import { airAt } from './air.ts';
import { type CavityConvection, cavityConvection } from './cavity-air.ts';
import { enclosuresOf } from './cavity-faces.ts';
import {
  addEdges,
  type ConductionNetwork,
  factorNetwork,
  meshOf,
  type NodeAlong,
  networkLike,
  networkOf,
  nodesAlong,
  type Slit,
  setAir,
} from './conduction.ts';
import { innerAirOf, innerConductivity_W_per_mK, meanOver_K } from './inner-air.ts';
import { landedHeat_W, roomsOf } from './landed-heat.ts';
import type { MeshLines } from './mesh.ts';
import { carried_W_per_K, channelledFlow_m3_per_s } from './openings.ts';
import {
  cavityWidth_m,
  roomResistance_m2K_per_W,
  type SectionDescription,
  type SectionLoads,
  totalHeat_W_per_m,
} from './section-description.ts';
import { geometryOf, type SectionGeometry } from './section-geometry.ts';
import {
  addRadiation,
  addToNodes,
  type CavityRadiation,
  faceTemperature_K,
  radiationLike,
  radiationOf,
  updateRadiation,
} from './section-radiation.ts';

/** Where the watts of one pitch go, W per metre of height. */
export interface SectionWatts {
  readonly front: number;
  readonly jambs: number;
  readonly sheet: number;
  /** Through the cover of a profile in the slot, and from its rims where it has none. */
  readonly cover: number;
  readonly profile: number;
  readonly openSlotRadiation: number;
  readonly airExchange: number;
  readonly behind: number;
}

/** One mesh of a section, ready to be balanced. */
export interface SectionLevel {
  readonly section: SectionDescription;
  readonly geometry: SectionGeometry;
  readonly network: ConductionNetwork;
  readonly radiation: CavityRadiation;
  /** Inside a profile that is closed off from the cavity. */
  readonly inside: CavityRadiation | null;
  readonly films: readonly (readonly NodeAlong[])[];
  /** Of the cavity, round each node. */
  readonly airArea_m2: Float64Array;
  /** Films on the diagonal and, times their air, on the right side. */
  readonly filmDiagonal: Float64Array;
  readonly filmSide: Float64Array;
  readonly heat_W: Float64Array;
}

/** A level in balance. */
export interface BalancedLevel {
  readonly level: SectionLevel;
  readonly temperature_K: Float64Array;
  readonly convection: CavityConvection;
  readonly watts: SectionWatts;
  /** Heat in less heat out, over heat in or 1 mW/m, whichever is more. */
  readonly balance: number;
  readonly roundCount: number;
}

/** Less contact than this is as good as none: 1e-6 m2K/W is a hundredth of a kelvin at 10 kW/m2. */
export const leastContact_m2K_per_W = 1e-6;
/** A section of a watt a metre and more has settled when nothing moves by this; one of less by as much less. */
const settled_K = 1e-3;
const mostRoundCount = 60;

/**
 * Watts a metre below which balance and settling are taken of this: a milliwatt warms by about a millikelvin, and the
 * watts of temperatures near 300 K are held to some 1e-12 W/m, so that a share of still less would be of rounding.
 */
const leastHeat_W_per_m = 1e-3;

/** The tape under the strip, and what a profile or a carrier is fixed by to the timber it touches. */
function slitsOf(
  { strip }: SectionDescription,
  { strip: face, profile, carrierContact }: SectionGeometry,
): Slit[] {
  const contact = (value: number): number => Math.max(value, leastContact_m2K_per_W);
  const tape: Slit = { ...face, contact_m2K_per_W: contact(strip.contact_m2K_per_W), far: 'air' };
  const fixing = contact(strip.profile?.contact_m2K_per_W ?? 0);
  const fixed = (profile?.contacts ?? []).map(
    (line): Slit => ({ ...line, contact_m2K_per_W: fixing, far: 'body' }),
  );
  const joint = contact(strip.carrier?.contact_m2K_per_W ?? 0);
  const flat: Slit[] =
    carrierContact === null ? [] : [{ ...carrierContact, contact_m2K_per_W: joint, far: 'body' }];
  return [tape, ...fixed, ...flat];
}

/** Builds the level of a section on given mesh lines. @param parts into which the cavity's faces are cut, see `cavityFaces` */
export function levelOf(
  section: SectionDescription,
  loads: SectionLoads,
  geometry: SectionGeometry,
  lines: MeshLines,
  parts: number,
): SectionLevel {
  const mesh = meshOf(geometry.rectangles, lines.xs, lines.ys);
  const network = networkOf(mesh, slitsOf(section, geometry));
  const { cavity, inside: within } = enclosuresOf(section, geometry);
  const radiation = radiationOf(cavity, geometry, network, parts);
  const inside = within && radiationOf(within, geometry, network, parts);
  const films = geometry.films.map((film) => nodesAlong(network, film, film.side));
  return heated({ section, geometry, network, radiation, inside, films }, loads);
}

/**
 * The level of a section of the same sizes as that of another level, on its mesh: what differs is what it is made of, its
 * air and its watts. What sizes alone decide is taken over, which is most of the work.
 */
export function levelLike(
  level: SectionLevel,
  section: SectionDescription,
  loads: SectionLoads,
): SectionLevel {
  const geometry = geometryOf(section);
  const network = networkLike(level.network, geometry.rectangles, slitsOf(section, geometry));
  const { cavity, inside: within } = enclosuresOf(section, geometry);
  const radiation = radiationLike(level.radiation, cavity);
  const inside = level.inside && radiationLike(level.inside, within!);
  return heated({ section, geometry, network, radiation, inside, films: level.films }, loads);
}

/** What a section is, before it meets the room and watts are put into it. */
type BareLevel = Omit<SectionLevel, 'filmDiagonal' | 'filmSide' | 'heat_W' | 'airArea_m2'>;

function heated(level: BareLevel, loads: SectionLoads): SectionLevel {
  const { network, geometry, films } = level;
  const filmDiagonal = new Float64Array(network.nodeCount);
  const filmSide = new Float64Array(network.nodeCount);
  for (const [k, film] of geometry.films.entries())
    for (const { node, length_m } of films[k]!) {
      const conductance = length_m / film.resistance_m2K_per_W;
      filmDiagonal[node] = filmDiagonal[node]! + conductance;
      filmSide[node] = filmSide[node]! + conductance * film.air_K;
    }
  const airArea_m2 = cavityAirArea_m2(level);
  return { ...level, airArea_m2, filmDiagonal, filmSide, heat_W: landedHeat_W(level, loads) };
}

/**
 * Mean temperatures of the faces on the backing's side and on the front's, the open slot left out; the room's where
 * an open slot takes up the whole front.
 */
export function meanFaces_K(
  radiation: CavityRadiation,
  temperature_K: Float64Array,
  room_K: number,
): { backing_K: number; front_K: number } {
  const mean = (wall: 'backing' | 'front'): number => {
    let sum = 0;
    let length = 0;
    for (let i = 0; i < radiation.ownCount; i++) {
      const face = radiation.faces[i]!;
      if (face.piece.wall !== wall || face.piece.kind === 'flank') continue;
      sum += facetLength(face) * faceTemperature_K(radiation, i, temperature_K);
      length += facetLength(face);
    }
    return length === 0 ? room_K : sum / length;
  };
  return { backing_K: mean('backing'), front_K: mean('front') };
}

/** Mean of the cavity air over its area. */
export const meanAir_K = ({ airArea_m2 }: SectionLevel, temperature_K: Float64Array): number =>
  meanOver_K(airArea_m2, temperature_K);

/** The cavity's air round each node, with that between the walls of a profile that is open to it. */
function cavityAirArea_m2({ network, geometry, inside }: BareLevel): Float64Array {
  if (geometry.profile === null || inside !== null) return network.airArea_m2;
  return network.airArea_m2.map((area, i) => area + network.innerArea_m2[i]!);
}

/** Heat an open cavity gives to the room by its air, W per metre of height and kelvin of its mean excess. */
function exchange_W_per_mK(level: SectionLevel, temperature_K: Float64Array): number {
  const { section } = level;
  if (section.exchange === 'none' || section.sheet !== null || section.slotWidth_m === 0) return 0;
  const inside_K = meanAir_K(level, temperature_K);
  const opening = {
    area_m2: section.slotWidth_m * section.slotHeight_m,
    height_m: section.slotHeight_m,
    inside_K,
    outside_K: section.room_K,
  };
  const channel = { depth_m: section.cavityDepth_m, width_m: cavityWidth_m(section) };
  const flow = channelledFlow_m3_per_s(opening, channel);
  return carried_W_per_K(flow, airAt((inside_K + section.room_K) / 2)) / section.slotHeight_m;
}

/** The linear system at one state. */
interface State {
  readonly convection: CavityConvection;
  readonly exchange_W_per_mK: number;
  readonly diagonal: Float64Array;
  readonly rightSide: Float64Array;
}

/** Whether the cavity's air has a law at a state: it ends at 1000 K, and timber long before. */
function isWithinAir(level: SectionLevel, temperature_K: Float64Array): boolean {
  const { radiation, section } = level;
  const { backing_K, front_K } = meanFaces_K(radiation, temperature_K, section.room_K);
  const inner = innerAirOf(level, temperature_K);
  const inside_K = inner === null || inner.far_K === null ? 0 : (inner.strip_K + inner.far_K) / 2;
  return Math.max((backing_K + front_K) / 2, inside_K) <= 1000;
}

/** Brings air, radiation and exchange up to a state; the edges of the network are changed in place. */
function stateAt(level: SectionLevel, temperature_K: Float64Array): State {
  const { section, network, radiation } = level;
  const convection: CavityConvection = cavityConvection(
    section,
    meanFaces_K(radiation, temperature_K, section.room_K),
  );
  setAir(network, {
    ...convection,
    inner_W_per_mK: innerConductivity_W_per_mK(level, convection, temperature_K),
  });
  for (const room of roomsOf(level)) updateRadiation(room, temperature_K, section.room_K);
  const diagonal = level.filmDiagonal.slice();
  const rightSide = level.filmSide.slice();
  const exchange = exchange_W_per_mK(level, temperature_K);
  const area = level.airArea_m2.reduce((sum, a) => sum + a, 0);
  const perArea = ((level.geometry.half ? 0.5 : 1) * exchange) / area;
  for (let i = 0; i < diagonal.length; i++) {
    const sink = perArea * level.airArea_m2[i]!;
    diagonal[i] = diagonal[i]! + sink;
    rightSide[i] = rightSide[i]! + level.heat_W[i]! + sink * section.room_K;
  }
  for (const room of roomsOf(level)) {
    const fromRoom = room.toRoom_W_per_mK.map((w) => w * section.room_K);
    addToNodes(room, fromRoom, rightSide);
  }
  return { convection, exchange_W_per_mK: exchange, diagonal, rightSide };
}

/** Factor that stands for the system in the gradients: its faces radiate as if to a fixed temperature. */
function preconditioner(level: SectionLevel, state: State): MultifrontalMatrix {
  const diagonal = Float64Array.from(state.diagonal);
  for (const room of roomsOf(level)) addToNodes(room, room.total_W_per_mK, diagonal);
  return factorNetwork(level.network, diagonal);
}

/** Watts a metre that flow from an air behind to a room of another temperature, at most: through the wall and the room's film. */
function driven_W_per_m({ behind, pitch_m, room_K }: SectionDescription): number {
  if (behind.kind === 'insulation') return 0;
  const resistance_m2K_per_W = behind.resistance_m2K_per_W + roomResistance_m2K_per_W;
  return (pitch_m * Math.abs(behind.air_K - room_K)) / resistance_m2K_per_W;
}

function wattsOf(level: SectionLevel, state: State, temperature_K: Float64Array): SectionWatts {
  const whole = level.geometry.half ? 2 : 1;
  const { room_K } = level.section;
  const by = { front: 0, jambs: 0, sheet: 0, cover: 0, profile: 0, behind: 0 };
  for (const [k, film] of level.geometry.films.entries()) {
    const name = film.name as keyof typeof by;
    for (const { node, length_m } of level.films[k]!)
      by[name] += (whole * length_m * (temperature_K[node]! - film.air_K)) / film.resistance_m2K_per_W;
  }
  let openSlotRadiation = 0;
  for (const room of roomsOf(level))
    for (let i = 0; i < room.ownCount; i++) {
      const excess_K = faceTemperature_K(room, i, temperature_K) - room_K;
      openSlotRadiation += whole * room.toRoom_W_per_mK[i]! * excess_K;
    }
  const airExchange = state.exchange_W_per_mK * (meanAir_K(level, temperature_K) - room_K);
  return { ...by, openSlotRadiation, airExchange };
}

/**
 * Balances a level: air, radiation and exchange from the last temperatures, temperatures from those, until
 * nothing moves by a thousandth of a kelvin (by less where there is less than a watt a metre). One factor serves all rounds. The balance is taken with the
 * coefficients of the final state.
 *
 * @param start first guess, overwritten; @returns null where it does not settle
 */
export function balanceLevel(
  level: SectionLevel,
  loads: SectionLoads,
  start: Float64Array,
): BalancedLevel | null {
  const heat = totalHeat_W_per_m(loads);
  // Without watts of its own a section is held to those that flow through it from behind.
  const scale = heat > leastHeat_W_per_m ? heat : Math.max(leastHeat_W_per_m, driven_W_per_m(level.section));
  const still_K = settled_K * Math.min(1, scale);
  const temperature_K = start;
  const before = new Float64Array(temperature_K.length);
  let state = stateAt(level, temperature_K);
  const factor = preconditioner(level, state);
  const apply = (v: Float64Array, into: Float64Array): void => {
    for (let i = 0; i < v.length; i++) into[i] = state.diagonal[i]! * v[i]!;
    addEdges(level.network, v, into);
    for (const room of roomsOf(level)) addRadiation(room, v, into);
  };
  for (let round = 1; round <= mostRoundCount; round++) {
    before.set(temperature_K);
    conjugateGradients({
      apply,
      precondition: (residual) => solveFronts(factor, residual),
      rightSide: state.rightSide,
      start: temperature_K,
      tolerance: 3e-5 * scale,
      reduction: 1e-3,
      mostRoundCount: 200,
    });
    let moved = 0;
    for (let i = 0; i < before.length; i++) moved = Math.max(moved, Math.abs(temperature_K[i]! - before[i]!));
    if (!isWithinAir(level, temperature_K)) return null;
    state = stateAt(level, temperature_K);
    if (moved > still_K) continue;
    const watts = wattsOf(level, state, temperature_K);
    const out = Object.values(watts).reduce((sum, w) => sum + w, 0);
    const balance = (heat - out) / scale;
    return { level, temperature_K, convection: state.convection, watts, balance, roundCount: round };
  }
  return null;
}
