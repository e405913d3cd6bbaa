import type { Job } from './job.ts';

type Levelled = Pick<Job, 'dimming' | 'light'>;
type Zones = Pick<Job, 'dimming'>;

/** What slots are dimmed to and judged by. */
export interface ZoneLevels {
  /** Working level of each channel, ratios of full. */
  readonly levels: readonly number[];
  /** What the dimmer must still reach; null for the lowest of the working levels. */
  readonly lowest: number | null;
  readonly wanted_cd_per_m2: number;
}

type Zone = Job['dimming']['zones'][number];

const hasOwn = ({ levels, lowest, wanted_cd_per_m2 }: Zone): boolean =>
  levels !== null || lowest !== null || wanted_cd_per_m2 !== null;

/** Index of the zone of that name where it has levels or a brightness of its own; -1 where slots go by the job. */
const ownIndex = ({ dimming }: Zones, zone: string | null): number =>
  dimming.zones.findIndex((each) => each.name === zone && hasOwn(each));

/** The zone by whose levels its slots go: itself where it says anything of its own, else null, which is the job. */
export const levelledBy = (job: Zones, zone: string | null): string | null =>
  ownIndex(job, zone) === -1 ? null : zone;

/** Levels and wanted brightness of a zone: its own, and the job's where it says nothing; of the job for null. */
export function levelsOfZone(job: Levelled, zone: string | null): ZoneLevels {
  const own = job.dimming.zones[ownIndex(job, zone)];
  const { levels, lowest } = job.dimming;
  return {
    levels: own?.levels ?? levels,
    lowest: own?.lowest ?? lowest,
    wanted_cd_per_m2: own?.wanted_cd_per_m2 ?? job.light.wanted_cd_per_m2,
  };
}

/** The fields of the job that change levels and wanted brightness of a zone without changing those of others. */
export function levelFields(job: Zones, zone: string | null): Record<'wanted' | 'levels' | 'lowest', string> {
  const index = ownIndex(job, zone);
  if (index === -1)
    return { wanted: 'light.wanted_cd_per_m2', levels: 'dimming.levels[1]', lowest: 'dimming.lowest' };
  const at = `dimming.zones[${index + 1}]`;
  return { wanted: `${at}.wanted_cd_per_m2`, levels: `${at}.levels[1]`, lowest: `${at}.lowest` };
}
