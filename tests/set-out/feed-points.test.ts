import { describe, expect, it } from 'vitest';
import { feedingOf, feedPointsOf } from '../../src/set-out/feed-points.ts';
import { bareRun, feedPoints } from './runs.ts';

/** 20 units on a slant of 3 : 4 : 5, from (100, 200) by 600 across and 800 up. */
const slanted = bareRun('S07', [100, 200, 700, 1000]);

const upright = (unitCount: number) => bareRun('S02', [300, 0, 300, 50 * unitCount], unitCount);

describe('where cables meet a run', () => {
  it('at the start: cut line 0, the first end of the strip', () => {
    expect(feedPoints(slanted, 'start')).toEqual([
      { id: 'S07-F1', run: 'S07', cutLine: 0, conductors: 'both', at: 'start', x_mm: 100, y_mm: 200 },
    ]);
  });

  it('at the finish: the cut line after the last unit, the other end', () => {
    expect(feedPoints(slanted, 'finish')).toEqual([
      { id: 'S07-F1', run: 'S07', cutLine: 20, conductors: 'both', at: 'finish', x_mm: 700, y_mm: 1000 },
    ]);
  });

  it('at both ends, with both conductors at each', () => {
    expect(
      feedPoints(slanted, 'both').map(({ id, cutLine, conductors, at }) => [id, cutLine, conductors, at]),
    ).toEqual([
      ['S07-F1', 0, 'both', 'start'],
      ['S07-F2', 20, 'both', 'finish'],
    ]);
  });

  it('crossed: plus at the start, minus at the finish', () => {
    expect(
      feedPoints(slanted, 'crossed').map((point) => [point.cutLine, point.conductors, point.at]),
    ).toEqual([
      [0, 'positive', 'start'],
      [20, 'return', 'finish'],
    ]);
  });

  it('between: the middle of each equal share of the run', () => {
    // Two shares of 10 units have their middles at 5 and 15: a quarter and three quarters of 600 across, 800 up.
    expect(
      feedPoints(slanted, 'between', { betweenCount: 2 }).map((point) => [
        point.id,
        point.cutLine,
        point.at,
        point.x_mm,
        point.y_mm,
      ]),
    ).toEqual([
      ['S07-F1', 5, 'between', 250, 400],
      ['S07-F2', 15, 'between', 550, 800],
    ]);
    expect(feedPoints(slanted, 'between', { betweenCount: 2 }).map((point) => point.conductors)).toEqual([
      'both',
      'both',
    ]);
  });

  it.each([
    // units, feeds, cut lines: middles of the shares, to the nearest cut line
    [48, 3, [8, 24, 40]],
    [7, 1, [4]], // 3.5, half goes up
    [5, 2, [1, 4]], // 1.25 and 3.75
    [4, 3, [1, 2, 3]], // 0.67, 2, 3.33
    [3, 3, [1, 2]], // 0.5 and 1.5 and 2.5 would be 1, 2 and the far end, which is not between
    [2, 3, [1]], // 0.33, 1 and 1.67: the one cut line there is, once
  ])('%i units fed between at %i places: cut lines %j', (unitCount, betweenCount, cutLines) => {
    const points = feedPoints(upright(unitCount), 'between', { betweenCount });
    expect(points.map((point) => point.cutLine)).toEqual(cutLines);
    expect(points.map((point) => point.y_mm)).toEqual(cutLines.map((line) => 50 * line));
    expect(points.every((point) => point.at === 'between' && point.x_mm === 300)).toBe(true);
  });

  it('turned round, the run is fed at the same places', () => {
    const turned = bareRun('S07', [700, 1000, 100, 200]);
    const places = (run: typeof turned) =>
      feedPoints(run, 'between', { betweenCount: 2 })
        .map((point) => [point.x_mm, point.y_mm])
        .toSorted((a, b) => a[0]! - b[0]!);
    expect(places(turned)).toEqual(places(slanted));
  });

  it('a single unit has no cut line between its ends, and is fed at an end all the same', () => {
    const refusal = feedPointsOf(upright(1), { arrangement: 'between', betweenCount: 1, cutLines: [] });
    expect(refusal.ok ? [] : refusal.issues).toMatchObject([
      {
        code: 'no-cut-line-between',
        place: { slot: 'S02', field: 'feeds.arrangement' },
        quantities: { unitCount: 1 },
      },
    ]);
    expect(feedPoints(upright(1), 'both').map((point) => point.y_mm)).toEqual([0, 50]);
  });
});

describe('how a slot is fed', () => {
  it('as the job says, but for the slots it names', () => {
    const feeds = {
      ...{ arrangement: 'start' as const, betweenCount: 1, cutLines: [], terminal_mohm: 5, joint_mohm: 2 },
      exceptions: [
        { slot: 2, arrangement: 'between' as const, betweenCount: 3, cutLines: [] },
        { slot: 4, arrangement: 'both' as const, betweenCount: 1, cutLines: [] },
      ],
    };
    expect([1, 2, 3, 4].map((n) => feedingOf(feeds, n).arrangement)).toEqual([
      'start',
      'between',
      'start',
      'both',
    ]);
    expect(feedingOf(feeds, 2).betweenCount).toBe(3);
  });
});

describe('feeds at chosen cut lines', () => {
  it('are where they were chosen, ends among them, each once and in order', () => {
    const points = feedPoints(upright(20), 'chosen', { cutLines: [20, 5, 0, 5] });
    expect(points.map(({ cutLine, at }) => [cutLine, at])).toEqual([
      [0, 'start'],
      [5, 'between'],
      [20, 'finish'],
    ]);
    expect(points.every(({ conductors }) => conductors === 'both')).toBe(true);
  });

  it.each([
    [[], /none is given: give at least one, from 0 at its start to 20 at its finish/],
    [[3, 21], /holds 20 cut units, so there is no cut line 21: choose from 0 at its start to 20/],
  ])('are refused where there are none such: %j', (cutLines, sentence) => {
    const refusal = feedPointsOf(upright(20), { arrangement: 'chosen', betweenCount: 1, cutLines });
    expect(refusal.ok ? [] : refusal.issues).toMatchObject([
      { code: 'no-such-cut-line', place: { field: 'feeds.cutLines' } },
    ]);
    expect(refusal.ok ? '' : refusal.issues[0]!.sentence).toMatch(sentence);
  });

  it('mean nothing to a run that is fed otherwise', () => {
    expect(feedPoints(upright(20), 'start', { cutLines: [99] }).map(({ cutLine }) => cutLine)).toEqual([0]);
  });
});
