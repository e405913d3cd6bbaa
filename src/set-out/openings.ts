import type { Opening } from '../job/opening.ts';
import type { Segment } from '../job/slots.ts';
import { type Box, partInBox } from '../numeric/part-in-box.ts';

/** A part of a slot shorter than this beside an opening is not cut: a cutter hardly gets in, and no strip fits. */
export const leastPart_mm = 50;

/** The opening with the timber kept whole round it, wider by half a slot wherever the flank of one would reach in. */
function keptFree({ x_mm, y_mm, width_mm, height_mm, rim_mm }: Opening, slot: Segment, slot_mm: number): Box {
  const [isUpright, isLevel] = [slot.x0_mm === slot.x1_mm, slot.y0_mm === slot.y1_mm];
  const across = rim_mm + (isLevel ? 0 : slot_mm / 2);
  const up = rim_mm + (isUpright ? 0 : slot_mm / 2);
  return {
    left: x_mm - across,
    right: x_mm + width_mm + across,
    bottom: y_mm - up,
    top: y_mm + height_mm + up,
  };
}

function part(slot: Segment, from: number, to: number): Segment {
  // To a millionth of a millimetre, so that a part of whole cut units is not short of one by the last bit.
  const at = (a: number, b: number, t: number): number => Math.round((a + (b - a) * t) * 1e6) / 1e6;
  return {
    ...slot,
    x0_mm: at(slot.x0_mm, slot.x1_mm, from),
    y0_mm: at(slot.y0_mm, slot.y1_mm, from),
    x1_mm: at(slot.x0_mm, slot.x1_mm, to),
    y1_mm: at(slot.y0_mm, slot.y1_mm, to),
  };
}

const length_mm = ({ x0_mm, y0_mm, x1_mm, y1_mm }: Segment): number =>
  Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);

function cutBy(slot: Segment, opening: Opening, slot_mm: number): Segment[] {
  const { x0_mm: x0, y0_mm: y0, x1_mm: x1, y1_mm: y1 } = slot;
  const inside = partInBox({ x0, y0, x1, y1 }, keptFree(opening, slot, slot.width_mm ?? slot_mm));
  if (!inside) return [slot];
  return [part(slot, 0, inside[0]), part(slot, inside[1], 1)].filter(
    (left) => length_mm(left) >= leastPart_mm,
  );
}

/**
 * Slots as the openings leave them: a centre line that meets an opening, with the timber kept round it, ends there, and goes
 * on beyond as a slot of its own. Parts under 50 mm are left out. A slot that meets none is the very line it was.
 *
 * @param slot_mm width of the slots that have none of their own, 0 or more
 * Square ends of a sloping slot are kept half its width further away, which is on the careful side.
 * Check: `tests/set-out/openings.test.ts`, by hand.
 */
export function besideOpenings(
  slots: readonly Segment[],
  openings: readonly Opening[],
  slot_mm: number,
): readonly Segment[] {
  return openings.reduce<readonly Segment[]>(
    (left, opening) => left.flatMap((slot) => cutBy(slot, opening, slot_mm)),
    slots,
  );
}
