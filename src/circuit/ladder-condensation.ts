import {
  BandLayout,
  type BandValues,
  type BorderedBand,
  eliminateBand,
  substituteBand,
} from '../numeric/bordered-band.ts';
import type { Ladder, Network } from './network.ts';

/**
 * How a ladder is condensed onto its pads: its units are eliminated one after the other towards a pad, so that every
 * node meets only the next ones, as many as there are rails. A ladder between two pads keeps the other pad as border.
 */
export interface CondensedLadder {
  readonly ladder: Ladder;
  readonly band: BorderedBand;
  /** First node of the unit that goes first, and the way from there to the first node of the next. */
  readonly startNode: number;
  readonly stride: number;
  /** First unknown of the pad before the ladder's first unit and after its last; -1 for no pad. */
  readonly before: number;
  readonly after: number;
  /** Where the matrix places of its pairs of pad unknowns begin, see `eachPadPair`. */
  readonly placesAt: number;
}

/**
 * Plans how each ladder is condensed.
 * @param unknownOf unknown of a junction; those of one pad follow each other
 */
export function planCondensation(
  { ladders }: Network,
  unknownOf: (junction: number) => number,
): {
  readonly condensed: readonly CondensedLadder[];
  readonly layout: BandLayout;
  readonly pairCount: number;
} {
  const layout = new BandLayout();
  let pairCount = 0;
  const condensed = ladders.map((ladder): CondensedLadder => {
    const { firstNode, endNode, railCount, padBefore, padAfter } = ladder;
    const isForward = padAfter >= 0;
    const isBetween = isForward && padBefore >= 0;
    const placesAt = pairCount;
    // Every two of the unknowns, each with itself too.
    pairCount += isBetween ? railCount * (2 * railCount + 1) : (railCount * (railCount + 1)) / 2;
    return {
      ladder,
      band: layout.add(endNode - firstNode, railCount, isBetween),
      startNode: isForward ? firstNode : endNode - railCount,
      stride: isForward ? railCount : -railCount,
      before: padBefore >= 0 ? unknownOf(padBefore) : -1,
      after: padAfter >= 0 ? unknownOf(padAfter) : -1,
      placesAt,
    };
  });
  return { condensed, layout, pairCount };
}

/** First unknown of the pad onto which a ladder is condensed. */
const aheadOf = ({ stride, before, after }: CondensedLadder): number => (stride > 0 ? after : before);

/** First unknown of the pad that stays as border; -1 for none. */
const behindOf = ({ stride, before, after }: CondensedLadder): number => (stride > 0 ? before : after);

/** Visits the pairs of pad unknowns that condensation leaves joined, in the order in which `condenseLadder` adds them. */
export function eachPadPair(
  condensed: readonly CondensedLadder[],
  visit: (unknown: number, other: number) => void,
): void {
  for (const one of condensed) {
    const { width } = one.band;
    const [ahead, behind] = [aheadOf(one), behindOf(one)];
    for (let i = 0; i < width; i++) for (let j = i; j < width; j++) visit(ahead + i, ahead + j);
    for (let p = 0; p < width && behind >= 0; p++) {
      for (let i = 0; i < width; i++) visit(behind + p, ahead + i);
      for (let q = 0; q <= p; q++) visit(behind + p, behind + q);
    }
  }
}

/** What the equations of all units are made of. */
export interface UnitEquations {
  readonly link_S: Float64Array;
  /** Slope of the loads at each node: of a channel's lamps on its return, of all of them on the positive rail. */
  readonly load_S: Float64Array;
  /** Nodal imbalance, what each node gains: the right-hand side. */
  readonly imbalance_A: Float64Array;
}

/** Matrix and right-hand side of the junctions, and the places in the matrix of all pairs of `eachPadPair`. */
export interface JunctionEquations {
  readonly matrix: Float64Array;
  readonly places: Int32Array;
  readonly right: Float64Array;
}

/**
 * Static condensation of a ladder: writes its equations down, eliminates its nodes, and adds what is left between
 * its pads to the equations of the junctions.
 * @returns false where the equations are not positive definite
 */
export function condenseLadder(
  condensed: CondensedLadder,
  values: BandValues,
  units: UnitEquations,
  junctions: JunctionEquations,
): boolean {
  writeUnits(condensed, values, units);
  writePads(condensed, values, units.link_S);
  if (!eliminateBand(condensed.band, values)) return false;
  addAhead(condensed, values, junctions);
  if (condensed.band.borderAt >= 0) addBehind(condensed, values, junctions);
  return true;
}

function writeUnits(condensed: CondensedLadder, { band, right }: BandValues, units: UnitEquations): void {
  const { link_S, load_S, imbalance_A } = units;
  const { bandAt, rightAt, count, width } = condensed.band;
  const { linkShift } = condensed.ladder;
  const aheadShift = linkShift + (condensed.stride > 0 ? width : 0);
  let own = bandAt;
  let unit = condensed.startNode;
  for (let j = rightAt; j < rightAt + count; unit += condensed.stride) {
    for (let rail = 0; rail < width; rail++, j++, own += width + 1) {
      const node = unit + rail;
      band[own] = link_S[node + linkShift]! + link_S[node + width + linkShift]! + load_S[node]!;
      for (let c = 1; c < width; c++) band[own + c] = rail === 0 ? -load_S[node + c]! : 0;
      band[own + width] = -link_S[node + aheadShift]!;
      right[j] = imbalance_A[node]!;
    }
  }
}

/** The pads as this ladder's links join them to it; their own equations are the junctions'. */
function writePads(
  condensed: CondensedLadder,
  { band, right, border }: BandValues,
  link_S: Float64Array,
): void {
  const { bandAt, rightAt, borderAt, borderRightAt, count, width } = condensed.band;
  const { firstNode, endNode, linkShift } = condensed.ladder;
  const [first, last] = [firstNode + linkShift, endNode + linkShift];
  const ownPad = bandAt + count * (width + 1);
  band.fill(0, ownPad, ownPad + width * (width + 1));
  right.fill(0, rightAt + count, rightAt + count + width);
  const aheadLink = condensed.stride > 0 ? last : first;
  for (let i = 0; i < width; i++) band[ownPad + i * (width + 1)] = link_S[aheadLink + i]!;
  if (borderAt < 0) return;
  const square = borderAt + (count + width) * width;
  border.fill(0, borderAt, square + width * width);
  right.fill(0, borderRightAt, borderRightAt + width);
  for (let p = 0; p < width; p++) {
    border[borderAt + p * width + p] = -link_S[first + p]!;
    border[square + p * width + p] = link_S[first + p]!;
  }
}

function addAhead(
  condensed: CondensedLadder,
  values: BandValues,
  { matrix, places, right }: JunctionEquations,
): void {
  const { bandAt, rightAt, count, width } = condensed.band;
  const ahead = aheadOf(condensed);
  let t = condensed.placesAt;
  for (let i = 0; i < width; i++) {
    const own = bandAt + (count + i) * (width + 1);
    for (let d = 0; i + d < width; d++) matrix[places[t++]!]! += values.band[own + d]!;
    right[ahead + i]! += values.right[rightAt + count + i]!;
  }
}

function addBehind(
  condensed: CondensedLadder,
  values: BandValues,
  { matrix, places, right }: JunctionEquations,
): void {
  const { borderAt, borderRightAt, count, width } = condensed.band;
  const square = borderAt + (count + width) * width;
  const behind = behindOf(condensed);
  let t = condensed.placesAt + (width * (width + 1)) / 2;
  for (let p = 0; p < width; p++) {
    for (let i = 0; i < width; i++)
      matrix[places[t++]!]! += values.border[borderAt + (count + i) * width + p]!;
    for (let q = 0; q <= p; q++) matrix[places[t++]!]! += values.border[square + p * width + q]!;
    right[behind + p]! += values.right[borderRightAt + p]!;
  }
}

/** Finds the nodes of a condensed ladder from its pads. @param step_V known at the pads; the ladder's nodes are filled in */
export function recoverLadder(condensed: CondensedLadder, values: BandValues, step_V: Float64Array): void {
  const { rightAt, borderRightAt, count, width } = condensed.band;
  const { right } = values;
  const [ahead, behind] = [aheadOf(condensed), behindOf(condensed)];
  for (let i = 0; i < width; i++) {
    right[rightAt + count + i] = step_V[ahead + i]!;
    if (behind >= 0) right[borderRightAt + i] = step_V[behind + i]!;
  }
  substituteBand(condensed.band, values);
  let unit = condensed.startNode;
  for (let j = rightAt; j < rightAt + count; unit += condensed.stride) {
    for (let rail = 0; rail < width; rail++) step_V[unit + rail] = right[j++]!;
  }
}
