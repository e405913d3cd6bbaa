import { describe, expect, it } from 'vitest';
import { farFeedFindings } from '../../../src/findings/far-feed-findings.ts';
import { sizeAt } from '../../../src/sizing/size-job.ts';
import { granted } from '../../sizing/small-wall/granted.ts';
import { wallOf } from '../../sizing/small-wall/small-wall.ts';
import { feedAt, isTold, told, type Wall, wall } from './wall.ts';

const at = (change: (wall: Wall) => void) => told(farFeedFindings(wall(change)), 'far-feed');
const is = (change?: (wall: Wall) => void) => isTold(farFeedFindings(wall(change)), 'far-feed');

/** The way lies over the slots of 1,000 mm, and these runs are fed at their foot: so much of each cable beside its strip. */
const beside =
  (...lengths_mm: readonly number[]) =>
  (made: Wall): void => {
    made.job.cables.way = 'head';
    for (const [i, length_mm] of lengths_mm.entries())
      made.cables[i]!.stretches.push({
        ...{ in: 'slot', from: { x_mm: 200, y_mm: 100 + length_mm }, to: { x_mm: 200, y_mm: 100 } },
        ...{ length_mm, togetherCount: 1, air_degC: 50 },
      });
  };
const changed =
  (...changes: ((wall: Wall) => void)[]) =>
  (made: Wall): void => {
    for (const change of changes) change(made);
  };

describe('feeds at the far end from the way', () => {
  it('are none where cables come straight to their pads, or the way passes nearer to the pad than to the other end', () => {
    expect(is()).toBe(false);
    expect(is(beside(500, 400, 10))).toBe(false);
  });

  it('are counted with the cable beside their strip: 1,000 and 800 mm are 1.8 m', () => {
    expect(at(beside(1000, 800, 300))).toMatchObject({
      ...{ question: 'cables', status: 'watch', value: 1800, limit: null, margin: null, unit: 'mm' },
      place: { cable: 'C01', feedPoint: 'S01-F0' },
      fields: ['feeds.exceptions'],
      sentence:
        '2 runs are fed at the end away from the cable way: their cables lie beside the strip for 1.8 m in all, up to 1.0 m each.',
      advice: ['Feed runs S01 and S02 at the other end.'],
    });
    expect(at(beside(0, 0, 700)).sentence).toBe(
      '1 run is fed at the end away from the cable way: its cable lies beside the strip for 0.7 m.',
    );
  });

  it('are all fed at the other end at once where all of them are', () => {
    expect(
      at(changed(beside(1000, 1000, 1000), ({ job }) => Object.assign(job.feeds, { arrangement: 'start' }))),
    ).toMatchObject({
      value: 3000,
      fields: ['feeds.arrangement', 'cables.way'],
      advice: ['Feed the runs at the finish.', 'Or lay the cable way along the foot.'],
    });
  });

  it('are no fault of a run that is fed at both ends, or between', () => {
    const both = ({ setOut }: Wall) => setOut.runs[0]!.feedPoints.push(feedAt('S01', 20));
    expect(is(changed(beside(1000), both))).toBe(false);
    const between = ({ setOut }: Wall) => setOut.runs[0]!.feedPoints.splice(0, 1, feedAt('S01', 4));
    expect(is(changed(beside(800), between))).toBe(false);
  });

  it('show in a wall: two slots of 1,000 mm from 100 mm up, fed at the start with the way at the head', () => {
    const found = (change: 'start' | 'finish') => {
      const job = wallOf([600, 800], (own) => {
        own.cables.way = 'head';
        own.feeds.arrangement = change;
      });
      return granted(sizeAt(job, 'quick')).findings.find(({ id }) => id === 'far-feed');
    };
    expect(found('start')).toMatchObject({ status: 'watch', value: expect.closeTo(2000, 6) });
    expect(found('finish')).toBeUndefined();
  });
});
