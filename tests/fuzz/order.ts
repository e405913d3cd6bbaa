import { isDeepStrictEqual } from 'node:util';
import { type Job, type Sizing, sizeJob } from '../../src/index.ts';
import { hasOwnWidths } from '../../src/job/slot-widths.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { jobs } from './jobs.ts';
import { type Kind, thrown } from './kind.ts';
import { randomOf, shuffled } from './random.ts';

/** The same wall with its slots listed one by one. */
function listed(job: Job, { setOut }: Sizing): Job {
  const inList = setOut.slots.toSorted((a, b) => a.number - b.number);
  const own = hasOwnWidths(job.slots);
  const segments = inList.map(({ x0_mm, y0_mm, x1_mm, y1_mm, width_mm }) => ({
    ...{ x0_mm, y0_mm, x1_mm, y1_mm },
    ...(own && { width_mm }),
  }));
  return { ...job, slots: { from: 'segments', width_mm: job.slots.width_mm, segments } };
}

/** The same job with slots, zones and driver places listed in another order. */
export function reordered(job: Job, random: Random): Job {
  if (job.slots.from !== 'segments') throw new RangeError('not listed');
  const { segments } = job.slots;
  const order = shuffled(
    random,
    segments.map((_, i) => i),
  );
  /** A slot that is not there keeps its number. */
  const now = (number: number): number => order.indexOf(number - 1) + 1 || number;
  return {
    ...job,
    slots: { ...job.slots, segments: order.map((i) => segments[i]!) },
    feeds: {
      ...job.feeds,
      exceptions: job.feeds.exceptions.map((each) => ({ ...each, slot: now(each.slot) })),
    },
    hung: job.hung.map((each) => ({ ...each, slot: now(each.slot) })),
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
function unnamed(answer: Sizing, job: Job): Record<string, unknown> {
  const along = new Map(answer.setOut.slots.map(({ id }, i) => [id, `slot ${i + 1}`]));
  const place = (number: string): string =>
    JSON.stringify(job.drivers.places[Number(number) - 1]!.name).slice(1, -1);
  const zone = (number: string): string => job.dimming.zones[Number(number) - 1]!.name;
  const text = JSON.stringify(answer, (key, value) => (key === 'number' ? undefined : value))
    .replaceAll(/\bS\d{2,3}\b/g, (id) => along.get(id) ?? id)
    .replaceAll(/\bC(\d{2,3})\b/g, (id, number) => along.get(`S${number}`)?.replace('slot', 'cable') ?? id)
    .replaceAll(
      /(driver-(?:fit|place-\w+)|opening-place-\d+)-(\d+)/g,
      (_, what, number) => `${what} ${place(number)}`,
    )
    .replaceAll(/drivers\.places\[(\d+)\]/g, (_, number) => `driver place ${place(number)}`)
    .replaceAll(
      /(brightness|glare|dots|dimming-floor)-(\d+)/g,
      (_, what, number) => `${what} ${zone(number)}`,
    )
    .replaceAll(/dimming\.zones\[(\d+)\]/g, (_, number) => `zone ${zone(number)}`);
  const plain = JSON.parse(text) as Sizing;
  const byText = <Item>(items: readonly Item[]): string[] => items.map((item) => JSON.stringify(item)).sort();
  return {
    ...plain,
    drivers: { ...plain.drivers, places: byText(plain.drivers.places) },
    findings: byText(plain.findings),
  };
}

/** What another order of its lists changes about the answer to a job, in words; empty where it changes nothing. */
export function changedByOrder(job: Job, answer: Sizing, random: Random): string[] {
  const plain = listed(job, answer);
  const other = reordered(plain, random);
  const [first, again] = [sizeJob(plain), sizeJob(other)];
  if (!first.ok) return [`refused with its slots listed: ${first.issues[0]!.code}`];
  if (!again.ok) return [`refused in another order: ${again.issues[0]!.code}`];
  const [was, is] = [unnamed(first.value, plain), unnamed(again.value, other)];
  const pitches = [answer, first.value, again.value].map(({ section }) => section.pitch_mm);
  return [
    ...(new Set(pitches).size === 1 ? [] : [`pitch: ${pitches.join(', ')}`]),
    ...Object.keys(was)
      .filter((key) => !isDeepStrictEqual(was[key], is[key]))
      .map((key) => `otherwise in another order: ${key}`),
  ];
}

/** Random jobs with their lists in another order, which has to change nothing but names. */
export const order: Kind<Job> = {
  name: 'order',
  make: jobs.make,
  read: jobs.read,
  broken: (job) => {
    try {
      const answer = sizeJob(job);
      return answer.ok
        ? changedByOrder(job, answer.value, randomOf(11, answer.value.setOut.slots.length))
        : [];
    } catch (error) {
      return thrown(error);
    }
  },
};
