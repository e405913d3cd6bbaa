import type { SetOut, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';

/** Heat and light of a strip do not reach further sideways than this in a shallow cavity (judgement). */
const widest_mm = 1000;

/** Least width of a panel that has slots; of a wall without panels its own. */
function narrowest_mm(
  { slots }: Pick<SetOut, 'slots'>,
  { panel, panels }: Pick<Job, 'panel' | 'panels'>,
): number {
  const used = new Set(slots.map((slot) => slot.panel));
  return Math.min(panel.width_mm, ...panels.filter(({ id }) => used.has(id)).map(({ width_mm }) => width_mm));
}

/**
 * Pitch of the section, mm: the least distance square across between neighbours in one panel, where heat has least room; the
 * cavity ends at the edge of its panel. A slot with none beside it has its panel to itself, up to 1,000 mm.
 * Check: `tests/set-out/neighbours.test.ts`, `tests/set-out/panels.test.ts`.
 */
export function sectionPitch_mm(
  setOut: Pick<SetOut, 'neighbours' | 'slots'>,
  job: Pick<Job, 'panel' | 'panels'>,
): number {
  const panelOf = new Map(setOut.slots.map(({ id, panel }) => [id, panel]));
  const distances = setOut.neighbours
    .filter(({ slot, beside }) => panelOf.get(slot) === panelOf.get(beside))
    .flatMap((seen) => [seen.fromDistance_mm, seen.toDistance_mm]);
  return Math.min(narrowest_mm(setOut, job), widest_mm, ...distances);
}

/** Whether the slots stand upright: the section model of heat holds for those only. */
export function isUpright(slots: readonly SlotLine[]): boolean {
  return slots.every((slot) => Math.abs(slot.x1_mm - slot.x0_mm) <= 0.02 * slot.length_mm);
}
