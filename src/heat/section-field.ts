import type { Outcome } from '../outcome.ts';
import { found, refused } from '../outcome.ts';
import type { Rectangle } from './conduction.ts';
import { stillBelow_Ra } from './inner-air.ts';
import { type HeatIssue, heatIssue } from './issues.ts';
import { mm } from './lengths.ts';
import { cutLines } from './mesh.ts';
import { type ProfileTemperatures, type SectionTemperatures, temperaturesOf } from './section-answers.ts';
import {
  type BalancedLevel,
  balanceLevel,
  levelLike,
  levelOf,
  type SectionLevel,
  type SectionWatts,
} from './section-balance.ts';
import { type SectionDescription, type SectionLoads, totalHeat_W_per_m } from './section-description.ts';
import { extrapolated, movedBetween } from './section-extrapolation.ts';
import { geometryOf, type SectionGeometry } from './section-geometry.ts';
import { firstLines } from './section-mesh.ts';
import { demandSection, sectionIssues } from './section-rules.ts';

/** One step of the refinement. */
interface MeshStep {
  readonly nodeCount: number;
  /** The strip's peak on this mesh. */
  readonly stripPeak_K: number;
  /** The same carried on from this mesh and the one before; null on the first. */
  readonly answerPeak_K: number | null;
  /** How far the answer, all its named temperatures, moved from the one before; null on the first two. */
  readonly moved_K: number | null;
}

/** What a drawing of the field needs. */
interface FieldPicture {
  /** Mesh lines, across the panel and from the room face inwards. */
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /**
   * Crossing `i`, `j` is `temperature_K[j*xs.length + i]`; NaN where there is no material. As solved on the finest
   * mesh, so it may differ from the named temperatures by what those were carried on, some tenths of a kelvin.
   */
  readonly temperature_K: Float64Array;
  /** Materials in the order they cover one another. */
  readonly rectangles: readonly Rectangle[];
  /** Face of the strip. */
  readonly strip: SectionGeometry['strip'];
  /** The picture is half of what there is; the other half is its mirror image about `x = 0`. */
  readonly half: boolean;
}

/** The section in balance. */
export interface SectionField {
  readonly temperatures: SectionTemperatures;
  /** Allowance for stratification: how much warmer the upper end may be than the middle, which is computed here. */
  readonly stratification_K: number;
  readonly heat_W_per_m: number;
  readonly watts_W_per_m: SectionWatts;
  /** Heat in less heat out, over heat in or 1 mW/m, whichever is more. */
  readonly balance: number;
  readonly nusselt: number;
  readonly rayleigh: number;
  readonly meshHistory: readonly MeshStep[];
  readonly picture: FieldPicture;
}

/** What a caller may ask beyond the section itself. */
export interface FieldRequest {
  /** The single lamp's rise of its solder point over the strip; 0 to 30. */
  readonly lampRise_K: number;
  /**
   * False leaves out the last mesh, which only confirms that the answer moves by less than 0.1 K: two to three times as
   * fast and seldom off by more. For the many points of a sweep or a band.
   */
  readonly confirm?: boolean;
}

const accuracy_K = 0.1;
/** Into how many parts each cell of the first mesh is cut, and each face of the cavity, mesh after mesh. */
const cuts = [1, 2, 3, 4, 6, 8] as const;
const balanceLimit = 1e-3;

/** A line of the fine mesh as lines of the coarse one and their weights, both being cuts of one first mesh. */
function linesBehind(fineLine: number, parts: { coarse: number; fine: number }): [number, number][] {
  const at = (fineLine * parts.coarse) / parts.fine;
  const before = Math.floor(at);
  return at === before
    ? [[before, 1]]
    : [
        [before, before + 1 - at],
        [before + 1, at - before],
      ];
}

/** Temperatures of one mesh carried to a finer one, both cut from one first mesh, straight between lines. */
function carryOver(
  coarse: BalancedLevel,
  fine: SectionLevel,
  parts: { coarse: number; fine: number },
): Float64Array {
  const from = coarse.level.network;
  const to = fine.network;
  const [cx, fx] = [from.mesh.xs.length, to.mesh.xs.length];
  const start = new Float64Array(to.nodeCount).fill(fine.section.room_K);
  const across = Array.from(to.mesh.xs, (_, i) => linesBehind(i, parts));
  const up = Array.from(to.mesh.ys, (_, j) => linesBehind(j, parts));
  const carry = (source: Int32Array, target: Int32Array): void => {
    for (const [crossing, node] of target.entries()) {
      if (node < 0) continue;
      let sum = 0;
      let weight = 0;
      for (const [cj, wj] of up[Math.floor(crossing / fx)]!)
        for (const [ci, wi] of across[crossing % fx]!) {
          const near = source[cj * cx + ci]!;
          if (near < 0) continue;
          sum += wi * wj * coarse.temperature_K[near]!;
          weight += wi * wj;
        }
      if (weight > 0) start[node] = sum / weight;
    }
  };
  carry(from.node, to.node);
  carry(from.slitNode, to.slitNode);
  return start;
}

/** What a level begins with that nothing is known of: 1 K over the room for each watt a metre, 10 K at most. */
const firstGuess = ({ network, section }: SectionLevel, loads: SectionLoads): Float64Array =>
  new Float64Array(network.nodeCount).fill(section.room_K + Math.min(10, totalHeat_W_per_m(loads)));

/** A level in balance from a first guess; null where it does not settle. */
function balanced(level: SectionLevel, loads: SectionLoads, start: Float64Array): BalancedLevel | null {
  const solved = balanceLevel(level, loads, start);
  return solved === null || Math.abs(solved.balance) > balanceLimit ? null : solved;
}

/** A section in balance on its first mesh. */
export interface FirstField extends Pick<SectionField, 'temperatures' | 'stratification_K'> {
  readonly level: SectionLevel;
}

/**
 * The field of a section on its first mesh, a quarter of the second: off by up to some kelvins, but what a change of the
 * section changes it shows nearly as well.
 *
 * @param like the level of a section of the same sizes, which spares most of the work; null where there is none
 * Refuses and throws as `solveSectionField`; with `like` it looks no more at the sizes.
 */
export function solveFirstMesh(
  section: SectionDescription,
  loads: SectionLoads,
  lampRise_K: number,
  like: SectionLevel | null,
): Outcome<FirstField, HeatIssue> {
  demandSection(section, loads);
  const issues = like === null ? sectionIssues(section) : [];
  if (issues.length > 0) return refused(...issues);
  const level = like === null ? firstLevel(section, loads) : levelLike(like, section, loads);
  const solved = balanced(level, loads, firstGuess(level, loads));
  if (solved === null) return refused(unsettled(loads));
  const temperatures = temperaturesOf(solved, lampRise_K);
  const stratification_K = stratificationOf(section, temperatures, solved.convection.nusselt);
  return found({ level, temperatures, stratification_K });
}

function firstLevel(section: SectionDescription, loads: SectionLoads): SectionLevel {
  const geometry = geometryOf(section);
  return levelOf(section, loads, geometry, firstLines(geometry), 1);
}

interface Refined {
  readonly solved: BalancedLevel;
  readonly temperatures: SectionTemperatures;
  readonly history: readonly MeshStep[];
}

/** Balances ever finer meshes until the answer carried on from the last two moves by less than a tenth of a kelvin. */
function refine(section: SectionDescription, loads: SectionLoads, request: FieldRequest): Refined | null {
  const geometry = geometryOf(section);
  const first = firstLines(geometry);
  const history: MeshStep[] = [];
  let solved: BalancedLevel | null = null;
  let coarse: SectionTemperatures | null = null;
  let answer: SectionTemperatures | null = null;
  for (const [step, fine] of cuts.entries()) {
    const lines = { xs: cutLines(first.xs, fine), ys: cutLines(first.ys, fine) };
    const level = levelOf(section, loads, geometry, lines, fine);
    const parts = { coarse: cuts[step - 1] ?? fine, fine };
    const start: Float64Array = solved === null ? firstGuess(level, loads) : carryOver(solved, level, parts);
    solved = balanced(level, loads, start);
    if (solved === null) return null;
    const temperatures = temperaturesOf(solved, request.lampRise_K);
    const next: SectionTemperatures | null =
      coarse === null ? null : extrapolated(coarse, temperatures, fine / parts.coarse);
    const moved_K: number | null = next === null || answer === null ? null : movedBetween(answer, next);
    history.push({
      nodeCount: level.network.nodeCount,
      stripPeak_K: temperatures.strip.peak.temperature_K,
      answerPeak_K: next?.strip.peak.temperature_K ?? null,
      moved_K,
    });
    const enough = request.confirm === false || (moved_K !== null && moved_K < accuracy_K);
    if (next !== null && enough) return { solved, temperatures: next, history };
    coarse = temperatures;
    answer = next;
  }
  return null;
}

function pictureOf(solved: BalancedLevel): FieldPicture {
  const { network, geometry } = solved.level;
  return {
    xs: network.mesh.xs,
    ys: network.mesh.ys,
    temperature_K: Float64Array.from(network.node, (n) => (n < 0 ? Number.NaN : solved.temperature_K[n]!)),
    rectangles: geometry.rectangles,
    strip: geometry.strip,
    half: geometry.half,
  };
}

/**
 * Allowance for thermal stratification: the warmer upper end of a tall closed cavity,
 * `(Tbacking - Tfront)/2 * (1 - 1/Nu)`.
 *
 * Judgement, not a published formula: where convection circulates, the air arriving at the top has the
 * temperature of the warm face's layer rather than of the core, at most half the difference of the faces
 * warmer; where it only conducts (Nu 1) the core is even. J. W. Elder, J. Fluid Mech. 23 (1965) reports cores
 * stratified by about half the face difference from bottom to top (from memory).
 */
export function stratificationAllowance_K(cavity: {
  readonly backing_K: number;
  readonly front_K: number;
  readonly nusselt: number;
}): number {
  return (Math.abs(cavity.backing_K - cavity.front_K) / 2) * (1 - 1 / Math.max(1, cavity.nusselt));
}

/** Whether the air under a profile's cover carries more than still air would, so that its cover is warmer than worked out. */
export const isInnerAirMoving = ({ rayleigh }: Pick<ProfileTemperatures, 'rayleigh'>): boolean =>
  rayleigh !== null && rayleigh > stillBelow_Ra;

const movingAir =
  'The air inside the profile is worked out as still, and between so warm a strip and its cover it begins to move: the strip will be a little cooler and the cover warmer than said here.';

function notesOf(
  section: SectionDescription,
  solved: BalancedLevel,
  profile: ProfileTemperatures | null,
): string[] {
  const notes = [...solved.convection.remarks];
  if (section.strip.carrier !== null)
    notes.push(
      'The aluminium flat is taken as flush for radiation: its own edges do not radiate and cast no shadow. That reads the strip warmer than drawn with its edges, by some 0.4 K for a flat of 1.5 mm and 2.6 K for one of 10 mm.',
    );
  if (profile !== null && isInnerAirMoving(profile)) notes.push(movingAir);
  if (section.edge_m !== undefined)
    notes.push(
      `The panel ends ${mm(section.edge_m)} from the middle of a slot, nearer than half way to the next one: the section is that of this slot, which has less of the panel to give off its heat by. No heat is taken to leave by the edge itself.${section.strip.mount === 'side' ? ' The strip is taken to be on the far side of that slot, where strip and timber are warmer; on the near side the front beside it is warmer than said here.' : ''}`,
    );
  if (!solved.level.geometry.half && section.edge_m === undefined && section.battenWidth_m === 0)
    notes.push(
      'The strip is to one side of the slot and there are no battens: neighbouring slots are taken as mirror images.',
    );
  return notes;
}

function stratificationOf(section: SectionDescription, t: SectionTemperatures, nusselt: number): number {
  if (section.sheet === null && section.exchange === 'buoyant') return 0;
  return stratificationAllowance_K({ backing_K: t.backingFaceMean_K, front_K: t.frontFaceMean_K, nusselt });
}

const unsettled = (loads: SectionLoads): HeatIssue =>
  heatIssue(
    'section-does-not-settle',
    { heat_W_per_m: totalHeat_W_per_m(loads) },
    'The temperatures of this section do not settle. Check its dimensions and watts; if they are right, reduce the watts per metre.',
  );

/**
 * The two-dimensional field of a section: solids conduct, the cavity's air conducts with `k*Nu`, its faces exchange
 * radiation by view factors with all reflections, an open slot radiates to the room (and exchanges air if chosen),
 * the room film is 1/0.13 W/(m2K). Balanced until nothing moves by 1 mK, on meshes whose cells are cut into ever more
 * parts until the answer, carried on from the last two of them, moves by less than 0.1 K in every named temperature.
 *
 * @param section geometry and materials, SI and kelvin; @param loads watts per metre of height in one pitch
 * @returns temperatures by place, watts by path, the balance (below 0.1 %), the meshes tried and the field; or the
 * geometry that cannot be. A strip even about the slot is solved on half a pitch.
 * @throws RangeError for numbers no section can have
 * Holds for upright slots; correlations differ by 10 to 15 %, readings of the model by 1 to 4 K.
 * Check: conduction alone against ISO 10211; the whole against resistances in series in
 * `tests/heat/section-field.test.ts`.
 */
export function solveSectionField(
  section: SectionDescription,
  loads: SectionLoads,
  request: FieldRequest = { lampRise_K: 0 },
): Outcome<SectionField, HeatIssue> {
  demandSection(section, loads);
  const issues = sectionIssues(section);
  if (issues.length > 0) return refused(...issues);
  const refined = refine(section, loads, request);
  if (refined === null) return refused(unsettled(loads));
  const { solved, temperatures, history } = refined;
  const { nusselt } = solved.convection;
  return found(
    {
      temperatures,
      stratification_K: stratificationOf(section, temperatures, nusselt),
      heat_W_per_m: totalHeat_W_per_m(loads),
      watts_W_per_m: solved.watts,
      balance: solved.balance,
      nusselt,
      rayleigh: solved.convection.rayleigh,
      meshHistory: history,
      picture: pictureOf(solved),
    },
    notesOf(section, solved, temperatures.profile),
  );
}
