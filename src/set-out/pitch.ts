import type { SetOut, SlotLine } from '../answer/sizing.ts';
import type { Job } from '../job/job.ts';

/** Slots closer than this across are in one line, one after the other. */
const next_mm = 1;

/** Heat and light of a strip do not reach further sideways than this in a shallow cavity (judgement). */
const widest_mm = 1000;

interface Mid {
  readonly x_mm: number;
  readonly y_mm: number;
}

const middleOf = (slot: SlotLine): Mid => ({
  x_mm: (slot.x0_mm + slot.x1_mm) / 2,
  y_mm: (slot.y0_mm + slot.y1_mm) / 2,
});

/** Square distance between the centre lines of a slot and the one after it. */
function squareDistance_mm(slot: SlotLine, next: SlotLine): number {
  const [a, b] = [middleOf(slot), middleOf(next)];
  const [ux, uy] = [(slot.x1_mm - slot.x0_mm) / slot.length_mm, (slot.y1_mm - slot.y0_mm) / slot.length_mm];
  return Math.abs((b.y_mm - a.y_mm) * ux - (b.x_mm - a.x_mm) * uy);
}

/**
 * Pitch of the section, mm: the closest pair of neighbouring slots, where heat has least room. A single slot has
 * the panel to itself, and neighbours in one line (no distance across) count as having none beside them.
 */
export function sectionPitch_mm(setOut: SetOut, panel: Job['panel']): number {
  const distances = setOut.slots
    .slice(1)
    .map((next, i) => squareDistance_mm(setOut.slots[i]!, next))
    .filter((distance) => distance > next_mm);
  const alone = Math.min(panel.width_mm, widest_mm);
  return distances.length === 0 ? alone : Math.min(...distances, alone);
}

/** Whether the slots stand upright: the section model of heat holds for those only. */
export function isUpright(setOut: SetOut): boolean {
  return setOut.slots.every((slot) => Math.abs(slot.x1_mm - slot.x0_mm) <= 0.02 * slot.length_mm);
}
