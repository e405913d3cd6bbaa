import type { SetOut, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';

/** Heat and light of a strip do not reach further sideways than this in a shallow cavity (judgement). */
const widest_mm = 1000;

/**
 * Pitch of the section, mm: the least distance square across between neighbours, where heat has least room. A slot
 * with none beside it has the panel to itself, up to 1,000 mm. Check: `tests/set-out/neighbours.test.ts`.
 */
export function sectionPitch_mm({ neighbours }: Pick<SetOut, 'neighbours'>, panel: Job['panel']): number {
  const distances = neighbours.flatMap((seen) => [seen.fromDistance_mm, seen.toDistance_mm]);
  return Math.min(panel.width_mm, widest_mm, ...distances);
}

/** Whether the slots stand upright: the section model of heat holds for those only. */
export function isUpright(slots: readonly SlotLine[]): boolean {
  return slots.every((slot) => Math.abs(slot.x1_mm - slot.x0_mm) <= 0.02 * slot.length_mm);
}
