import { describe, expect, it } from 'vitest';
import type { Run } from '../../src/answer/set-out.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { type LaidCable, layCables, type OutputToLay, wayHeight_mm } from '../../src/set-out/cable-ways.ts';
import { fedRun } from './runs.ts';

/*
 * A panel 2,000 mm high with three upright runs; the output sits below the panel's lower edge. Heights in mm:
 *
 *   1960  - - - - - - - - - - - head way (40 below the top)
 *   1100        |       |
 *               |       |           |  1300
 *               |S01    |S02        |S03
 *    100        |       |           |   300
 *     40  - - - - - - - - - - - - - - foot way
 *   -140            [O]
 *         x:   100 250 300         600
 */
const panelHeight_mm = 2000;
const s01 = fedRun('S01', [100, 100, 100, 1100]);
const s02 = fedRun('S02', [300, 100, 300, 1100]);
const s03 = fedRun('S03', [600, 300, 600, 1300]);
const runs = [s01, s02, s03];

const output: OutputToLay = { id: 'D1.1', x_mm: 250, y_mm: -140, runs: ['S01', 'S02', 'S03'] };

/** Tails of 300 mm, 10 % more for what goes astray. */
const cabling = (layout: Job['cables']['layout'], change: Partial<Job['cables']> = {}): Job['cables'] => ({
  ...newJob().cables,
  ...{ layout, way: 'foot', wayInset_mm: 40, tail_mm: 300, allowance: 0.1 },
  ...change,
});

function lay(
  cables: Job['cables'],
  of: readonly Run[] = runs,
  outputs: readonly OutputToLay[] = [output],
): LaidCable[] {
  const laid = layCables(outputs, of, panelHeight_mm, cables);
  if (!laid.ok) throw new Error(laid.issues[0]?.sentence);
  return laid.value;
}

const endText = (end: LaidCable['from']): string =>
  end.kind === 'pad' ? `${end.run}@${end.cutLine}` : end.id;

/** "from > to", way and length in mm to a hundredth, what it serves. */
const told = (cables: readonly LaidCable[]) =>
  cables.map(({ from, to, way_mm, length_mm, serves }) => [
    `${endText(from)} > ${endText(to)}`,
    Number(way_mm.toFixed(2)),
    Number(length_mm.toFixed(2)),
    serves.join(' '),
  ]);

const corners = (cable: LaidCable) => cable.route.map(({ x_mm, y_mm }) => [x_mm, y_mm]);

describe('the cable way', () => {
  it('runs along the foot or the head, its inset away from the edge', () => {
    expect(wayHeight_mm(2000, cabling('radial'))).toBe(40);
    expect(wayHeight_mm(2000, cabling('radial', { way: 'head' }))).toBe(1960);
  });
});

describe('radial: a cable of its own from the output to every feed point', () => {
  it('up to the foot way, along it, up to the pad; a tail at both ends, then the allowance', () => {
    // 180 up, 150 to the left, 60 up; (390 + 2 · 300) · 1.1. The others go 50 and 350 to the right, S03 260 up.
    expect(told(lay(cabling('radial')))).toEqual([
      ['D1.1 > S01@0', 390, 1089, 'S01-F1'],
      ['D1.1 > S02@0', 290, 979, 'S02-F1'],
      ['D1.1 > S03@0', 790, 1529, 'S03-F1'],
    ]);
    expect(corners(lay(cabling('radial'))[0]!)).toEqual([
      [250, -140],
      [250, 40],
      [100, 40],
      [100, 100],
    ]);
  });

  it('by the head way, up to 1,960 and down again', () => {
    // 2,100 up, 150 along, 1,860 down to 100.
    const [first] = lay(cabling('radial', { way: 'head' }));
    expect(told([first!])).toEqual([['D1.1 > S01@0', 4110, 5181, 'S01-F1']]);
    expect(corners(first!)).toEqual([
      [250, -140],
      [250, 1960],
      [100, 1960],
      [100, 100],
    ]);
  });

  it('straight up where the output sits below the slot, without corners that are none', () => {
    const below = { ...output, x_mm: 300, runs: ['S02'] };
    const [straight] = lay(cabling('radial'), runs, [below]);
    expect(corners(straight!)).toEqual([
      [300, -140],
      [300, 40],
      [300, 100],
    ]);
    expect(straight!.way_mm).toBe(240);
    // From an output on the way itself to a pad on the way there is no up or down.
    const level = fedRun('S09', [500, 40, 900, 40]);
    const [flat] = lay(cabling('radial'), [level], [{ ...output, x_mm: 100, y_mm: 40, runs: ['S09'] }]);
    expect(corners(flat!)).toEqual([
      [100, 40],
      [500, 40],
    ]);
  });

  it('one conductor each to the ends of a run that is fed crossed', () => {
    const crossed = fedRun('S01', [100, 100, 100, 1100], 'crossed');
    const cables = lay(cabling('radial'), [crossed], [{ ...output, runs: ['S01'] }]);
    // The return goes 1,000 mm further up.
    expect(cables.map((cable) => [cable.conductors, cable.way_mm])).toEqual([
      ['positive', 390],
      ['return', 1390],
    ]);
  });

  it('names the pad it ends at', () => {
    expect(lay(cabling('radial'))[1]!.to).toEqual({
      ...{ kind: 'pad', run: 'S02', cutLine: 0, feedPoint: 'S02-F1' },
    });
  });

  it('counts cables over all outputs in order, and serves only the runs each output carries', () => {
    const second = { ...output, id: 'D1.2', x_mm: 700, runs: ['S03'] };
    const cables = lay(cabling('radial'), runs, [{ ...output, runs: ['S02', 'S01'] }, second]);
    expect(cables.map((cable) => [cable.id, ...cable.serves])).toEqual([
      ['C01', 'S02-F1'],
      ['C02', 'S01-F1'],
      ['C03', 'S03-F1'],
    ]);
  });

  it('has no cables for an output that carries nothing', () => {
    for (const layout of ['radial', 'trunk', 'ring', 'run to run'] as const) {
      expect(lay(cabling(layout), runs, [{ ...output, runs: [] }])).toEqual([]);
    }
  });
});

describe('trunk: along the way to both sides of the output, a branch at every slot', () => {
  it('a tail where the trunk is made off at the output, none at a tap, two on a branch', () => {
    expect(told(lay(cabling('trunk')))).toEqual([
      // 180 up and 50 along: (230 + 300) · 1.1; then 300 along, without a tail: 330.
      ['D1.1 > D1.1-T2', 230, 583, 'S02-F1 S03-F1'],
      ['D1.1-T2 > D1.1-T3', 300, 330, 'S03-F1'],
      // To the left 180 + 150.
      ['D1.1 > D1.1-T1', 330, 693, 'S01-F1'],
      // 60 up from the way, S03 260: (60 + 600) · 1.1 and (260 + 600) · 1.1.
      ['D1.1-T1 > S01@0', 60, 726, 'S01-F1'],
      ['D1.1-T2 > S02@0', 60, 726, 'S02-F1'],
      ['D1.1-T3 > S03@0', 260, 946, 'S03-F1'],
    ]);
  });

  it('goes out from the output to either side, nearest slot first', () => {
    const middle = { ...output, x_mm: 450 };
    expect(told(lay(cabling('trunk'), runs, [middle])).map(([ends, , , serves]) => [ends, serves])).toEqual([
      ['D1.1 > D1.1-T3', 'S03-F1'],
      ['D1.1 > D1.1-T2', 'S02-F1 S01-F1'],
      ['D1.1-T2 > D1.1-T1', 'S01-F1'],
      ['D1.1-T1 > S01@0', 'S01-F1'],
      ['D1.1-T2 > S02@0', 'S02-F1'],
      ['D1.1-T3 > S03@0', 'S03-F1'],
    ]);
  });

  it('a slot straight above the output belongs to the trunk to the right', () => {
    const below = { ...output, x_mm: 300 };
    expect(
      told(lay(cabling('trunk'), runs, [below]))
        .slice(0, 3)
        .map(([ends]) => ends),
    ).toEqual(['D1.1 > D1.1-T2', 'D1.1-T2 > D1.1-T3', 'D1.1 > D1.1-T1']);
  });

  it('taps once for all pads above one spot, to the millimetre, and counts taps from the left', () => {
    const bothEnds = fedRun('S01', [100, 100, 100, 1100], 'both');
    const nearly = fedRun('S04', [100.4, 1300, 100.4, 1900]);
    const cables = lay(
      cabling('trunk'),
      [s02, bothEnds, nearly],
      [{ ...output, runs: ['S02', 'S01', 'S04'] }],
    );
    expect(told(cables).map(([ends, way_mm, , serves]) => [ends, way_mm, serves])).toEqual([
      ['D1.1 > D1.1-T2', 230, 'S02-F1'],
      ['D1.1 > D1.1-T1', 330, 'S01-F1 S01-F2 S04-F1'],
      ['D1.1-T1 > S01@0', 60, 'S01-F1'],
      ['D1.1-T1 > S01@20', 1060, 'S01-F2'],
      // Up from 40 to 1,300, and the 0.4 mm across.
      ['D1.1-T1 > S04@0', 1260.4, 'S04-F1'],
      ['D1.1-T2 > S02@0', 60, 'S02-F1'],
    ]);
  });

  it('carries both conductors in the trunk and the one that is needed in a branch', () => {
    const crossed = fedRun('S01', [100, 100, 100, 1100], 'crossed');
    const cables = lay(cabling('trunk'), [crossed], [{ ...output, runs: ['S01'] }]);
    expect(cables.map((cable) => cable.conductors)).toEqual(['both', 'positive', 'return']);
  });
});

describe('ring: through every tap and back to the output', () => {
  it('every span but the last serves the taps from there on, the way back all of them', () => {
    expect(told(lay(cabling('ring')))).toEqual([
      // Out to the leftmost: 180 + 150 with one tail; 200 and 300 along without; back 350 + 180 with one.
      ['D1.1 > D1.1-T1', 330, 693, 'S01-F1 S02-F1 S03-F1'],
      ['D1.1-T1 > D1.1-T2', 200, 220, 'S02-F1 S03-F1'],
      ['D1.1-T2 > D1.1-T3', 300, 330, 'S03-F1'],
      ['D1.1-T3 > D1.1', 530, 913, 'S01-F1 S02-F1 S03-F1'],
      ['D1.1-T1 > S01@0', 60, 726, 'S01-F1'],
      ['D1.1-T2 > S02@0', 60, 726, 'S02-F1'],
      ['D1.1-T3 > S03@0', 260, 946, 'S03-F1'],
    ]);
  });

  it('comes back along the way and down to the output', () => {
    const back = lay(cabling('ring'))[3]!;
    expect(back.conductors).toBe('both');
    expect(corners(back)).toEqual([
      [600, 40],
      [250, 40],
      [250, -140],
    ]);
  });
});

describe('run to run: in at the feed point, out at the other end', () => {
  const turned = fedRun('S02', [300, 100, 300, 1100], 'finish');

  it('up one slot and down the next, where every other one is fed at the finish', () => {
    // The head of S01 to that of S02 is 200 across; the foot of S02 (300, 100) to that of S03 (600, 300) is
    // the root of 300² + 200² = 360.56.
    expect(told(lay(cabling('run to run'), [s01, turned, s03]))).toEqual([
      ['D1.1 > S01@0', 390, 1089, 'S01-F1 S02-F1 S03-F1'],
      ['S01@20 > S02@20', 200, 880, 'S02-F1 S03-F1'],
      ['S02@0 > S03@0', 360.56, 1056.61, 'S03-F1'],
    ]);
  });

  it('slanting back down where all are fed at the start, straight from end to end', () => {
    // From (100, 1100) to (850, 100): 750, 1000, 1250, twenty-five times 30, 40, 50.
    const next = fedRun('S05', [850, 100, 850, 1100]);
    const cables = lay(cabling('run to run'), [s01, next], [{ ...output, runs: ['S01', 'S05'] }]);
    expect(cables[1]!.way_mm).toBe(1250);
    expect(cables[1]!.route).toEqual([
      { x_mm: 100, y_mm: 1100 },
      { x_mm: 850, y_mm: 100 },
    ]);
    expect(cables.map((cable) => cable.conductors)).toEqual(['both', 'both']);
  });

  it('leaves at a pad that is no feed point', () => {
    expect(lay(cabling('run to run'), [s01, turned, s03])[1]!.from).toEqual({
      ...{ kind: 'pad', run: 'S01', cutLine: 20, feedPoint: null },
    });
  });

  it.each([
    ['both', 2],
    ['crossed', 2],
    ['between', 1],
  ] as const)('is refused for a run fed %s, and no other layout is', (arrangement, feedPointCount) => {
    const other = fedRun('S02', [300, 100, 300, 1100], arrangement);
    const refusal = layCables([output], [s01, other, s03], panelHeight_mm, cabling('run to run'));
    expect(refusal.ok ? [] : refusal.issues).toMatchObject([
      {
        code: 'layout-needs-end-feed',
        place: { slot: 'S02', field: 'cables.layout' },
        quantities: { feedPointCount },
      },
    ]);
    for (const layout of ['radial', 'trunk', 'ring'] as const) {
      expect(() => lay(cabling(layout), [s01, other, s03])).not.toThrow();
    }
  });
});

describe('two ways to one length', () => {
  it('mirrored left to right, a wall takes the same cable', () => {
    const mirrored = runs.map((run) => ({
      ...run,
      ...{ x0_mm: 700 - run.x0_mm, x1_mm: 700 - run.x1_mm },
      feedPoints: run.feedPoints.map((point) => ({ ...point, x_mm: 700 - point.x_mm })),
    }));
    const total = (cables: readonly LaidCable[]) => cables.reduce((sum, { length_mm }) => sum + length_mm, 0);
    for (const layout of ['radial', 'trunk', 'ring'] as const) {
      const there = total(lay(cabling(layout), mirrored, [{ ...output, x_mm: 450 }]));
      expect(there).toBeCloseTo(total(lay(cabling(layout))), 9);
    }
  });
});
