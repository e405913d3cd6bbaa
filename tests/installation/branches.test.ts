import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import { legLength_mm } from '../../src/installation/branches.ts';
import type { InstallationToPlan } from '../../src/installation/installation-to-plan.ts';
import type { Leg } from '../../src/installation/plan.ts';
import { fedRun } from '../set-out/runs.ts';
import { path } from './laid.ts';
import { cabling, copper, modelled, plannedWall, wallToPlan } from './plans.ts';

/** Connectors of 10 mohm, dimmers of 30 mohm. Cords of 0.75 mm2 carry 4.8 A two together: fused behind 15 A. */
const ohms = { resistances: { connector_ohm: 0.01, dimmer_ohm: 0.03 } };
const strong: Partial<InstallationToPlan> = {
  cable: copper(0.75),
  trunk: copper(0.75),
  models: modelled({ current_A: 10 }),
};

const endText = (end: CableEnd): string => {
  if (end.kind === 'pad') return end.run;
  if (end.kind === 'dimmer') return `${end.id}/${end.side}`;
  return end.kind === 'block' ? `${end.id}/${end.way ?? 'bar'}` : end.id;
};

/** Id, from, to, and the milliohms in series with plus and return. */
const told = (change: Partial<InstallationToPlan>) =>
  plannedWall({ ...ohms, ...change }).branches.map(({ id, from, to, positive_ohm, return_ohm }) => [
    `${id}: ${endText(from)} > ${endText(to)}`,
    Number((1000 * positive_ohm).toFixed(6)),
    Number((1000 * return_ohm).toFixed(6)),
  ]);

describe('the elements of a circuit', () => {
  it('have a connector where they meet a block, and nothing more without fuse', () => {
    expect(told({})).toEqual([
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01: B1.1/bar > S01', 10, 10],
      ['C02: B1.1/bar > S02', 10, 10],
    ]);
  });

  it('have a fuse that several share as one of their own, in the plus: 141 mV at 2 A', () => {
    // 0.5 A each: 1 A needs 1.25, so 2 A.
    expect(told({ ...strong, run_A: [0.5, 0.5] })).toEqual([
      ['F1.1-1: B1.1/bar > B1.1/1', 70.5, 0],
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01: B1.1/1 > S01', 10, 10],
      ['C02: B1.1/1 > S02', 10, 10],
    ]);
  });

  it('have such a fuse serve what is behind it, and be no length of cable', () => {
    // Three of 1.6 A, allowed 6 A x 0.7 = 4.2 A: two need 4 A, three would need 6 A.
    const runs = [1, 2, 3].map((n) => fedRun(`S0${n}`, [500 + 100 * n, 100, 500 + 100 * n, 1100]));
    const [fuse] = plannedWall({ ...strong, runs, run_A: [1.6, 1.6, 1.6] }).branches;
    expect(fuse).toMatchObject({ id: 'F1.1-1', cable: null, conductors: 'both', length_mm: 0 });
    expect(fuse!.serves).toEqual(['S01-F1', 'S02-F1']);
  });

  it('have a fuse of their own in series with it: 137 mV at 3 A', () => {
    // 2 A each need 3 A, both together 5 A, and 4.8 A are allowed.
    expect(told({ ...strong, run_A: [2, 2] })).toEqual([
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01: B1.1/bar > S01', Number((10 + 137 / 3).toFixed(6)), 10],
      ['C02: B1.1/bar > S02', Number((10 + 137 / 3).toFixed(6)), 10],
    ]);
  });

  it('have no fuse in the return of a crossed feed, which comes home to the bar', () => {
    const runs = [
      fedRun('S01', [600, 100, 600, 1100], 'crossed'),
      fedRun('S02', [900, 100, 900, 1100], 'crossed'),
    ];
    expect(told({ ...strong, runs, run_A: [0.5, 0.5] })).toEqual([
      ['F1.1-1: B1.1/bar > B1.1/1', 70.5, 0],
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01.1: B1.1/1 > S01', 10, 10],
      ['C01.2: B1.1/bar > S01', 10, 10],
      ['C02.1: B1.1/1 > S02', 10, 10],
      ['C02.2: B1.1/bar > S02', 10, 10],
    ]);
  });

  it('have the fuse of one crossed feed in series with its plus, whose return has a way of no one', () => {
    // 2 A need 3 A; 6 A are allowed by itself.
    const runs = [fedRun('S01', [600, 100, 600, 1100], 'crossed')];
    expect(told({ ...strong, runs, run_A: [2] })).toEqual([
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01.1: B1.1/bar > S01', Number((10 + 137 / 3).toFixed(6)), 10],
      ['C01.2: B1.1/bar > S01', 10, 10],
    ]);
    const home = plannedWall({ ...strong, runs, run_A: [2] }).branches.at(-1)!;
    expect(home.to).toEqual({ kind: 'pad', run: 'S01', cutLine: 20, feedPoint: 'S01-F2' });
  });

  it('have the fuses of two blocks each in series with its own cable', () => {
    const [output] = wallToPlan().outputs;
    const outputs = ['D1', 'D2'].map((driver, i) => ({
      ...{ ...output!, driver, id: `${driver}.1`, runs: [`S0${i + 1}`] },
    }));
    const fused_mohm = Number((10 + 137 / 3).toFixed(6));
    expect(told({ ...strong, outputs, run_A: [2, 2] })).toEqual([
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['C01: B1.1/bar > S01', fused_mohm, 10],
      ['L2.1: D2.1 > B2.1/bar', 10, 10],
      ['C02: B2.1/bar > S02', fused_mohm, 10],
    ]);
  });

  it('have nothing in series with a cable that has a way without fuse to itself', () => {
    const runs = [1, 2, 3, 4, 5].map((n) => fedRun(`S0${n}`, [500 + 100 * n, 100, 500 + 100 * n, 1100]));
    const series = told({ runs, run_A: runs.map(() => 0.2) });
    expect(series.at(-1)).toEqual(['C05: B1.1/bar > S05', 10, 10]);
  });

  it('have the one fuse of a ring once for both its ends', () => {
    // 1 A: 2 A. The hole is at 500: out to 600, on to 900, and back.
    expect(told({ ...strong, cables: cabling({ layout: 'ring' }), run_A: [0.5, 0.5] })).toEqual([
      ['F1.1-1: B1.1/bar > B1.1/1', 70.5, 0],
      ['L1.1: D1.1 > B1.1/bar', 10, 10],
      ['T1.1/1: B1.1/1 > D1.1-T1', 10, 10],
      ['T1.1/2: D1.1-T1 > D1.1-T2', 0, 0],
      ['T1.1/3: D1.1-T2 > B1.1/1', 10, 10],
      ['C01: D1.1-T1 > S01', 10, 10],
      ['C02: D1.1-T2 > S02', 10, 10],
    ]);
  });

  it('have a connector at the tap a branch leaves and a trunk ends at, none where it passes', () => {
    expect(told({ cables: cabling({ layout: 'trunk' }) })).toEqual([
      ['T1.1/1: D1.1 > D1.1-T1', 0, 0],
      ['T1.1/2: D1.1-T1 > D1.1-T2', 10, 10],
      ['C01: D1.1-T1 > S01', 10, 10],
      ['C02: D1.1-T2 > S02', 10, 10],
    ]);
  });

  it('have a dimmer once, between what comes to it and whatever leaves it', () => {
    const dimmer = { length_mm: 90, width_mm: 40, height_mm: 25, clearance_mm: 10 };
    expect(told({ dimmer })).toEqual([
      ['K1.1: K1.1/in > K1.1/out', 0, 30],
      ['L1.1a: D1.1 > K1.1/in', 0, 0],
      ['L1.1b: K1.1/out > B1.1/bar', 10, 10],
      ['C01: B1.1/bar > S01', 10, 10],
      ['C02: B1.1/bar > S02', 10, 10],
    ]);
    const models = modelled({ terminalConductors: 2 });
    expect(told({ dimmer, models })).toEqual([
      ['K1.1: K1.1/in > K1.1/out', 0, 30],
      ['L1.1: D1.1 > K1.1/in', 0, 0],
      ['C01: K1.1/out > S01', 0, 0],
      ['C02: K1.1/out > S02', 0, 0],
    ]);
    // Nor in a ring, whose end comes back to it: it passes its taps uncut.
    const ring = told({ dimmer, models, cables: cabling({ layout: 'ring' }) });
    expect(ring.slice(0, 5)).toEqual([
      ['K1.1: K1.1/in > K1.1/out', 0, 30],
      ['L1.1: D1.1 > K1.1/in', 0, 0],
      ['T1.1/1: K1.1/out > D1.1-T1', 0, 0],
      ['T1.1/2: D1.1-T1 > D1.1-T2', 0, 0],
      ['T1.1/3: D1.1-T2 > K1.1/out', 0, 0],
    ]);
  });

  it('have the copper of their cable and their part of its cut length', () => {
    const { branches, cables } = plannedWall({ cables: cabling({ layout: 'trunk' }), trunk: copper(2.5) });
    const trunk = cables.find(({ id }) => id === 'T1.1')!;
    // One cable needs no block: from (310, -170) 190 across, 70 and 140 up, 100 along with a tail of 300; 300 with another.
    expect(branches.map(({ id }) => id)).toEqual(['T1.1/1', 'T1.1/2', 'C01', 'C02']);
    expect(branches[0]!.length_mm).toBeCloseTo(1.1 * (500 + 300), 9);
    expect(branches[1]!.length_mm).toBeCloseTo(1.1 * (300 + 300), 9);
    expect(branches[0]!.length_mm + branches[1]!.length_mm).toBeCloseTo(trunk.length_mm, 9);
    expect(branches.map((each) => each.conductor_ohm_per_km)).toEqual([8, 8, 20 / 1.5, 20 / 1.5]);
    expect(branches.map(({ serves }) => serves.join(' '))).toEqual([
      ...['S01-F1 S02-F1', 'S02-F1', 'S01-F1', 'S02-F1'],
    ]);
  });
});

describe('the part of a leg in its cable', () => {
  it('is its way and its tails with the allowance, be the tails longer than the way', () => {
    // 100 mm with both tails of 300: a tenth more than 700. With one tail and 50 mm of the way half of that.
    const cable = { way_mm: 100, tails_mm: 600, length_mm: 770 };
    const leg = (length_mm: number, tailCount: number) => ({
      ...{ id: 'C01', serves: [], tailCount, paths: [path([0, 0], [length_mm, 0])] },
      ...{ from: { kind: 'output', id: 'D1.1' }, to: { kind: 'tap', id: 'T' } },
    });
    expect(legLength_mm(leg(100, 2) as Leg, cable)).toBeCloseTo(770, 9);
    expect(legLength_mm(leg(50, 1) as Leg, cable)).toBeCloseTo(385, 9);
  });

  it('is nothing of a cable of no length', () => {
    const leg = {
      ...{ id: 'L', serves: [], paths: [], tailCount: 2 },
      from: { kind: 'output', id: 'D1.1' } as const,
    };
    const none = { way_mm: 0, tails_mm: 0, length_mm: 0 };
    expect(legLength_mm({ ...leg, to: { kind: 'output', id: 'D1.1' } }, none)).toBe(0);
  });
});
