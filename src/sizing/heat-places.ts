import type { HeatAnswer } from '../answer/heat.ts';
import { decidingFirst } from '../heat/deciding-limit.ts';
import { type LimitedPlace, type TemperatureLimit, temperatureLimits } from '../heat/limits.ts';
import type { Job } from '../job/job.ts';
import type { ProfileProduct } from '../job/profile.ts';
import type { StripData } from '../job/strip.ts';

type Temperature = HeatAnswer['temperatures'][number];

/** The places of a section as a maker calls them, in the order of the answer. */
export const heatPlaces = {
  solderPoint: { id: 'solder', name: 'Strip at the solder point' },
  tape: { id: 'tape', name: 'Tape under the strip' },
  timber: { id: 'timber', name: 'Hottest timber' },
  glueLine: { id: 'glue', name: 'Glue line at the batten' },
  cable: { id: 'cable', name: 'Cable lying beside the strip' },
  roomFace: { id: 'face', name: 'Front within reach' },
  sheet: { id: 'sheet', name: 'Slot cover' },
  coverInside: { id: 'cover-inside', name: 'Profile cover, inside' },
  coverOutside: { id: 'cover-outside', name: 'Profile cover, outside' },
} as const satisfies Record<LimitedPlace, { id: string; name: string }>;

/** A temperature with its band and where it is. */
export interface PlacedTemperature {
  readonly place: LimitedPlace;
  readonly value_degC: number;
  readonly low_degC: number;
  readonly high_degC: number;
  /** Of the watts, that the rise goes with. */
  readonly power: number;
  readonly x_mm: number | null;
  readonly y_mm: number | null;
}

/** What of a job its limits of temperature depend on. */
interface MadeWith {
  readonly job: Pick<Job, 'site' | 'strip'>;
  readonly strip: Pick<StripData, 'limit_degC'>;
  readonly profile?: Pick<ProfileProduct, 'cover' | 'isLimitEntered'> | null;
}

/** Every limit of temperature of a job, by how its front is met and what its strip is made for. */
export function limitsOfJob({ job, strip, profile }: MadeWith): readonly TemperatureLimit[] {
  return temperatureLimits({
    touch: job.site.touch,
    stripRating_degC: strip.limit_degC,
    isRatingEntered: typeof job.strip.data.limit_degC === 'number',
    ...(profile?.cover && {
      cover: { limit_degC: profile.cover.limit_degC, isEntered: profile.isLimitEntered },
    }),
  });
}

/** A row of the answer: the temperature beside every limit that applies to its place, the deciding one first. */
export function temperatureRow(at: PlacedTemperature, made: MadeWith): Temperature {
  const { place, ...rest } = at;
  const here = limitsOfJob(made).filter((limit) => limit.place === place);
  const limits = decidingFirst(here, at.high_degC).map(
    ({ id, limit_degC, beyond, source, standing, remedy }) => ({
      ...{ id, limit_degC, beyond, remedy },
      basis: `${source} (${standing})`,
    }),
  );
  return { ...heatPlaces[place], ...rest, limit_degC: limits[0]?.limit_degC ?? null, limits };
}
