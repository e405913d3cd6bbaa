import type { Piece, Reel } from '../answer/set-out.ts';
import { unitsLength_mm, wholeUnits } from './pieces.ts';

interface OpenReel {
  readonly pieces: Piece[];
  freeUnits: number;
}

/** What first-fit-decreasing is worth, for the reader of the reel map. */
export const reelMethod =
  'first-fit-decreasing: longest pieces first, each from the first reel with room; not proved to be the least number';

/**
 * Cuts pieces from reels by first-fit-decreasing, whole units only: never more than 11/9 of the least number plus
 * 6/9 of a reel (Dosa 2007, from memory). Every piece fits a reel by construction of the pieces.
 */
export function cutFromReels(pieces: readonly Piece[], reel_mm: number, unitsPerMetre: number): Reel[] {
  const unitsPerReel = wholeUnits(reel_mm, unitsPerMetre);
  const reels: OpenReel[] = [];
  for (const piece of [...pieces].sort((a, b) => b.unitCount - a.unitCount)) {
    let reel = reels.find((candidate) => candidate.freeUnits >= piece.unitCount);
    if (!reel) {
      reel = { pieces: [], freeUnits: unitsPerReel };
      reels.push(reel);
    }
    reel.pieces.push(piece);
    reel.freeUnits -= piece.unitCount;
  }
  return reels.map((reel, i) => ({
    id: `R${i + 1}`,
    length_mm: reel_mm,
    pieces: reel.pieces.map((piece) => piece.id),
    used_mm: unitsLength_mm(unitsPerReel - reel.freeUnits, unitsPerMetre),
    left_mm: reel_mm - unitsLength_mm(unitsPerReel - reel.freeUnits, unitsPerMetre),
  }));
}
