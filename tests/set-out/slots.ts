import type { SlotLine } from '../../src/answer/set-out.ts';

/** A slot by its ends, 20 mm wide unless said otherwise. */
export function slot(
  number: number,
  [x0_mm, y0_mm, x1_mm, y1_mm]: readonly [number, number, number, number],
  width_mm = 20,
): SlotLine {
  const id = `S${String(number).padStart(2, '0')}`;
  return {
    id,
    number,
    panel: null,
    x0_mm,
    y0_mm,
    x1_mm,
    y1_mm,
    width_mm,
    length_mm: Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm),
  };
}

/** Slots from their ends, numbered as listed. */
export const slots = (...ends: (readonly [number, number, number, number])[]): SlotLine[] =>
  ends.map((end, i) => slot(i + 1, end));
