import { describe, expect, it } from 'vitest';
import {
  alongWay,
  betweenDevices,
  cornersOf,
  exitOf,
  onWay,
  pathLength_mm,
  reversed,
  runToRun,
  toExit,
  toPad,
} from '../../src/installation/cable-routes.ts';
import type { Path } from '../../src/installation/plan.ts';
import { fedRun } from '../set-out/runs.ts';

const p = (x_mm: number, y_mm: number) => ({ x_mm, y_mm });

/** "in length" of each stretch. */
const told = (paths: readonly Path[]) => paths.map((path) => [path.in, path.length_mm]);

describe('the hole the cables of a place leave by', () => {
  const place = { x_mm: 200, y_mm: -140, width_mm: 900, height_mm: 120 };

  it('is in the middle of its top below the way, of its bottom above it', () => {
    // The place reaches from -140 to -20; its middle is 200 + 450.
    expect(exitOf(place, 40, 2000)).toEqual(p(650, -20));
    expect(exitOf(place, -20, 2000)).toEqual(p(650, -20));
    expect(exitOf({ ...place, y_mm: 2000 }, 40, 2000)).toEqual(p(650, 2000));
    expect(exitOf({ ...place, y_mm: 40 }, 40, 2000)).toEqual(p(650, 40));
  });

  it('is at the height of the way beside it, on the side towards the middle of the panel', () => {
    const beside = { ...place, y_mm: 0 };
    // The middle of the place at 650 is left of the panel's at 1,000, so that the hole is in its right side, 1,100.
    expect(exitOf(beside, 40, 2000)).toEqual(p(1100, 40));
    expect(exitOf({ ...beside, x_mm: 2100 }, 40, 2000)).toEqual(p(2100, 40));
    expect(exitOf({ ...beside, x_mm: -1000 }, 40, 2000)).toEqual(p(-100, 40));
    // In the middle of a panel of 1,300 mm it is to the right still; a millimetre less, and it is to the left.
    expect(exitOf(beside, 40, 1300)).toEqual(p(1100, 40));
    expect(exitOf(beside, 40, 1299)).toEqual(p(200, 40));
  });
});

describe('inside a place', () => {
  it('goes square: along to below the hole, then up', () => {
    const paths = toExit(p(415, -94), p(650, -20));
    expect(told(paths)).toEqual([
      ['place', 235],
      ['place', 74],
    ]);
    expect(cornersOf(paths)).toEqual([p(415, -94), p(650, -94), p(650, -20)]);
  });

  it('goes square from device to device, and has no stretch of no length', () => {
    expect(cornersOf(betweenDevices(p(415, -94), p(435, -104)))).toEqual([
      p(415, -94),
      p(435, -94),
      p(435, -104),
    ]);
    expect(told(betweenDevices(p(0, 5), p(30, 5)))).toEqual([['place', 30]]);
    expect(betweenDevices(p(1, 1), p(1, 1))).toEqual([]);
  });
});

describe('from the hole to the way and along it', () => {
  it('rises, then goes along', () => {
    const start = { exit: p(650, -20), remote_mm: 0, way_mm: 40 };
    expect(told(alongWay(start, 800))).toEqual([
      ['riser', 60],
      ['way', 150],
    ]);
    expect(told(alongWay(start, 650))).toEqual([['riser', 60]]);
  });

  it('begins with the cable of a remote place, which has a length and no drawing', () => {
    const remote = alongWay({ exit: p(650, 40), remote_mm: 4000, way_mm: 40 }, 500);
    expect(told(remote)).toEqual([
      ['remote', 4000],
      ['way', 150],
    ]);
    expect(cornersOf(remote)).toEqual([p(650, 40), p(500, 40)]);
  });

  it('goes from spot to spot', () => {
    expect(told(onWay(300, 100, 40))).toEqual([['way', 200]]);
    expect(onWay(300, 300, 40)).toEqual([]);
  });
});

describe('from the way to a pad', () => {
  const upright = fedRun('S01', [300, 100, 300, 1100]);
  const pad = (y_mm: number) => p(300, y_mm);

  it('lies in the panel as far as the strip, then beside it', () => {
    expect(told(toPad(pad(100), upright, 40))).toEqual([['panel', 60]]);
    expect(told(toPad(pad(1100), upright, 40))).toEqual([
      ['panel', 60],
      ['slot', 1000],
    ]);
    // From above: 860 down to the head of the strip, 500 on to its middle.
    expect(told(toPad(pad(600), upright, 1960))).toEqual([
      ['panel', 860],
      ['slot', 500],
    ]);
  });

  it('is beside the strip all the way where the way crosses it', () => {
    expect(told(toPad(pad(1100), upright, 500))).toEqual([['slot', 600]]);
  });

  it('lies nowhere beside a strip that lies flat', () => {
    const flat = fedRun('S01', [300, 900, 1300, 900]);
    expect(told(toPad(p(300, 900), flat, 40))).toEqual([['panel', 860]]);
  });

  it('nor beside one that slants by half a right angle or less, wherever on the wall', () => {
    const slant = fedRun('S01', [300, 900, 1300, 950]);
    expect(told(toPad(p(1300, 950), slant, 40))).toEqual([['panel', 910]]);
    const half = fedRun('S01', [0, 100, 1000, 1100]);
    expect(told(toPad(p(1000, 1100), half, 40))).toEqual([['panel', 1060]]);
    const farOut = fedRun('S01', [1900, 100, 1900, 1100]);
    expect(told(toPad(p(1900, 1100), farOut, 40))).toEqual([
      ['panel', 60],
      ['slot', 1000],
    ]);
  });

  it('takes as much cable however it is split', () => {
    for (const way_mm of [40, 500, 1960])
      for (const y_mm of [100, 600, 1100])
        expect(pathLength_mm(toPad(pad(y_mm), upright, way_mm))).toBe(Math.abs(y_mm - way_mm));
  });
});

describe('from run to run', () => {
  it('goes across behind the battens, then up or down', () => {
    const next = fedRun('S02', [850, 100, 850, 1100]);
    const down = runToRun(p(100, 1100), p(850, 100), next);
    expect(cornersOf(down)).toEqual([p(100, 1100), p(850, 1100), p(850, 100)]);
    const near = fedRun('S02', [300, 100, 300, 1100]);
    expect(told(runToRun(p(100, 1100), p(300, 1100), near))).toEqual([['panel', 200]]);
  });

  it('lies beside the strip it goes back down to, which warms it', () => {
    const next = fedRun('S02', [850, 100, 850, 1000]);
    // 750 across from the head of one at 1,100, 100 down to the head of the other at 1,000, 900 down its length.
    expect(told(runToRun(p(100, 1100), p(850, 100), next))).toEqual([
      ['panel', 750],
      ['panel', 100],
      ['slot', 900],
    ]);
    const flat = fedRun('S02', [850, 100, 1850, 100]);
    expect(told(runToRun(p(100, 1100), p(850, 100), flat))).toEqual([
      ['panel', 750],
      ['panel', 1000],
    ]);
  });
});

describe('a way walked the other way round', () => {
  it('has the same stretches, each turned', () => {
    const there = [...toExit(p(415, -94), p(650, -20)), ...onWay(650, 800, 40)];
    expect(told(reversed(there))).toEqual([
      ['way', 150],
      ['place', 74],
      ['place', 235],
    ]);
    expect(reversed(there)[0]).toMatchObject({ from: p(800, 40), to: p(650, 40) });
    expect(reversed(reversed(there))).toEqual(there);
  });

  it('has no corners where there is no way', () => {
    expect(cornersOf([])).toEqual([]);
  });
});
