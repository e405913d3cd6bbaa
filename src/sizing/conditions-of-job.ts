import type { Condition } from '../answer/conditions.ts';
import type { Job } from '../job/job.ts';
import { levelsOf } from '../words.ts';
import { type Dimmed, isLimited, isPulsed } from './dimming-of-job.ts';

/**
 * What has to be so for the figures of a job to hold: none for a job sized for full, and the limit of the dimmer for
 * one sized for its working levels. Everything the papers say of the limit is said here.
 */
export function conditionsOf(job: Job, products: Dimmed): Condition[] {
  if (!isLimited(job)) return [];
  const level = levelsOf(job.dimming.levels, products.strip.channels);
  const [holds, others] = isPulsed(job, products)
    ? ([
        'heat',
        'the temperatures hold only then, while cables, fuses and drivers are sized for full',
      ] as const)
    : (['everything', 'cables, fuses, drivers and temperatures hold only then'] as const);
  return [
    {
      id: 'dimmer-limit',
      holds,
      levels: [...job.dimming.levels],
      sentence: `The dimmer or its control must be made unable to go above ${level} of full by whoever commissions it, where no user of the wall can undo it, and be shown to be so before the wall is used: ${others}.`,
      short: `only with the dimmer made unable to go above ${level} of full`,
    },
  ];
}
