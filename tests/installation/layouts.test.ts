import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import type { Run } from '../../src/answer/set-out.ts';
import { cornersOf, pathLength_mm } from '../../src/installation/cable-routes.ts';
import { layOutput, type OutputToLay } from '../../src/installation/layouts.ts';
import type { LaidCable } from '../../src/installation/plan.ts';
import { wayHeight_mm } from '../../src/job/cable-way.ts';
import type { Job } from '../../src/job/job.ts';
import { fedRun } from '../set-out/runs.ts';

/*
 * A panel 2,000 mm high with three upright runs; the cables of the output leave their place by a hole below the panel's
 * lower edge. Heights in mm:
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
const s01 = fedRun('S01', [100, 100, 100, 1100]);
const s02 = fedRun('S02', [300, 100, 300, 1100]);
const s03 = fedRun('S03', [600, 300, 600, 1300]);
const runs = [s01, s02, s03];

const output: OutputToLay = {
  ...{ id: 'D1.1', exit: { x_mm: 250, y_mm: -140 }, remote_mm: 0, way_mm: 40 },
  runs,
};

/** The output with its hole elsewhere across. */
const from = (x_mm: number): OutputToLay => ({ ...output, exit: { x_mm, y_mm: -140 } });

type Layout = Job['cables']['layout'];

function lay(layout: Layout, of: readonly Run[] = runs, at: OutputToLay = output): LaidCable[] {
  const laid = layOutput({ ...at, runs: of }, layout);
  if (!laid.ok) throw new Error(laid.issues[0]?.sentence);
  return laid.value;
}

const endText = (end: CableEnd): string => (end.kind === 'pad' ? `${end.run}@${end.cutLine}` : end.id);

/** Name, "from > to", way in mm to a hundredth, ends with a tail, what it serves; leg by leg. */
const told = (cables: readonly LaidCable[]) =>
  cables.flatMap(({ legs }) =>
    legs.map(({ id, from, to, paths, tailCount, serves }) => [
      id,
      `${endText(from)} > ${endText(to)}`,
      Number(pathLength_mm(paths).toFixed(2)),
      tailCount,
      serves.join(' '),
    ]),
  );

const way_mm = (cable: LaidCable): number => pathLength_mm(cable.legs.flatMap(({ paths }) => paths));

const corners = (cable: LaidCable) =>
  cornersOf(cable.legs.flatMap(({ paths }) => paths)).map(({ x_mm, y_mm }) => [x_mm, y_mm]);

describe('the cable way', () => {
  it('runs along the foot or the head, its inset away from the edge', () => {
    expect(wayHeight_mm(2000, { way: 'foot', wayInset_mm: 40 })).toBe(40);
    expect(wayHeight_mm(2000, { way: 'head', wayInset_mm: 40 })).toBe(1960);
  });
});

describe('radial: a cable of its own from the output to every feed point', () => {
  it('up to the foot way, along it, up to the pad; a tail at both ends; called after its run', () => {
    // 180 up, 150 to the left, 60 up. The others go 50 and 350 to the right, S03 260 up.
    expect(told(lay('radial'))).toEqual([
      ['C01', 'D1.1 > S01@0', 390, 2, 'S01-F1'],
      ['C02', 'D1.1 > S02@0', 290, 2, 'S02-F1'],
      ['C03', 'D1.1 > S03@0', 790, 2, 'S03-F1'],
    ]);
    expect(corners(lay('radial')[0]!)).toEqual([
      [250, -140],
      [250, 40],
      [100, 40],
      [100, 100],
    ]);
  });

  it('by the head way, up to 1,960 and down again, the last 1,000 mm beside the strip', () => {
    // 2,100 up, 150 along, 1,860 down to 100.
    const [first] = lay('radial', [s01], { ...output, way_mm: 1960 });
    expect(told([first!])).toEqual([['C01', 'D1.1 > S01@0', 4110, 2, 'S01-F1']]);
    expect(first!.legs[0]!.paths.map((path) => [path.in, path.length_mm])).toEqual([
      ['riser', 2100],
      ['way', 150],
      ['panel', 860],
      ['slot', 1000],
    ]);
    expect(corners(first!)).toEqual([
      [250, -140],
      [250, 1960],
      [100, 1960],
      [100, 1100],
      [100, 100],
    ]);
  });

  it('straight up where the hole is below the slot, without corners that are none', () => {
    const [straight] = lay('radial', [s02], from(300));
    expect(corners(straight!)).toEqual([
      [300, -140],
      [300, 40],
      [300, 100],
    ]);
    expect(way_mm(straight!)).toBe(240);
    // From a hole on the way itself to a pad on the way there is no up or down.
    const level = fedRun('S09', [500, 40, 900, 40]);
    const [flat] = lay('radial', [level], { ...output, exit: { x_mm: 100, y_mm: 40 } });
    expect(corners(flat!)).toEqual([
      [100, 40],
      [500, 40],
    ]);
  });

  it('first the length from a remote place', () => {
    const [first] = lay('radial', [s01], { ...output, exit: { x_mm: 250, y_mm: 40 }, remote_mm: 5000 });
    // 5,000 to the panel, 150 along, 60 up.
    expect(first!.legs[0]!.paths.map((path) => [path.in, path.length_mm])).toEqual([
      ['remote', 5000],
      ['way', 150],
      ['panel', 60],
    ]);
  });

  it('one conductor each to the ends of a run that is fed crossed', () => {
    const crossed = fedRun('S01', [100, 100, 100, 1100], 'crossed');
    const cables = lay('radial', [crossed]);
    // The return goes 1,000 mm further up.
    expect(cables.map((cable) => [cable.id, cable.conductors, way_mm(cable)])).toEqual([
      ['C01.1', 'positive', 390],
      ['C01.2', 'return', 1390],
    ]);
  });

  it('names the pad it ends at', () => {
    expect(lay('radial')[1]!.legs[0]!.to).toEqual({
      ...{ kind: 'pad', run: 'S02', cutLine: 0, feedPoint: 'S02-F1' },
    });
  });

  it('keeps the name of a cable whatever else hangs on the output', () => {
    expect(lay('radial', [s03, s01]).map(({ id }) => id)).toEqual(['C03', 'C01']);
    // A run that is called otherwise lends its cable its whole name.
    expect(lay('radial', [{ ...s01, id: 'LAS1' }])[0]!.id).toBe('LAS1');
  });

  it('has no cables for an output that carries nothing', () => {
    for (const layout of ['radial', 'trunk', 'ring', 'run to run'] as const)
      expect(lay(layout, [])).toEqual([]);
  });
});

describe('trunk: along the way to both sides of the output, a branch at every slot', () => {
  it('is one uncut cable to each side: a tail at its two ends, none at a tap it passes, two on a branch', () => {
    expect(told(lay('trunk'))).toEqual([
      // To the right 180 up and 50 along, then 300 along.
      ['T1.1a/1', 'D1.1 > D1.1-T2', 230, 1, 'S02-F1 S03-F1'],
      ['T1.1a/2', 'D1.1-T2 > D1.1-T3', 300, 1, 'S03-F1'],
      // 60 up from the way, S03 260.
      ['C02', 'D1.1-T2 > S02@0', 60, 2, 'S02-F1'],
      ['C03', 'D1.1-T3 > S03@0', 260, 2, 'S03-F1'],
      // To the left 180 + 150.
      ['T1.1b', 'D1.1 > D1.1-T1', 330, 2, 'S01-F1'],
      ['C01', 'D1.1-T1 > S01@0', 60, 2, 'S01-F1'],
    ]);
    expect(lay('trunk').map(({ kind, legs }) => [kind, legs.length])).toEqual([
      ['trunk', 2],
      ['branch', 1],
      ['branch', 1],
      ['trunk', 1],
      ['branch', 1],
    ]);
  });

  it('goes out from the output to either side, nearest slot first', () => {
    const trunks = lay('trunk', runs, from(450)).filter(({ kind }) => kind === 'trunk');
    expect(told(trunks).map(([id, ends, , , serves]) => [id, ends, serves])).toEqual([
      ['T1.1a', 'D1.1 > D1.1-T3', 'S03-F1'],
      ['T1.1b/1', 'D1.1 > D1.1-T2', 'S02-F1 S01-F1'],
      ['T1.1b/2', 'D1.1-T2 > D1.1-T1', 'S01-F1'],
    ]);
  });

  it('is called after the output alone where there is but one', () => {
    const ids = lay('trunk', runs, from(50)).map(({ id }) => id);
    expect(ids).toEqual(['T1.1', 'C01', 'C02', 'C03']);
    expect(lay('trunk', runs, from(700)).map(({ id }) => id)).toEqual(['T1.1', 'C03', 'C02', 'C01']);
  });

  it('a slot straight above the output belongs to the trunk to the right', () => {
    const trunks = lay('trunk', runs, from(300)).filter(({ kind }) => kind === 'trunk');
    expect(told(trunks).map(([, ends]) => ends)).toEqual([
      'D1.1 > D1.1-T2',
      'D1.1-T2 > D1.1-T3',
      'D1.1 > D1.1-T1',
    ]);
  });

  it('taps once for all pads above one spot, to the millimetre, and counts taps from the left', () => {
    const bothEnds = fedRun('S01', [100, 100, 100, 1100], 'both');
    const nearly = fedRun('S04', [100.4, 1300, 100.4, 1900]);
    const cables = lay('trunk', [s02, bothEnds, nearly]);
    expect(told(cables).map(([id, ends, length, , serves]) => [id, ends, length, serves])).toEqual([
      ['T1.1a', 'D1.1 > D1.1-T2', 230, 'S02-F1'],
      ['C02', 'D1.1-T2 > S02@0', 60, 'S02-F1'],
      ['T1.1b', 'D1.1 > D1.1-T1', 330, 'S01-F1 S01-F2 S04-F1'],
      ['C01.1', 'D1.1-T1 > S01@0', 60, 'S01-F1'],
      ['C01.2', 'D1.1-T1 > S01@20', 1060, 'S01-F2'],
      // The 0.4 mm across, then up from 40 to 1,300.
      ['C04', 'D1.1-T1 > S04@0', 1260.4, 'S04-F1'],
    ]);
  });

  it('carries both conductors in the trunk and the one that is needed in a branch', () => {
    const crossed = fedRun('S01', [100, 100, 100, 1100], 'crossed');
    expect(lay('trunk', [crossed]).map(({ conductors }) => conductors)).toEqual([
      'both',
      'positive',
      'return',
    ]);
  });
});

describe('ring: through every tap and back to the output', () => {
  it('is one cable whose two ends meet the output; every part may have to feed all', () => {
    const all = 'S01-F1 S02-F1 S03-F1';
    expect(told(lay('ring'))).toEqual([
      // Out to the leftmost: 180 + 150 with one tail; 200 and 300 along without; back 350 + 180 with one.
      ['T1.1/1', 'D1.1 > D1.1-T1', 330, 1, all],
      ['T1.1/2', 'D1.1-T1 > D1.1-T2', 200, 0, all],
      ['T1.1/3', 'D1.1-T2 > D1.1-T3', 300, 0, all],
      ['T1.1/4', 'D1.1-T3 > D1.1', 530, 1, all],
      ['C01', 'D1.1-T1 > S01@0', 60, 2, 'S01-F1'],
      ['C02', 'D1.1-T2 > S02@0', 60, 2, 'S02-F1'],
      ['C03', 'D1.1-T3 > S03@0', 260, 2, 'S03-F1'],
    ]);
  });

  it('comes back along the way and down to the output', () => {
    const back = lay('ring')[0]!.legs[3]!;
    expect(cornersOf(back.paths)).toEqual([
      { x_mm: 600, y_mm: 40 },
      { x_mm: 250, y_mm: 40 },
      { x_mm: 250, y_mm: -140 },
    ]);
  });

  it('of one slot goes there and back', () => {
    expect(told(lay('ring', [s01])).map(([id, ends, length, tails]) => [id, ends, length, tails])).toEqual([
      ['T1.1/1', 'D1.1 > D1.1-T1', 330, 1],
      ['T1.1/2', 'D1.1-T1 > D1.1', 330, 1],
      ['C01', 'D1.1-T1 > S01@0', 60, 2],
    ]);
  });
});

describe('run to run: in at the feed point, out at the other end', () => {
  const turned = fedRun('S02', [300, 100, 300, 1100], 'finish');

  it('up one slot and down the next, where every other one is fed at the finish', () => {
    // The head of S01 to that of S02 is 200 across; the foot of S02 (300, 100) to that of S03 (600, 300) 300 across, 200 up.
    const cables = lay('run to run', [s01, turned, s03]);
    expect(told(cables)).toEqual([
      ['C01', 'D1.1 > S01@0', 390, 2, 'S01-F1 S02-F1 S03-F1'],
      ['C02', 'S01@20 > S02@20', 200, 2, 'S02-F1 S03-F1'],
      ['C03', 'S02@0 > S03@0', 500, 2, 'S03-F1'],
    ]);
    expect(cables.map(({ kind }) => kind)).toEqual(['feed', 'run to run', 'run to run']);
  });

  it('across behind the battens and back down where all are fed at the start', () => {
    const next = fedRun('S05', [850, 100, 850, 1100]);
    const cables = lay('run to run', [s01, next]);
    // From (100, 1100) 750 across, then 1,000 down.
    expect(way_mm(cables[1]!)).toBe(1750);
    expect(corners(cables[1]!)).toEqual([
      [100, 1100],
      [850, 1100],
      [850, 100],
    ]);
    expect(cables.map(({ conductors }) => conductors)).toEqual(['both', 'both']);
  });

  it('leaves at a pad that is no feed point', () => {
    expect(lay('run to run', [s01, turned, s03])[1]!.legs[0]!.from).toEqual({
      ...{ kind: 'pad', run: 'S01', cutLine: 20, feedPoint: null },
    });
  });

  it.each([
    ['both', 2],
    ['crossed', 2],
    ['between', 1],
  ] as const)('is refused for a run fed %s, and no other layout is', (arrangement, feedPointCount) => {
    const other = fedRun('S02', [300, 100, 300, 1100], arrangement);
    const refusal = layOutput({ ...output, runs: [s01, other, s03] }, 'run to run');
    expect(refusal.ok ? [] : refusal.issues).toMatchObject([
      {
        code: 'layout-needs-end-feed',
        place: { slot: 'S02', field: 'cables.layout' },
        quantities: { feedPointCount },
      },
    ]);
    for (const layout of ['radial', 'trunk', 'ring'] as const)
      expect(() => lay(layout, [s01, other, s03])).not.toThrow();
  });
});

describe('two ways to one length', () => {
  it('mirrored left to right, a wall takes the same cable', () => {
    const mirrored = runs.map((run) => ({
      ...run,
      ...{ x0_mm: 700 - run.x0_mm, x1_mm: 700 - run.x1_mm },
      feedPoints: run.feedPoints.map((point) => ({ ...point, x_mm: 700 - point.x_mm })),
    }));
    const total = (cables: readonly LaidCable[]) => cables.reduce((sum, cable) => sum + way_mm(cable), 0);
    for (const layout of ['radial', 'trunk', 'ring', 'run to run'] as const)
      expect(total(lay(layout, mirrored, from(450)))).toBeCloseTo(total(lay(layout)), 9);
  });
});
