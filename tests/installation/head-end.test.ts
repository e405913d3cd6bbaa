import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import { fuseBefore, type HeadEndToPlan, planHeadEnd, supplyOf } from '../../src/installation/head-end.ts';
import { layOutput } from '../../src/installation/layouts.ts';
import type { LaidCable } from '../../src/installation/plan.ts';
import type { Job } from '../../src/job/job.ts';
import { fedRun } from '../set-out/runs.ts';

type Feeds = Job['feeds']['arrangement'];

/** Cables of D1.1 in a layout to so many upright runs, 200 mm apart, right of its hole. */
function cablesOf(layout: Job['cables']['layout'], runCount: number, feeds: Feeds = 'start'): LaidCable[] {
  const runs = Array.from({ length: runCount }, (_, i) =>
    fedRun(`S0${i + 1}`, [100 + 200 * i, 100, 100 + 200 * i, 1100], feeds),
  );
  const start = { exit: { x_mm: 50, y_mm: -20 }, remote_mm: 0, way_mm: 40 };
  const laid = layOutput({ ...start, id: 'D1.1', runs }, layout);
  if (!laid.ok) throw new Error(laid.issues[0]?.sentence);
  return laid.value;
}

/** Cables that carry 2 A and may carry 6 A, on an output that gives 5 A at most, by one conductor to its terminal. */
const planned = (cables: readonly LaidCable[], change: Partial<HeadEndToPlan> = {}) =>
  planHeadEnd({
    ...{ output: 'D1.1', cables, terminalConductors: 1, hasDimmer: false },
    capacity_A: new Map(cables.map(({ id }) => [id, 6])),
    design_A: new Map(cables.map(({ id }) => [id, 2])),
    source: { limit_A: 5, fuses: 'blade' },
    ...change,
  });

/** Behind a source of 15 A cables of 6 A need fuses. */
const strong = { source: { limit_A: 15, fuses: 'blade' } } as const;

const endText = (end: CableEnd): string => {
  if (end.kind === 'pad') return end.run;
  return end.kind === 'block' ? `${end.id}/${end.way ?? 'in'}` : end.id;
};

/** "from > to" of each leg. */
const ends = (cables: readonly LaidCable[]) =>
  cables.flatMap(({ legs }) => legs.map(({ id, from, to }) => `${id}: ${endText(from)} > ${endText(to)}`));

const ways = ({ block }: ReturnType<typeof planned>) =>
  block?.ways.map(({ number, fuse, cables }) => [number, fuse?.rating_A ?? null, cables.join(' ')]);

describe('what hands on the current of an output', () => {
  it('is nothing but the driver for one cable that needs no fuse', () => {
    const head = planned(cablesOf('radial', 1));
    expect(head).toMatchObject({ dimmer: null, block: null, links: [] });
    expect(ends(head.cables)).toEqual(['C01: D1.1 > S01']);
  });

  it('nor for as many as its terminals take', () => {
    expect(planned(cablesOf('radial', 2), { terminalConductors: 2 }).block).toBeNull();
    expect(planned(cablesOf('radial', 3), { terminalConductors: 2 }).block).not.toBeNull();
  });

  it('is a block on a link for more, without fuses where none is needed', () => {
    const head = planned(cablesOf('radial', 5));
    expect(ways(head)).toEqual([
      [1, null, 'C01 C02 C03 C04'],
      [2, null, 'C05'],
    ]);
    expect(ends(head.links)).toEqual(['L1.1: D1.1 > B1.1/in']);
    expect(head.links[0]!.legs[0]!.serves).toEqual(['S01-F1', 'S02-F1', 'S03-F1', 'S04-F1', 'S05-F1']);
    expect(ends(head.cables).slice(3)).toEqual(['C04: B1.1/1 > S04', 'C05: B1.1/2 > S05']);
  });

  it('is a block for one cable too where that needs a fuse: 2 A need 2.5 A, so 3 A', () => {
    const head = planned(cablesOf('radial', 1), strong);
    expect(ways(head)).toEqual([[1, 3, 'C01']]);
    expect(head.block!.ways[0]!.fuse).toEqual({
      ...{ id: 'F1.1-1', family: 'blade', rating_A: 3, design_A: 2, least_A: 6 },
      // 137 mV at 3 A.
      resistance_ohm: expect.closeTo(0.137 / 3, 12),
    });
    expect(ends(head.cables)).toEqual(['C01: B1.1/1 > S01']);
  });

  it('shares a fuse between neighbours: 4 A need 5 A', () => {
    const head = planned(cablesOf('radial', 3), strong);
    expect(ways(head)).toEqual([
      [1, 5, 'C01 C02'],
      [2, 3, 'C03'],
    ]);
    expect(head.block!.ways[0]!.fuse).toMatchObject({ id: 'F1.1-1', design_A: 4, least_A: 6 });
  });

  it('is a block where but one of two needs a fuse, each by what it may carry itself', () => {
    const cables = cablesOf('radial', 2);
    const with_A = (...capacities_A: number[]) =>
      planned(cables, {
        ...{ ...strong, terminalConductors: 2 },
        capacity_A: new Map(cables.map(({ id }, i) => [id, capacities_A[i]!])),
      });
    // The source gives 15 A: C01 of 20 A needs none.
    expect(ways(with_A(20, 6))).toEqual([
      [1, null, 'C01'],
      [2, 3, 'C02'],
    ]);
    // 5 A for both is held to the lesser of them.
    expect(with_A(6, 5.5).block!.ways[0]!.fuse).toMatchObject({ rating_A: 5, least_A: 5.5 });
  });

  it('has the whole load of a run for either of two cables that feed it', () => {
    // 2 A and 2 A need 5 A.
    const head = planned(cablesOf('radial', 1, 'both'), strong);
    expect(ways(head)).toEqual([[1, 5, 'C01.1 C01.2']]);
    expect(head.block!.ways[0]!.fuse!.design_A).toBe(4);
  });

  it('is a link without a fuse, whose way is drawn when the devices stand', () => {
    const head = planned(cablesOf('radial', 1), strong);
    expect(head.links[0]!.legs[0]).toMatchObject({ paths: [], tailCount: 2 });
    expect(fuseBefore(head.links[0]!, head.cables, head.block)).toBeNull();
    expect(fuseBefore(head.cables[0]!, head.cables, null)).toBeNull();
  });

  it('has no block for one cable that no fuse protects, and a way for it among others', () => {
    // 5 A of 6 need 6.25, so 7.5 A.
    const bare = (count: number) => {
      const cables = cablesOf('radial', count);
      return planned(cables, {
        ...strong,
        design_A: new Map(cables.map(({ id }, i) => [id, i === 0 ? 5 : 2])),
      });
    };
    expect(bare(1).block).toBeNull();
    expect(ways(bare(2))).toEqual([
      [1, 3, 'C02'],
      [2, null, 'C01'],
    ]);
  });
});

describe('a dimmer', () => {
  it('stands between the driver and its cable, with a link to it', () => {
    const head = planned(cablesOf('radial', 1), { hasDimmer: true });
    expect(head.dimmer).toEqual({ id: 'K1.1', output: 'D1.1' });
    expect(ends(head.links)).toEqual(['L1.1: D1.1 > K1.1']);
    expect(ends(head.cables)).toEqual(['C01: K1.1 > S01']);
  });

  it('and between the driver and its block, with a link to either', () => {
    const head = planned(cablesOf('radial', 2), { hasDimmer: true });
    expect(ends(head.links)).toEqual(['L1.1a: D1.1 > K1.1', 'L1.1b: K1.1 > B1.1/in']);
    expect(ends(head.cables)).toEqual(['C01: B1.1/1 > S01', 'C02: B1.1/1 > S02']);
  });
});

describe('a ring', () => {
  it('has both its ends on the block, behind a fuse for the whole load', () => {
    const cables = cablesOf('ring', 2);
    // 4 A whichever end is open: 5 A.
    const head = planned(cables, { ...strong, design_A: new Map(cables.map(({ id }) => [id, 4])) });
    expect(ways(head)).toEqual([[1, 5, 'T1.1']]);
    expect(head.block!.ways[0]!.fuse!.design_A).toBe(4);
    expect(ends(head.cables).slice(0, 3)).toEqual([
      'T1.1/1: B1.1/1 > D1.1-T1',
      'T1.1/2: D1.1-T1 > D1.1-T2',
      'T1.1/3: D1.1-T2 > B1.1/1',
    ]);
  });

  it('counts two ends at the terminals of the driver', () => {
    expect(planned(cablesOf('ring', 2), { terminalConductors: 1 }).block).not.toBeNull();
    const head = planned(cablesOf('ring', 2), { terminalConductors: 2 });
    expect(head.block).toBeNull();
    expect(ends(head.cables)[2]).toBe('T1.1/3: D1.1-T2 > D1.1');
  });
});

describe('a crossed feed', () => {
  it('has no fuse in its return, which comes home to the way of its plus', () => {
    const head = planned(cablesOf('radial', 3, 'crossed'), strong);
    // 2 A each: C01.1 and C02.1 on 5 A.
    expect(ways(head)).toEqual([
      [1, 5, 'C01.1 C02.1'],
      [2, 3, 'C03.1'],
    ]);
    expect(ends(head.cables)).toEqual([
      ...['C01.1: B1.1/1 > S01', 'C01.2: B1.1/1 > S01', 'C02.1: B1.1/1 > S02', 'C02.2: B1.1/1 > S02'],
      ...['C03.1: B1.1/2 > S03', 'C03.2: B1.1/2 > S03'],
    ]);
    for (const cable of head.cables)
      expect(fuseBefore(cable, head.cables, head.block)?.id).toBe(
        cable.id.startsWith('C03') ? 'F1.1-2' : 'F1.1-1',
      );
  });

  it('and is known by that plus in whatever order the cables come', () => {
    const { cables, block } = planned(cablesOf('radial', 3, 'crossed'), strong);
    const order = cables.toReversed();
    expect(order.map((cable) => fuseBefore(cable, order, block)?.id)).toEqual([
      ...['F1.1-2', 'F1.1-2', 'F1.1-1', 'F1.1-1', 'F1.1-1', 'F1.1-1'],
    ]);
  });

  it('takes one pair of terminals', () => {
    expect(planned(cablesOf('radial', 1, 'crossed')).block).toBeNull();
  });
});

describe('what hangs on another cable', () => {
  it('is found: branches on their trunk, later runs on the first feed, anything else on itself', () => {
    const supplies = (cables: readonly LaidCable[]) => cables.map((cable) => supplyOf(cable, cables).id);
    expect(supplies(cablesOf('trunk', 2))).toEqual(['T1.1', 'T1.1', 'T1.1']);
    expect(supplies(cablesOf('run to run', 3))).toEqual(['C01', 'C01', 'C01']);
    expect(supplies(cablesOf('radial', 2))).toEqual(['C01', 'C02']);
    expect(supplies(cablesOf('ring', 2, 'crossed')).slice(1)).toEqual(Array(4).fill('T1.1'));
  });

  it('is found on its own arm where a trunk goes both ways', () => {
    const runs = [fedRun('S01', [100, 100, 100, 1100]), fedRun('S02', [300, 100, 300, 1100])];
    const start = { exit: { x_mm: 200, y_mm: -20 }, remote_mm: 0, way_mm: 40 };
    const laid = layOutput({ ...start, id: 'D1.1', runs }, 'trunk');
    if (!laid.ok) throw new Error(laid.issues[0]?.sentence);
    const cables = laid.value;
    // S01 is to the left.
    const supplies = cables.map((cable) => [cable.id, supplyOf(cable, cables).id]);
    expect(supplies).toEqual([
      ['T1.1a', 'T1.1a'],
      ['C02', 'T1.1a'],
      ['T1.1b', 'T1.1b'],
      ['C01', 'T1.1b'],
    ]);
    // 3 A each need 5 A, both together 7.5 A, and 6 A are allowed: a way for each arm.
    const head = planned(cables, { ...strong, design_A: new Map(cables.map(({ id }) => [id, 3])) });
    expect(head.cables.map((cable) => fuseBefore(cable, head.cables, head.block)?.id)).toEqual([
      ...['F1.1-1', 'F1.1-1', 'F1.1-2', 'F1.1-2'],
    ]);
  });

  it('has the fuse of that, no larger than the thinnest of them allows', () => {
    const cables = cablesOf('trunk', 2);
    const capacity = (branch_A: number) => {
      const capacity_A = new Map(cables.map(({ id }) => [id, id === 'C02' ? branch_A : 20]));
      return planned(cables, { ...strong, capacity_A });
    };
    // The trunk alone could do without, 20 A of 15; a branch of 6 A asks for a fuse, 3 A for 2 A, and 2.9 A for none.
    expect(ways(capacity(16))).toBeUndefined();
    const head = capacity(6);
    expect(ways(head)).toEqual([[1, 3, 'T1.1']]);
    expect(head.block!.ways[0]!.fuse!.least_A).toBe(6);
    for (const cable of head.cables) expect(fuseBefore(cable, head.cables, head.block)?.id).toBe('F1.1-1');
    expect(capacity(2.9).block).toBeNull();
  });
});
