import { describe, expect, it } from 'vitest';
import { alongWay, cornersOf, pathLength_mm, toPad } from '../../src/installation/cable-routes.ts';
import type { Path } from '../../src/installation/plan.ts';
import { cablesThrough, roundOpenings } from '../../src/installation/round-openings.ts';
import type { Opening } from '../../src/job/opening.ts';

const panel = { width_mm: 3000, height_mm: 2600 };
/** Passed at 20 mm: from 980 to 1,920 mm across, up to 2,020 mm. */
const door: Opening = {
  name: 'Door',
  kind: 'opening',
  cablesPass: false,
  x_mm: 1000,
  y_mm: 0,
  width_mm: 900,
  height_mm: 2000,
  rim_mm: 60,
};
/** Passed at 20 mm: from 980 to 1,920 mm across, from 780 to 1,720 mm up. */
const window: Opening = { ...door, name: 'Window', y_mm: 800, height_mm: 900 };

const path = (from: [number, number], to: [number, number]): Path => ({
  in: 'way',
  from: { x_mm: from[0], y_mm: from[1] },
  to: { x_mm: to[0], y_mm: to[1] },
  length_mm: Math.hypot(to[0] - from[0], to[1] - from[1]),
});
const corners = (paths: readonly Path[]) => cornersOf(paths).map(({ x_mm, y_mm }) => [x_mm, y_mm]);
const round = (paths: readonly Path[], ...openings: Opening[]) => roundOpenings(paths, { openings, panel });

describe('a cable at an opening', () => {
  it('goes over a door, since there is no way under it', () => {
    const way = round([path([100, 40], [2500, 40])], door);
    expect(corners(way)).toEqual([
      [100, 40],
      [980, 40],
      [980, 2020],
      [1920, 2020],
      [1920, 40],
      [2500, 40],
    ]);
    // 2,400 along and 1,980 up and down.
    expect(pathLength_mm(way)).toBe(2400 + 2 * 1980);
    expect(way.map((each) => each.in)).toEqual(['way', 'panel', 'panel', 'panel', 'way']);
  });

  it('takes the shorter way round a window', () => {
    // Level at 900: 120 down to 780 and back, against 820 up to 1,720.
    expect(pathLength_mm(round([path([100, 900], [2500, 900])], window))).toBe(2400 + 2 * 120);
    expect(pathLength_mm(round([path([100, 1700], [2500, 1700])], window))).toBe(2400 + 2 * 20);
    // Upright at 1,800 from the foot to the head: 120 to the right, against 820 to the left.
    expect(pathLength_mm(round([path([1800, 40], [1800, 2500])], window))).toBe(2460 + 2 * 120);
  });

  it('goes straight round a corner where the way would turn inside', () => {
    // Along the foot to 1,400 and up to a pad over the door: up the left side, then along the top.
    const feed = { x_mm: 1400, y_mm: 2060 };
    const run = { x0_mm: 1400, y0_mm: 2060, x1_mm: 1400, y1_mm: 2560 } as never;
    const start = { exit: { x_mm: 100, y_mm: 40 }, remote_mm: 0, way_mm: 40 };
    const way = round([...alongWay(start, feed.x_mm), ...toPad(feed, run, 40)], door);
    expect(corners(way)).toEqual([
      [100, 40],
      [980, 40],
      [980, 2020],
      [1400, 2020],
      [1400, 2060],
    ]);
  });

  it('that meets none, or begins or ends in one, stays as it was', () => {
    const clear = [path([100, 2300], [2500, 2300])];
    expect(round(clear, door)).toBe(clear);
    const into = [path([100, 40], [1400, 40])];
    expect(round(into, door)).toBe(into);
    expect(cablesThrough([door], [{ id: 'C01', stretches: into }])).toEqual([
      { opening: 0, cables: ['C01'] },
    ]);
    expect(cablesThrough([door], [{ id: 'C01', stretches: clear }])).toEqual([]);
  });

  it('finds no way where the opening reaches from foot to head', () => {
    const way = [path([100, 40], [2500, 40])];
    expect(round(way, { ...door, height_mm: 2600 })).toBe(way);
  });

  it('passes several, one after the other, and none of them through', () => {
    const two = [
      { ...door, x_mm: 400, width_mm: 400 },
      { ...door, x_mm: 1500, width_mm: 400 },
    ];
    const way = round([path([100, 40], [2500, 40])], ...two);
    expect(pathLength_mm(way)).toBe(2400 + 4 * 1980);
    expect(cablesThrough(two, [{ id: 'C01', stretches: way }])).toEqual([]);
  });

  it('goes alike in the mirror and from its other end', () => {
    const line = [path([100, 900], [2500, 900])];
    const length_mm = pathLength_mm(round(line, window));
    const mirrored = [path([2900, 900], [500, 900])];
    expect(pathLength_mm(round(mirrored, { ...window, x_mm: 3000 - 1900 }))).toBe(length_mm);
    expect(pathLength_mm(round([path([2500, 900], [100, 900])], window))).toBe(length_mm);
  });
});

describe('a cable at a keep-out', () => {
  const box: Opening = { ...window, kind: 'keep-out' };

  it('passes straight behind it where it may, and goes round it where not', () => {
    const way = [path([100, 900], [2500, 900])];
    expect(round(way, { ...box, cablesPass: true })).toEqual(way);
    expect(round(way, { ...box, cablesPass: false })).toEqual(round(way, window));
    const laid = [{ id: 'C01', stretches: way }];
    expect(cablesThrough([{ ...box, cablesPass: true }, box], laid)).toEqual([
      { opening: 1, cables: ['C01'] },
    ]);
  });

  it('lets cables pass only where it is one: nothing passes a door', () => {
    expect(round([path([100, 900], [2500, 900])], { ...window, cablesPass: true })).toEqual(
      round([path([100, 900], [2500, 900])], window),
    );
  });
});
