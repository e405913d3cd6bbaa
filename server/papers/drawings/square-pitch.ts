import type { SlotLine } from '../../../src/answer/sizing.ts';

/** Slots closer than this across stand in one line, one after the other, mm. */
const next_mm = 1;

/** Square distance between the centre lines of a slot and the next. */
function distance_mm(slot: SlotLine, next: SlotLine): number {
  const ux = (slot.x1_mm - slot.x0_mm) / slot.length_mm;
  const uy = (slot.y1_mm - slot.y0_mm) / slot.length_mm;
  const dx = (next.x0_mm + next.x1_mm - slot.x0_mm - slot.x1_mm) / 2;
  const dy = (next.y0_mm + next.y1_mm - slot.y0_mm - slot.y1_mm) / 2;
  return Math.abs(dy * ux - dx * uy);
}

/** The closest pair of neighbouring slots, measured square to them, mm; the width given where there is none. */
export function squarePitch_mm(slots: readonly SlotLine[], alone_mm: number): number {
  const distances = slots.slice(1).map((next, i) => distance_mm(slots[i]!, next));
  return Math.min(alone_mm, ...distances.filter((distance) => distance > next_mm));
}
