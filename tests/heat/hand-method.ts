import { plateSpreading } from '../../reference/laws/spreading.ts';
import { stefanBoltzmann_W_per_m2K4 } from '../../src/heat/air.ts';
import { parallelExchange } from '../../src/heat/air-layer.ts';
import { cavityConvection } from '../../src/heat/cavity-air.ts';
import type { HeatIssue } from '../../src/heat/issues.ts';
import {
  cavityWidth_m,
  roomResistance_m2K_per_W,
  type SectionDescription,
  type SectionLoads,
  totalHeat_W_per_m,
} from '../../src/heat/section-description.ts';
import { demandSection, sectionIssues } from '../../src/heat/section-rules.ts';
import { factorFronts, oneFront, solveFronts } from '../../src/numeric/multifrontal.ts';
import type { Outcome } from '../../src/outcome.ts';
import { found, refused } from '../../src/outcome.ts';

/** Temperatures and watts of a section by resistances in series. */
export interface HandSolution {
  readonly strip_K: number;
  /** Mean of the backing's face towards the cavity. */
  readonly backingFace_K: number;
  readonly backOfBacking_K: number;
  /** Mean of the front's face towards the cavity. */
  readonly frontInnerFace_K: number;
  readonly roomFace_K: number;
  /** Warmer of the two faces that battens are glued to. */
  readonly glueLine_K: number;
  /** Rise of the strip over its plate because it is narrow, within `strip_K`. */
  readonly spreading_K: number;
  readonly toRoom_W_per_m: number;
  readonly toBehind_W_per_m: number;
  /** Heat in less heat out, over heat in. */
  readonly balance: number;
  readonly roundCount: number;
  /** What the method leaves out, to be shown beside its numbers. */
  readonly validity: string;
}

const validity =
  'Resistances in series: even temperatures across the pitch except under the strip, a whole front without slot, ' +
  'sheet or battens, no exchange of air. Nearness to the field solution is chance unless the strip is as wide ' +
  'as the section and there is no slot.';

interface Nodes {
  readonly strip_K: number;
  readonly backing_K: number;
  readonly front_K: number;
}

/** Conductances of the three-node network, W/(m K) per metre of height. */
interface Links {
  readonly stripToPlate: number;
  readonly stripAcross: number;
  readonly plateAcross: number;
  readonly frontToRoom: number;
  readonly backingToBehind: number;
  readonly behind_K: number;
}

function greyAcross_W_per_m2K(hot_K: number, cold_K: number, exchange: number): number {
  return stefanBoltzmann_W_per_m2K4 * exchange * (hot_K ** 2 + cold_K ** 2) * (hot_K + cold_K);
}

function plateSpreading_mK_per_W(section: SectionDescription, film_W_per_m2K: number): number {
  const { strip, pitch_m } = section;
  const plate = strip.mount === 'front' ? section.front : section.backing;
  const half = Math.min(Math.max(strip.width_m, strip.carrier?.width_m ?? 0), pitch_m) / 2;
  return plateSpreading({
    heat_W_per_m: 1,
    halfStrip_m: half,
    halfWidth_m: pitch_m / 2,
    thickness_m: plate.thickness_m,
    conductivity_W_per_mK: plate.conductivity_W_per_mK,
    film_W_per_m2K: strip.mount === 'front' ? 1 / roomResistance_m2K_per_W : film_W_per_m2K,
  }).mean_K;
}

function linksAt(section: SectionDescription, at: Nodes): Links & { readonly spreading: number } {
  const { strip, front, backing, behind, pitch_m } = section;
  const onFront = strip.mount === 'front';
  const [plate, far] = onFront ? [front, backing] : [backing, front];
  const plate_K = onFront ? at.front_K : at.backing_K;
  const far_K = onFront ? at.backing_K : at.front_K;
  const width_m = cavityWidth_m(section);
  const air = cavityConvection(section, facesSeen(section, at));
  const convection = air.across_W_per_mK / section.cavityDepth_m;
  const stripFilm =
    convection + greyAcross_W_per_m2K(at.strip_K, far_K, parallelExchange(strip.emissivity, far.emissivity));
  const plateFilm =
    convection + greyAcross_W_per_m2K(plate_K, far_K, parallelExchange(plate.emissivity, far.emissivity));
  const spreading = plateSpreading_mK_per_W(section, plateFilm);
  const toPlate = strip.contact_m2K_per_W / strip.width_m + spreading;
  const throughBacking = backing.thickness_m / backing.conductivity_W_per_mK;
  return {
    stripToPlate: 1 / Math.max(toPlate, 1e-9),
    stripAcross: stripFilm * strip.width_m,
    plateAcross: plateFilm * Math.max(0, width_m - strip.width_m),
    frontToRoom: pitch_m / (front.thickness_m / front.conductivity_W_per_mK + roomResistance_m2K_per_W),
    backingToBehind: behind.kind === 'room' ? pitch_m / (throughBacking + behind.resistance_m2K_per_W) : 0,
    behind_K: behind.kind === 'room' ? behind.air_K : section.room_K,
    spreading,
  };
}

/** Mean temperatures the air meets: strip and plate by their widths, and the face opposite. */
function facesSeen(section: SectionDescription, at: Nodes): { backing_K: number; front_K: number } {
  const share = Math.min(1, section.strip.width_m / cavityWidth_m(section));
  const mixed = (plate_K: number): number => share * at.strip_K + (1 - share) * plate_K;
  return section.strip.mount === 'front'
    ? { backing_K: at.backing_K, front_K: mixed(at.front_K) }
    : { backing_K: mixed(at.backing_K), front_K: at.front_K };
}

function solveNodes(section: SectionDescription, loads: SectionLoads, links: Links): Nodes {
  const onFront = section.strip.mount === 'front';
  const [plate, far] = onFront ? [2, 1] : [1, 2];
  const matrix = oneFront(3);
  const heat = new Float64Array([loads.strip_W_per_m, 0, 0]);
  const add = (i: number, j: number, conductance: number): void => {
    matrix.values[3 * i + j]! += conductance;
  };
  const link = (i: number, j: number, conductance: number): void => {
    add(i, i, conductance);
    add(j, j, conductance);
    add(Math.max(i, j), Math.min(i, j), -conductance);
  };
  const sink = (i: number, conductance: number, at_K: number): void => {
    add(i, i, conductance);
    heat[i]! += conductance * at_K;
  };
  link(0, plate, links.stripToPlate);
  link(0, far, links.stripAcross);
  link(plate, far, links.plateAcross);
  sink(2, links.frontToRoom, section.room_K);
  sink(1, links.backingToBehind, links.behind_K);
  const absorbed = loads.facesAbsorbed_W_per_m ?? {};
  heat[1] = heat[1]! + (absorbed.backing ?? 0) + (absorbed.sides ?? 0);
  heat[2] = heat[2]! + (absorbed.front ?? 0) + (absorbed.jambs ?? 0) + (absorbed.sheet ?? 0);
  factorFronts(matrix);
  solveFronts(matrix, heat);
  return { strip_K: heat[0]!, backing_K: heat[1]!, front_K: heat[2]! };
}

function solutionFrom(
  section: SectionDescription,
  loads: SectionLoads,
  at: Nodes,
  links: ReturnType<typeof linksAt>,
  roundCount: number,
): HandSolution {
  const plate_K = section.strip.mount === 'front' ? at.front_K : at.backing_K;
  const toRoom_W_per_m = links.frontToRoom * (at.front_K - section.room_K);
  const toBehind_W_per_m = links.backingToBehind * (at.backing_K - links.behind_K);
  const flux_W_per_m2 = toBehind_W_per_m / section.pitch_m;
  const heat = totalHeat_W_per_m(loads);
  return {
    strip_K: at.strip_K,
    backingFace_K: at.backing_K,
    backOfBacking_K:
      at.backing_K - (flux_W_per_m2 * section.backing.thickness_m) / section.backing.conductivity_W_per_mK,
    frontInnerFace_K: at.front_K,
    roomFace_K: section.room_K + (toRoom_W_per_m / section.pitch_m) * roomResistance_m2K_per_W,
    glueLine_K: Math.max(at.backing_K, at.front_K),
    spreading_K: (at.strip_K - plate_K) * links.stripToPlate * links.spreading,
    toRoom_W_per_m,
    toBehind_W_per_m,
    balance: heat === 0 ? 0 : (heat - toRoom_W_per_m - toBehind_W_per_m) / heat,
    roundCount,
    validity,
  };
}

/**
 * The section by hand: strip -> contact (and spreading in its plate) -> cavity -> front -> room, and through the
 * backing to what is behind. Cavity `h = Nu*k/L + sigma*E*(T1^2 + T2^2)*(T1 + T2)`, iterated; choose
 * `cavityAir.correlation: 'iso6946'` for that standard's air layer. A strip on a side counts as on the backing.
 *
 * @param section geometry and materials, SI and kelvin; @param loads watts per metre of height, one pitch
 * @returns mean temperatures and watts, with the balance; or the geometry that cannot be
 * Holds to 0.1 % of the field where the strip is as wide as the section and there is no slot; elsewhere it
 * is a first guess, see `validity`. Source: resistances in series, ISO 6946:2017 (secondary).
 * Check: `tests/heat/hand-method.test.ts` against a closed form and against the field.
 */
export function solveHandSection(
  section: SectionDescription,
  loads: SectionLoads,
): Outcome<HandSolution, HeatIssue> {
  demandSection(section, loads);
  const issues = sectionIssues(section);
  if (issues.length > 0) return refused(...issues);
  const start = section.room_K + 10;
  let at: Nodes = { strip_K: start + 1, backing_K: start, front_K: start - 1 };
  for (let round = 1; round <= 100; round++) {
    const links = linksAt(section, at);
    const next = solveNodes(section, loads, links);
    const moved = Math.max(Math.abs(next.strip_K - at.strip_K), Math.abs(next.front_K - at.front_K));
    at = next;
    if (moved < 1e-7) return found(solutionFrom(section, loads, at, links, round), [validity]);
  }
  throw new RangeError('the hand method did not settle in 100 rounds');
}
