import type { SetOut, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { Opening } from '../job/opening.ts';
import { placed } from '../job/panels.ts';

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

/** Nearer than half a pitch by less than a fiftieth of it warms nothing by a tenth of a kelvin. */
const nearly = 0.98;

/** From the middle of an upright slot to the sides of an opening that it passes. */
function toOpening_mm(x_mm: number, { y0_mm, y1_mm }: SlotLine, opening: Opening): number {
  const [low, high] = [Math.min(y0_mm, y1_mm), Math.max(y0_mm, y1_mm)];
  const passes = low < opening.y_mm + opening.height_mm && high > opening.y_mm;
  const sides = [opening.x_mm, opening.x_mm + opening.width_mm];
  return passes ? Math.min(...sides.map((side) => Math.abs(side - x_mm))) : Number.POSITIVE_INFINITY;
}

/**
 * Least distance from the middle of a slot to where the panel ends, at its edge or at an opening beside the slot, mm;
 * null where that is no nearer than half the pitch, as a mirror between two slots is, or where slots do not stand upright.
 * Check: `tests/set-out/panel-edge.test.ts`, by hand.
 */
export function nearEdge_mm(setOut: Pick<SetOut, 'slots' | 'neighbours'>, job: Job): number | null {
  const { slots } = setOut;
  if (!isUpright(slots)) return null;
  const { panel, openings } = job;
  const panels = new Map(placed(job.panels).map((one) => [one.id, one]));
  const distances = slots.flatMap((slot) => {
    const x_mm = (slot.x0_mm + slot.x1_mm) / 2;
    const own = slot.panel === null ? undefined : panels.get(slot.panel);
    const [left_mm, right_mm] = own ? [own.left_mm, own.right_mm] : [0, panel.width_mm];
    return [x_mm - left_mm, right_mm - x_mm, ...openings.map((one) => toOpening_mm(x_mm, slot, one))];
  });
  const nearest_mm = Math.min(...distances);
  return nearest_mm < (nearly * sectionPitch_mm(setOut, job)) / 2 ? nearest_mm : null;
}

/** Whether the slots stand upright: the section model of heat holds for those only. */
export function isUpright(slots: readonly SlotLine[]): boolean {
  return slots.every((slot) => Math.abs(slot.x1_mm - slot.x0_mm) <= 0.02 * slot.length_mm);
}
