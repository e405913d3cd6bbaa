import type { Run } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { levelledBy } from '../job/zone-levels.ts';

/** Slots that are dimmed to the same levels and judged by the same brightness. */
export interface LevelledSlots {
  /** The zone whose levels they go by; null for those of the job. */
  readonly zone: string | null;
  readonly name: string;
  readonly slots: readonly string[];
}

type Zoned = Pick<Run, 'slot' | 'zone'>;

/** What slots of some zones are called together: by the names of the zones, and that of the slots in none. */
function nameOf(zones: readonly (string | null)[], restName: string): string {
  return [...new Set(zones)].map((zone) => zone ?? (restName === '' ? 'the rest' : restName)).join(', ');
}

/**
 * The slots of a wall by the levels they are dimmed to, in the order of the wall: each zone with levels or a brightness of
 * its own, and together all others, which go by those of the job.
 */
export function slotsByLevels(job: Pick<Job, 'dimming'>, runs: readonly Zoned[]): LevelledSlots[] {
  const groups = new Map<string | null, Zoned[]>();
  for (const run of runs) {
    const by = levelledBy(job, run.zone);
    groups.set(by, [...(groups.get(by) ?? []), run]);
  }
  return [...groups].map(([zone, alike]) => ({
    zone,
    name:
      groups.size === 1
        ? 'the wall'
        : nameOf(
            alike.map((run) => run.zone),
            job.dimming.restName,
          ),
    slots: alike.map(({ slot }) => slot),
  }));
}
