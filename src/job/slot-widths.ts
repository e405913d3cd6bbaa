import type { Job } from './job.ts';
import type { Slots } from './slots.ts';

/** Whether some slot of a job has a width of its own; evenly spaced ones and those of a list share one. */
export const hasOwnWidths = (slots: Slots): boolean =>
  slots.from === 'segments' && slots.segments.some(({ width_mm }) => width_mm !== undefined);

/** Widest slot as it is given, mm. */
export function widestSlot_mm(slots: Slots): number {
  if (slots.from !== 'segments') return slots.width_mm;
  return Math.max(...slots.segments.map(({ width_mm }) => width_mm ?? slots.width_mm));
}

/**
 * The job with its section asked for slots of one width: what is asked of a section stands for the slots of that width, and every
 * slot says its own, so that none changes with it. The very job where no slot has one of its own.
 */
export function forWidth<Asked extends Pick<Job, 'slots'>>(job: Asked, width_mm: number): Asked {
  const { slots } = job;
  if (slots.from !== 'segments' || !hasOwnWidths(slots)) return job;
  const segments = slots.segments.map((each) => ({ ...each, width_mm: each.width_mm ?? slots.width_mm }));
  return { ...job, slots: { ...slots, width_mm, segments } };
}
