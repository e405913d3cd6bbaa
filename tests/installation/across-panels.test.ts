import { describe, expect, it } from 'vitest';
import { besidePanels, panelsPassed, roundCorners, turnsOf } from '../../src/installation/across-panels.ts';
import { pathLength_mm } from '../../src/installation/cable-routes.ts';
import { cornersOfWall, type Panel, placed } from '../../src/job/panels.ts';
import { path } from './laid.ts';

const panel = (id: string, width_mm: number, change: Partial<Panel> = {}): Panel => ({
  ...{ id, name: '', width_mm, height_mm: 2400, raised_mm: 0, gap_mm: 10, joint: 'in line', slotCount: null },
  ...change,
});

/** 0 to 1,000, then 1,010 to 1,810 round an inner corner, then 1,820 to 2,420 round an outer one. */
const three = [
  panel('P1', 1000),
  panel('P2', 800, { joint: 'inner corner' }),
  panel('P3', 600, { joint: 'outer corner', height_mm: 2000, raised_mm: 200 }),
];
const turns = turnsOf(cornersOfWall({ panels: three }), 45);

describe('a cable at a corner of the wall', () => {
  it('takes twice the depth of the build-up more behind an inner one, and nothing less behind an outer one', () => {
    expect(turns).toEqual([
      { x_mm: 1005, more_mm: 90 },
      { x_mm: 1815, more_mm: 0 },
    ]);
    const way = [path([200, 100], [200, 40]), path([200, 40], [2000, 40]), path([2000, 40], [2000, 300])];
    const round = roundCorners(way, turns);
    // 60 down, 1,800 along with 90 more, 260 up; drawn as it was.
    expect(round.map(({ length_mm }) => length_mm)).toEqual([60, 1890, 260]);
    expect(round.map(({ from, to }) => [from, to])).toEqual(way.map(({ from, to }) => [from, to]));
  });

  it('takes as much whichever way it is walked, and in the mirror', () => {
    const there = roundCorners([path([200, 40], [1500, 40])], turns);
    const back = roundCorners([path([1500, 40], [200, 40])], turns);
    const mirrored = turns.map(({ x_mm, more_mm }) => ({ x_mm: 2420 - x_mm, more_mm }));
    const seen = roundCorners([path([2220, 40], [920, 40])], mirrored);
    expect(pathLength_mm(there)).toBe(1390);
    expect(pathLength_mm(back)).toBe(1390);
    expect(pathLength_mm(seen)).toBe(1390);
  });

  it('that passes none is the very way it was', () => {
    const way = [path([200, 40], [900, 40])];
    expect(roundCorners(way, turns)[0]).toBe(way[0]);
    expect(roundCorners(way, [])).toBe(way);
  });
});

describe('the panels of a cable', () => {
  const all = placed(three);

  it('are those it passes or ends in, and none where it only touches an edge', () => {
    expect(panelsPassed([path([200, 40], [1500, 40])], all)).toEqual(['P1', 'P2']);
    expect(panelsPassed([path([200, 40], [1010, 40])], all)).toEqual(['P1']);
    expect(panelsPassed([path([1900, 40], [1900, 900])], all)).toEqual(['P3']);
    expect(panelsPassed([path([200, 40], [1500, 40])], [])).toEqual([]);
    // Inside a driver place nothing is passed.
    expect(panelsPassed([{ ...path([200, 40], [1500, 40]), in: 'place' }], all)).toEqual([]);
  });

  it('are left where one is lower or raised', () => {
    // P3 reaches from 200 to 2,200 mm.
    const cable = (id: string, y_mm: number) => ({ id, stretches: [path([200, y_mm], [2000, y_mm])] });
    expect(
      besidePanels(all, [cable('C01', 199), cable('C02', 200), cable('C03', 2200), cable('C04', 2201)]),
    ).toEqual([{ panel: 'P3', cables: ['C01', 'C04'] }]);
  });
});
