import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';
import { newZone } from '../../src/job/zone.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { randomOf, shuffled } from '../fuzz/random.ts';
import { randomJob } from '../fuzz/random-job.ts';

function answerOf(job: Job): Sizing | undefined {
  const result = sizeJob(job);
  return result.ok ? result.value : undefined;
}

/** The same wall with its slots listed one by one. */
function listed(job: Job, { setOut }: Sizing): Job {
  const inList = setOut.slots.toSorted((a, b) => a.number - b.number);
  const segments = inList.map(({ x0_mm, y0_mm, x1_mm, y1_mm }) => ({ x0_mm, y0_mm, x1_mm, y1_mm }));
  return { ...job, slots: { from: 'segments', width_mm: job.slots.width_mm, segments } };
}

/** The same job with slots, zones and driver places listed in another order. */
function reordered(job: Job, random: Random): Job {
  if (job.slots.from !== 'segments') throw new RangeError('not listed');
  const { segments } = job.slots;
  const order = shuffled(
    random,
    segments.map((_, i) => i),
  );
  const now = (number: number): number => order.indexOf(number - 1) + 1;
  return {
    ...job,
    slots: { ...job.slots, segments: order.map((i) => segments[i]!) },
    feeds: {
      ...job.feeds,
      exceptions: job.feeds.exceptions.map((each) => ({ ...each, slot: now(each.slot) })),
    },
    dimming: {
      ...job.dimming,
      zones: shuffled(random, job.dimming.zones).map((zone) => ({
        ...zone,
        slots: shuffled(random, zone.slots.map(now)),
      })),
    },
    drivers: { ...job.drivers, places: shuffled(random, job.drivers.places) },
  };
}

/** An answer with every name that says a place in a list put by what it names: slots by their order along the wall. */
function unnamed(answer: Sizing, job: Job): unknown {
  const along = new Map(answer.setOut.slots.map(({ id }, i) => [id, `slot ${i + 1}`]));
  const place = (number: string): string =>
    JSON.stringify(job.drivers.places[Number(number) - 1]!.name).slice(1, -1);
  const text = JSON.stringify(answer, (key, value) => (key === 'number' ? undefined : value))
    .replaceAll(/\bS\d{2,3}\b/g, (id) => along.get(id) ?? id)
    .replaceAll(/(driver-(?:fit|place-\w+))-(\d+)/g, (_, what, number) => `${what} ${place(number)}`)
    .replaceAll(/drivers\.places\[(\d+)\]/g, (_, number) => `driver place ${place(number)}`);
  const plain = JSON.parse(text) as Sizing;
  const byText = <Item>(items: readonly Item[]): string[] => items.map((item) => JSON.stringify(item)).sort();
  return {
    ...plain,
    drivers: { ...plain.drivers, places: byText(plain.drivers.places) },
    findings: byText(plain.findings),
  };
}

/** That any order of its lists gives the job the answer it has. */
function expectSameAnswer(job: Job, first: Sizing, random: Random, orderCount: number): void {
  const plain = listed(job, first);
  const answer = answerOf(plain);
  expect(answer?.section.pitch_mm).toBe(first.section.pitch_mm);
  for (let i = 0; i < orderCount; i++) {
    const other = reordered(plain, random);
    const again = answerOf(other);
    if (!again) throw new Error('refused in another order');
    expect(unnamed(again, other)).toEqual(unnamed(answer!, plain));
  }
}

describe('the order of lists', () => {
  it.each([['plain wall', newJob()] as const, ...demoJobs.map(({ id, job }) => [id, job] as const)])(
    'does not matter to the %s',
    (_, job) => {
      expectSameAnswer(job, answerOf(job)!, randomOf(3, 0), 3);
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
      expectSameAnswer(zoned, answerOf(zoned)!, randomOf(3, 1), 3);
    },
  );

  it.each([0, 1, 2, 3, 4, 5, 6, 7])('does not matter to random jobs, part %i', (part) => {
    let sizedCount = 0;
    for (let number = part * 1000; sizedCount < 25; number++) {
      const random = randomOf(11, number);
      const job = randomJob(random);
      const answer = answerOf(job);
      if (!answer) continue;
      sizedCount++;
      expectSameAnswer(job, answer, random, 1);
    }
  });

  it('does not matter to whether slots run into each other', () => {
    let refusedCount = 0;
    for (let number = 0; refusedCount < 12; number++) {
      const random = randomOf(12, number);
      const job = randomJob(random);
      if (job.slots.from !== 'segments') continue;
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
