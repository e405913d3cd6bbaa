import type { HeatAnswer } from '../answer/heat.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { heatAnswer } from '../sizing/heat-answer.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import { heatQuestion, prepare } from '../sizing/prepare.ts';
import { settle } from '../sizing/settle.ts';

/** The most watts a strip may have in the wall as described. */
export interface HighestWatts {
  /** As its data sheet says it. */
  readonly nominal_W_per_m: number;
  /** As it draws them where it draws most. */
  readonly drawn_W_per_m: number;
}

/** The job with a strip of a share of its watts, and of the light that goes with them. */
function withShare(job: Job, strip: StripData, share: number): Job {
  const channels = strip.channels.map((channel) => ({
    ...channel,
    watts_per_m: share * channel.watts_per_m,
    lumens_per_m: share * channel.lumens_per_m,
  }));
  return { ...job, strip: { ...job.strip, data: { ...job.strip.data, channels } } };
}

/** Heat of a job as its quick answer has it; null where the wall is refused. */
function heatOf(job: Job): HeatAnswer | null {
  const prepared = prepare(job, 'quick');
  if (!prepared.ok) return null;
  const settled = settle(prepared.value);
  if (!settled.ok) return null;
  const question = heatQuestion(prepared.value, settled.value);
  if (!question.ok) return null;
  const heat = heatAnswer(question.value);
  return heat.ok ? heat.value : null;
}

/** Least of what the limits allow over what the warm ends rise, over the room; cautions do not bind. */
function roomLeft({ temperatures }: HeatAnswer, room_degC: number): number {
  const ratios = temperatures.flatMap(({ high_degC, limits }) =>
    limits
      .filter(({ beyond }) => beyond !== 'caution')
      .map(({ limit_degC }) => (limit_degC - room_degC) / Math.max(high_degC - room_degC, 1e-9)),
  );
  return Math.min(...ratios);
}

const mostRounds = 8;
/** The highest watts are found to within this; the share aimed at leaves a little. */
const close = 1.004;
const aimed = 0.999;

/**
 * The highest watts put back into the job: sized anew with such a strip, its drivers, drops and warmth included, until the
 * warm end of every binding limit passes and hardly more would.
 *
 * @param share of the watts of the job's strip to begin with, above 0
 * @returns null where the wall with such a strip is refused for another reason, as when its drivers are too small
 * Check: the job sized with that strip passes, `tests/inverse/heat.test.ts`.
 */
export function putBack(job: Job, strip: StripData, share: number): HighestWatts | null {
  for (let round = 0, at = share; round < mostRounds; round++) {
    const heat = heatOf(withShare(job, strip, at));
    if (heat === null) return null;
    const ratio = roomLeft(heat, job.site.room_degC);
    const isEnough = ratio < close || round >= mostRounds / 2;
    if (ratio >= 1 && isEnough)
      return { nominal_W_per_m: at * nominal_W_per_m(strip), drawn_W_per_m: heat.strip_W_per_m };
    at *= aimed * ratio;
  }
  return null;
}
