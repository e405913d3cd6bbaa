import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, sizeJob } from '../../src/index.ts';
import { resolveProducts } from '../../src/job/resolve.ts';
import { newZone } from '../../src/job/zone.ts';
import { setOutJob } from '../../src/set-out/set-out.ts';
import { changedByOrder, reordered } from '../fuzz/order.ts';
import { randomOf } from '../fuzz/random.ts';
import { randomJob } from '../fuzz/random-job.ts';

/** What three other orders of its lists change about a job. */
function changed(job: Job, seed: number): string[] {
  const answer = sizeJob(job);
  if (!answer.ok) return ['refused'];
  const random = randomOf(3, seed);
  return [1, 2, 3].flatMap(() => changedByOrder(job, answer.value, random));
}

/** Told from the set-out alone, so that a job with nothing to refuse is not sized. */
function isRefusedSetOut(job: Job): boolean {
  const products = resolveProducts(job);
  return products.ok && !setOutJob(job, products.value.strip).ok;
}

describe('the order of lists', () => {
  it.each([['plain wall', newJob()] as const, ...demoJobs.map(({ id, job }) => [id, job] as const)])(
    'does not matter to the %s',
    (_, job) => {
      expect(changed(job, 0)).toEqual([]);
      const zoned = structuredClone(job);
      zoned.dimming.zones = [
        newZone({ id: 'Z1', name: 'left', slots: [1, 2] }),
        newZone({ id: 'Z2', name: 'right', slots: [4, 5] }),
      ];
      zoned.drivers.places.push({
        ...zoned.drivers.places[0]!,
        name: 'Other place',
        x_mm: job.panel.width_mm,
      });
      expect(changed(zoned, 1)).toEqual([]);
    },
  );

  it('does not matter to whether slots run into each other', () => {
    let refusedCount = 0;
    for (let number = 0; refusedCount < 12; number++) {
      const random = randomOf(12, number);
      const job = randomJob(random);
      if (job.slots.from !== 'segments' || !isRefusedSetOut(job)) continue;
      const result = sizeJob(job);
      if (result.ok || result.issues[0]!.code !== 'slots-overlap') continue;
      refusedCount++;
      const other = sizeJob(reordered(job, random));
      expect(other.ok ? [] : other.issues.map(({ code, quantities }) => [code, quantities])).toEqual(
        result.issues.map(({ code, quantities }) => [code, quantities]),
      );
    }
  });
});
