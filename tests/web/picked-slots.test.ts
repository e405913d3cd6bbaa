import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import { newZone } from '../../src/job/zone.ts';
import { boxOnWall } from '../../web/drawing/box-on-wall.ts';
import {
  between,
  fedBy,
  intoZone,
  madeOf,
  newZoneOf,
  outOfZones,
  toggled,
  within,
} from '../../web/state/picked-slots.ts';

const slot = (number: number, x_mm: number) => ({
  ...{ id: `S0${number}`, number, length_mm: 900, width_mm: 18 },
  ...{ panel: null, x0_mm: x_mm, y0_mm: 100, x1_mm: x_mm, y1_mm: 1000 },
});
/** As one meets them; listed the other way about. */
const wall = [slot(4, 100), slot(3, 200), slot(2, 300), slot(1, 400)];

const zones = (job = newJob()) => job.dimming.zones.map(({ name, slots }) => [name, slots]);
const zoned = (...lists: number[][]) => {
  const plain = newJob();
  const made = lists.map((slots, i) => newZone({ id: `Z${i + 1}`, name: `Zone ${i + 1}`, slots }));
  return { ...plain, dimming: { ...plain.dimming, zones: made } };
};

describe('picked slots', () => {
  it('lie between two on the wall, whichever comes first and however they are numbered', () => {
    expect(between(wall, 'S03', 'S01')).toEqual([1, 2, 3]);
    expect(between(wall, 'S01', 'S03')).toEqual([1, 2, 3]);
    expect(between(wall, 'S02', 'S02')).toEqual([2]);
  });

  it('are what a box meets', () => {
    // From 250 to 350 mm across and over part of the height.
    expect(within(wall, { left: 150, right: 350, bottom: 900, top: 1200 })).toEqual([2, 3]);
    expect(within(wall, { left: 0, right: 500, bottom: 1001, top: 1200 })).toEqual([]);
  });

  it('come and go one by one', () => {
    expect(toggled([1, 3], 2)).toEqual([1, 2, 3]);
    expect(toggled([1, 2, 3], 2)).toEqual([1, 3]);
  });

  it('leave the zones they were in, and a zone nobody is left in is gone', () => {
    const job = zoned([1, 2], [3]);
    expect(zones(intoZone(job, [2, 3], 'Z1').edit(job))).toEqual([['Zone 1', [1, 2, 3]]]);
    expect(zones(intoZone(job, [2], 'Z2').edit(job))).toEqual([
      ['Zone 1', [1]],
      ['Zone 2', [2, 3]],
    ]);
    expect(zones(newZoneOf(job, [3, 1]).edit(job))).toEqual([
      ['Zone 1', [2]],
      ['Zone 3', [1, 3]],
    ]);
    expect(zones(outOfZones(job, [1, 2]).edit(job))).toEqual([['Zone 2', [3]]]);
  });

  it('are fed in a way of their own, or as the wall', () => {
    const job = fedBy([2, 3], 'both').edit(newJob());
    expect(job.feeds.exceptions.map(({ slot, arrangement }) => [slot, arrangement])).toEqual([
      [2, 'both'],
      [3, 'both'],
    ]);
    expect(
      fedBy([3], null)
        .edit(job)
        .feeds.exceptions.map(({ slot: number }) => number),
    ).toEqual([2]);
    expect(fedBy([3], 'crossed').edit(job).feeds.exceptions.at(-1)).toMatchObject({
      slot: 3,
      arrangement: 'crossed',
    });
  });
});

describe('what picked slots are by now', () => {
  it('is their zone and how they are fed, where they agree', () => {
    const job = fedBy([2, 3], 'finish').edit(zoned([1, 2, 3]));
    expect(madeOf(job, [2, 3])).toEqual({ zone: 'Zone 1', feed: 'finish' });
    expect(madeOf(job, [1, 2])).toEqual({ zone: 'Zone 1', feed: null });
    expect(madeOf(job, [3, 4])).toEqual({ zone: null, feed: null });
    expect(madeOf(job, [4, 5])).toEqual({ zone: 'no zone', feed: newJob().feeds.arrangement });
    expect(madeOf(newJob(), [1])).toEqual({ zone: undefined, feed: newJob().feeds.arrangement });
  });
});

describe('a box on the drawing', () => {
  it('is one on the wall, whichever corner it was begun at', () => {
    // A tenth of full size, the lower left corner of the panel at 50, 200; y runs down on the drawing.
    const frame = { scale: 0.1, x: (x: number) => 50 + x / 10, y: (y: number) => 200 - y / 10 } as never;
    const box = { left: 100, right: 300, bottom: 500, top: 1000 };
    expect(boxOnWall({ x0: 60, y0: 100, x1: 80, y1: 150 }, frame)).toEqual(box);
    expect(boxOnWall({ x0: 80, y0: 150, x1: 60, y1: 100 }, frame)).toEqual(box);
  });
});
