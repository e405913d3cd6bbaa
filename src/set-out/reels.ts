import type { Piece, Reel } from '../answer/set-out.ts';
import type { Effort } from '../numeric/bin-packing.ts';
import { type FilledBin, type Pieces, piecesOf } from '../numeric/bins.ts';
import { remembered } from '../numeric/remembered.ts';
import { counted, mm } from '../words.ts';
import { longestOffcut } from './longest-offcut.ts';
import { unitsLength_mm, wholeUnits } from './pieces.ts';
import { chooseReels, type ReelUnits } from './reel-choice.ts';

/** Reels of one length to cut from: new ones, or offcuts in stock. */
export interface ReelKind {
  readonly length_mm: number;
  /** Of one; 0 for an offcut in stock only, which costs nothing; null where nobody knows it: taken for the dearest. */
  readonly price_cents: number | null;
  /** How many there are; null: as many as wanted. */
  readonly count: number | null;
}

export interface ReelCut {
  readonly reels: readonly Reel[];
  /** How the reels were found and what that is worth. */
  readonly method: string;
  /** Whether no choice of reels is cheaper, or as cheap with fewer metres. */
  readonly isLeast: boolean;
  /** No reel of these can keep more than this; what the reel that has most left keeps, where that is proved. */
  readonly longestOffcut_mm: number;
}

/** Trouble taken: some milliseconds for what usual walls leave undecided, half a second at the very most. */
const choiceEffort: Effort = { fillWork: 3e6, searchNodes: 200_000, priceWork: 3e7 };
const offcutEffort: Effort = { fillWork: 1e5, searchNodes: 3000, priceWork: 1e6 };

interface CutUnits {
  readonly pieces: Pieces;
  readonly filled: readonly FilledBin[];
  readonly isLeast: boolean;
  readonly leastCost: number;
  readonly left: number;
  readonly atMost: number;
}

/** By lengths alone, so that the same lengths are cut alike whatever the pieces are called. */
const cutUnits = remembered(
  ({ units, kinds }: { units: readonly number[]; kinds: readonly ReelUnits[] }): CutUnits => {
    const pieces = piecesOf(units);
    const { filled, ...least } = chooseReels(pieces, kinds, choiceEffort);
    const bins = kinds.map(({ size }, k) => ({ size, count: filled.filter(({ of }) => of === k).length }));
    return { pieces, ...least, ...longestOffcut({ pieces, bins, effort: offcutEffort }, filled) };
  },
  20,
);

function kindsInUnits(kinds: readonly ReelKind[], unitsPerMetre: number): ReelUnits[] {
  const known = kinds.flatMap(({ price_cents }) => price_cents ?? []);
  const dearest = Math.max(1, ...known);
  return kinds.map(({ length_mm, price_cents, count }) => ({
    size: wholeUnits(length_mm, unitsPerMetre),
    cost: price_cents ?? dearest,
    count,
  }));
}

/** Reels of one kind after the other, those with the longest pieces first, so that equal cuts follow one another. */
function inCuttingOrder(a: FilledBin, b: FilledBin): number {
  if (a.of !== b.of) return a.of - b.of;
  const i = a.counts.findIndex((each, at) => each !== b.counts[at]);
  return i < 0 ? 0 : b.counts[i]! - a.counts[i]!;
}

function named(
  cut: CutUnits,
  pieces: readonly Piece[],
  kinds: readonly ReelKind[],
  unitsPerMetre: number,
): Reel[] {
  const waiting = cut.pieces.sizes.map((size) => pieces.filter(({ unitCount }) => unitCount === size));
  return cut.filled.toSorted(inCuttingOrder).map(({ of, counts }, i) => {
    const { length_mm, price_cents } = kinds[of]!;
    const cutHere = counts.flatMap((often, s) => waiting[s]!.splice(0, often));
    const used_mm = unitsLength_mm(
      cutHere.reduce((sum, piece) => sum + piece.unitCount, 0),
      unitsPerMetre,
    );
    return {
      id: `R${i + 1}`,
      length_mm,
      fromStock: price_cents === 0,
      pieces: cutHere.map(({ id }) => id),
      used_mm,
      left_mm: length_mm - used_mm,
    };
  });
}

function leastText({ isLeast, leastCost, filled }: CutUnits, kinds: readonly ReelKind[]): string {
  if (isLeast)
    return kinds.length === 1
      ? 'No fewer reels can serve these pieces'
      : 'No choice of reels that serves these pieces is cheaper, nor as cheap with fewer metres';
  const needed =
    kinds.length === 1 && leastCost > 0
      ? `at least ${counted(leastCost, 'reel')} are needed, this uses ${filled.length}`
      : 'cheaper ones were not all ruled out';
  return `Not shown to be the least: ${needed}`;
}

function methodText(cut: CutUnits, kinds: readonly ReelKind[], unitsPerMetre: number): string {
  const offcut =
    cut.left === cut.atMost
      ? 'no way of cutting them leaves a longer offcut on one reel'
      : `a longer offcut on one reel was not ruled out, by up to ${mm(unitsLength_mm(cut.atMost - cut.left, unitsPerMetre))}`;
  return `${leastText(cut, kinds)}; ${offcut}.`;
}

/**
 * Cuts pieces from reels, whole units only: at the least price, then from the fewest metres, then so that one reel keeps
 * the longest offcut. With one kind of reel that is the least number of reels. Every reel number below is refuted, by room,
 * by trying everything or by the prices of the relaxed problem, or the answer says that it was not.
 *
 * @param pieces none longer than every kind that may be had as often as wanted; @param kinds at least one such kind
 * @returns reels R1, R2 ...; of equal pieces the one listed first comes off the first reel
 * Source: the functions it joins. Check: `tests/set-out/reels.test.ts` (every way of cutting, first-fit-decreasing's
 * bound), `reference/set-out.checks.ts` (published examples of cutting stock).
 */
export function cutReels(
  pieces: readonly Piece[],
  kinds: readonly ReelKind[],
  unitsPerMetre: number,
): ReelCut {
  if (pieces.length === 0)
    return { reels: [], method: 'Nothing to cut.', isLeast: true, longestOffcut_mm: 0 };
  const units = pieces.map(({ unitCount }) => unitCount).sort((a, b) => b - a);
  const cut = cutUnits({ units, kinds: kindsInUnits(kinds, unitsPerMetre) });
  const reels = named(cut, pieces, kinds, unitsPerMetre);
  const longest_mm = Math.max(...reels.map(({ left_mm }) => left_mm));
  return {
    reels,
    method: methodText(cut, kinds, unitsPerMetre),
    isLeast: cut.isLeast,
    longestOffcut_mm: longest_mm + unitsLength_mm(cut.atMost - cut.left, unitsPerMetre),
  };
}
