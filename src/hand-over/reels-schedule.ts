import type { Schedule } from '../answer/schedules.ts';
import type { Reel } from '../answer/set-out.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';

/** Where to cut, measured from the free end of a full reel, piece after piece. */
function cutsText(reel: Reel, lengths_mm: ReadonlyMap<string, number>): string {
  let at_mm = 0;
  return reel.pieces
    .map((id) => {
      at_mm += lengths_mm.get(id) ?? 0;
      return `${id} to ${at_mm.toFixed(0)}`;
    })
    .join(', ');
}

/** Reel map: which pieces come from which reel, in cutting order, and what is left. */
export function reelsSchedule(input: HandOverInput): Schedule {
  const pieces = input.setOut.runs.flatMap((run) => run.pieces);
  const lengths_mm = new Map(pieces.map((piece) => [piece.id, piece.length_mm]));
  return tabulate<Reel>(
    { id: 'reels', title: 'Reel map' },
    [
      words('reel', 'Reel', (reel) => reel.id),
      words('strip', 'Strip', () => input.products.strip.name),
      figures({ key: 'length', label: 'Length', unit: 'mm', digits: 0 }, (reel) => reel.length_mm),
      words('pieces', 'Pieces, cut at mm from the free end', (reel) => cutsText(reel, lengths_mm)),
      figures({ key: 'used', label: 'Used', unit: 'mm', digits: 1 }, (reel) => reel.used_mm),
      figures({ key: 'left', label: 'Left', unit: 'mm', digits: 1 }, (reel) => reel.left_mm),
    ],
    input.setOut.reels,
  );
}
