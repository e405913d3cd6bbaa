import type { SlotLine } from '../../src/answer/set-out.ts';
import type { Arrangement, Job } from '../../src/job/job.ts';
import { freeZoneId, newZone } from '../../src/job/zone.ts';
import { type Box, partInBox } from '../../src/numeric/part-in-box.ts';
import { freeZoneName } from './free-names.ts';
import type { Proposal } from './proposals.ts';

const sorted = (numbers: Iterable<number>): number[] => [...new Set(numbers)].sort((a, b) => a - b);

/** Slots from one to another as one meets them along the wall, by their numbers. */
export function between(slots: readonly SlotLine[], from: string, to: string): number[] {
  const [a, b] = [from, to].map((id) => slots.findIndex((slot) => slot.id === id)).sort((x, y) => x - y);
  return sorted(slots.slice(Math.max(0, a!), b! + 1).map(({ number }) => number));
}

/** Picked slots with one more, or without it where it was picked. */
export const toggled = (picked: readonly number[], number: number): number[] =>
  picked.includes(number) ? picked.filter((each) => each !== number) : sorted([...picked, number]);

/** Slots that a box drawn over the wall meets, by their numbers. */
export const within = (slots: readonly SlotLine[], box: Box): number[] =>
  sorted(
    slots
      .filter(({ x0_mm: x0, y0_mm: y0, x1_mm: x1, y1_mm: y1 }) => partInBox({ x0, y0, x1, y1 }, box))
      .map(({ number }) => number),
  );

type Zones = Job['dimming']['zones'];

/** Zones without these slots; one that had no others is gone. */
const without = (zones: Zones, numbers: readonly number[]): Zones =>
  zones
    .map((zone) => ({ ...zone, slots: zone.slots.filter((number) => !numbers.includes(number)) }))
    .filter(({ slots }) => slots.length > 0);

function withZones(zones: Zones): (job: Job) => Job {
  return (job) => ({ ...job, dimming: { ...job.dimming, zones } });
}

/** Puts slots into a zone by its id, taking them out of any other. */
export const intoZone = ({ dimming: { zones } }: Job, numbers: readonly number[], id: string): Proposal => ({
  what: '',
  fields: ['dimming.zones'],
  edit: withZones(
    zones
      .map((zone) => {
        const others = zone.slots.filter((number) => !numbers.includes(number));
        return { ...zone, slots: zone.id === id ? sorted([...others, ...numbers]) : others };
      })
      .filter(({ slots }) => slots.length > 0),
  ),
});

/** Makes a zone of slots, taking them out of any other. */
export const newZoneOf = ({ dimming: { zones } }: Job, numbers: readonly number[]): Proposal => {
  const fresh = newZone({ id: freeZoneId(zones), name: freeZoneName(zones), slots: sorted(numbers) });
  return { what: '', fields: ['dimming.zones'], edit: withZones([...without(zones, numbers), fresh]) };
};

/** Takes slots out of every zone. */
export const outOfZones = ({ dimming: { zones } }: Job, numbers: readonly number[]): Proposal => ({
  what: '',
  fields: ['dimming.zones'],
  edit: withZones(without(zones, numbers)),
});

/** Feeds slots in a way of their own, or as the wall where that is null. */
export function fedBy(numbers: readonly number[], arrangement: Arrangement | null): Proposal {
  return {
    what: '',
    fields: ['feeds.exceptions'],
    edit: (job) => {
      const others = job.feeds.exceptions.filter(({ slot }) => !numbers.includes(slot));
      const own =
        arrangement === null
          ? []
          : numbers.map((slot) => ({ slot, arrangement, betweenCount: 1, cutLines: [] }));
      return { ...job, feeds: { ...job.feeds, exceptions: [...others, ...own] } };
    },
  };
}

/** The one value that all have in common, or null. */
const common = <Value>(values: readonly Value[]): Value | null =>
  new Set(values).size === 1 ? values[0]! : null;

/**
 * What slots are by the job now: the name of their zone, or `no zone` (undefined where the wall has no zones), and how
 * they are fed; null where they differ.
 */
export function madeOf(
  { dimming: { zones }, feeds }: Job,
  numbers: readonly number[],
): { readonly zone: string | null | undefined; readonly feed: Job['feeds']['arrangement'] | null } {
  const zoneOf = (number: number) => zones.find(({ slots }) => slots.includes(number))?.name ?? 'no zone';
  const feedOf = (number: number) =>
    feeds.exceptions.find(({ slot }) => slot === number)?.arrangement ?? feeds.arrangement;
  return {
    zone: zones.length === 0 ? undefined : common(numbers.map(zoneOf)),
    feed: common(numbers.map(feedOf)),
  };
}
