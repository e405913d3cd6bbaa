import type { SlotLine } from '../answer/set-out.ts';

/** What a slot is ordered by: its middle to the millimetre, then every coordinate, so that no two are alike. */
function placeOf(slot: SlotLine, mostlyLevel: boolean): readonly number[] {
  const x_mm = Math.round((slot.x0_mm + slot.x1_mm) / 2);
  const y_mm = Math.round((slot.y0_mm + slot.y1_mm) / 2);
  const middle = mostlyLevel ? [y_mm, x_mm] : [x_mm, y_mm];
  return [...middle, slot.x0_mm, slot.y0_mm, slot.x1_mm, slot.y1_mm];
}

function compared(a: readonly number[], b: readonly number[]): number {
  const i = a.findIndex((value, at) => value !== b[at]);
  return i < 0 ? 0 : a[i]! - b[i]!;
}

/**
 * Slots in the order one meets them along the wall: by their middles from left to right and upwards, or, where they
 * lie rather than stand, upwards and then from left to right. Everything after the set-out works in this order, so
 * that no answer depends on the order in which slots were listed; their names still say it (S01 is listed first).
 * Check: `tests/set-out/wall-order.test.ts`.
 */
export function inWallOrder(slots: readonly SlotLine[]): SlotLine[] {
  const across_mm = slots.reduce((sum, slot) => sum + Math.abs(slot.x1_mm - slot.x0_mm), 0);
  const up_mm = slots.reduce((sum, slot) => sum + Math.abs(slot.y1_mm - slot.y0_mm), 0);
  return slots
    .map((slot) => ({ slot, place: placeOf(slot, across_mm > up_mm) }))
    .sort((a, b) => compared(a.place, b.place))
    .map(({ slot }) => slot);
}
