import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { setVoltage_V } from '../../../src/job/resolve.ts';
import { cableAnswers } from '../../../src/sizing/cable-answer.ts';
import { circuitAnswer } from '../../../src/sizing/circuit-answer.ts';
import { solvedDimmers } from '../../../src/sizing/dimmer-answer.ts';
import { solvedOutputs } from '../../../src/sizing/drivers-of-job.ts';
import { installationAnswer } from '../../../src/sizing/installation-answer.ts';
import { airAt, settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/** Slots of one metre of regulated strip: 24 W at 24 V, so that each draws 1 A whatever its volts are. */
function dimmedWall(count: number, change: (job: Job) => void = () => {}) {
  const xs_mm = Array.from({ length: count }, (_, i) => 400 + 200 * i);
  return wallOf(xs_mm, (job) => {
    const [channel] = preparedOf(wallOf([400])).products.strip.channels;
    job.strip.data = {
      law: 'regulated',
      dropout_V: 0.5,
      channels: [{ ...channel!, watts_per_m: 24, lumens_per_m: 2000, lampsInSeries: 6, lampForward_V: 3 }],
    };
    job.drivers.data = { rated_W: 100, current_A: 4, efficiency: 0.8 };
    job.drivers.reserve = 0;
    job.dimming.control = 'dimmer';
    job.dimming.dimmer = { entry: '1x5A-push-button', data: { resistance_mohm: 50, ownLoss_W: 1.2 } };
    change(job);
  });
}

const settledOf = (job: Job) => {
  const prepared = preparedOf(job);
  return { prepared, settled: granted(settle(prepared)) };
};

describe('a dimmer behind an output', () => {
  const two = () => settledOf(dimmedWall(2));

  it('carries the returns of both runs, 2 A, and makes 2^2 * 0.05 = 0.2 W and its own 1.2 W into heat', () => {
    const { prepared, settled } = two();
    const [dimmer, ...others] = installationAnswer(settled, []).dimmers;
    expect(others).toEqual([]);
    expect(dimmer).toMatchObject({ id: 'K1.1', output: 'D1.1', channel_A: 5 });
    expect(dimmer!.name).toBe('Dimmer, one channel of 5 A, push button');
    expect(dimmer!.standing!.place).toBe(prepared.job.drivers.places[0]!.name);
    expect(dimmer!.current_A).toBeCloseTo(2, 9);
    expect(dimmer!.loss_W).toBeCloseTo(1.4, 9);
  });

  it('is fed by its output beside the runs: 48 W and 1.2 W, 2 A and 0.05 A', () => {
    const { prepared, settled } = two();
    const output = solvedOutputs(settled.solution, prepared, new Map([['D1.1', 0.5]])).get('D1.1')!;
    expect(output.watts).toBeCloseTo(49.2, 6);
    expect(output.current_A).toBeCloseTo(2.05, 6);
    // Half of what flows through it, and all of what it takes itself.
    expect(output.average_W).toBeCloseTo(25.2, 6);
  });

  it('has watts of its own in the balance, which are not those of the cables', () => {
    const { prepared, settled } = two();
    const outputs = new Map(prepared.setOut.runs.map(({ id }) => [id, { driver: 'D1', output: 'D1.1' }]));
    const answer = circuitAnswer(settled, { ...prepared.setOut, neighbours: [] }, outputs, null);
    expect(answer.dimmer_W).toBeCloseTo(1.4, 9);
    expect(answer.supply_W).toBeCloseTo(49.2, 6);
    expect(answer.average_W).toBeCloseTo(49.2, 6);
    expect(answer.lamps_W + answer.stripCopper_W + answer.cable_W + answer.dimmer_W).toBeCloseTo(49.2, 6);
    const cables = cableAnswers(settled.solution, settled.wired);
    // The circuit's least resistance, 1 micro-ohm, stands in the plus of the dimmer: 2 A in it lose 4 microwatts.
    expect(cables.reduce((sum, { loss_W }) => sum + loss_W, 4e-6)).toBeCloseTo(answer.cable_W, 9);
    expect(cables.flatMap(({ legs }) => legs).every(({ loss_W }) => loss_W >= 0)).toBe(true);
  });

  it('stands in the volts: 2 A through 50 mΩ more take 0.1 V off every run', () => {
    const { settled } = two();
    const without = settledOf(
      dimmedWall(2, (job) => {
        job.dimming.dimmer!.data = { resistance_mohm: 0, ownLoss_W: 1.2 };
      }),
    ).settled;
    const lowest = ({ solution }: typeof settled) => solution.runs.map(({ lowest_V }) => lowest_V);
    // One of no ohms has the circuit's least, 1 micro-ohm.
    for (const [i, with_V] of lowest(settled).entries())
      expect(lowest(without)[i]! - with_V).toBeCloseTo(2 * (0.05 - 1e-6), 9);
  });

  it('warms its place beside its driver: 49.2/0.8 - 49.2 = 12.3 W and 1.4 W; at half the light (24 + 1.2)/4 and 1.3 W', () => {
    const roomy = (job: Job) => {
      const [place] = job.drivers.places;
      // 1 m by 1 m by 0.2 m of closed box; how it warms for each watt is read off at no dimmer's heat.
      job.drivers.places = [{ ...place!, width_mm: 1000, height_mm: 1000, depth_mm: 200, vented: false }];
    };
    const { prepared: asked, settled: warm } = settledOf(dimmedWall(2, roomy));
    const full_K = warm.air_degC[0]! - asked.job.site.room_degC;
    const half_K = airAt(asked, warm, warm.solution, new Map([['D1.1', 0.5]]))[0]! - asked.job.site.room_degC;
    expect(full_K).toBeGreaterThan(0);
    expect(half_K / full_K).toBeCloseTo((25.2 / 4 + 1.3) / (12.3 + 1.4), 6);
  });
});

describe('channels of a dimmer', () => {
  const outputCount = (channel_A: number, own_W = 0): number => {
    const job = dimmedWall(2, ({ dimming }) => {
      dimming.dimmer!.data = { channel_A, resistance_mohm: 20, ownLoss_W: own_W };
    });
    const { settled } = settledOf(job);
    return solvedDimmers(settled.wired, settled.solution).length;
  };

  it('are not loaded beyond their rating: 2 A go through 2 A, and not through 1.9 A', () => {
    expect(outputCount(2)).toBe(1);
    expect(outputCount(1.9)).toBe(2);
    expect(outputCount(2, 3)).toBe(1);
  });

  it('count one by one: of 30 and 10 W/m the busier one decides, 1.25 A a run', () => {
    const two = (channel_A: number): number => {
      const job = dimmedWall(2, (each) => {
        const [channel] = each.strip.data.channels!;
        const of = (name: string, watts_per_m: number) => ({ ...channel!, name, watts_per_m });
        each.strip.entry = '24V-2x9.6W-two-white';
        each.strip.data.channels = [of('warm', 30), of('cool', 10)];
        each.dimming.levels = [0.5, 0.5];
        each.dimming.dimmer = { entry: '2x6A-dali', data: { channel_A } };
      });
      const { settled } = settledOf(job);
      return solvedDimmers(settled.wired, settled.solution).length;
    };
    expect(two(2.5)).toBe(1);
    expect(two(2.4)).toBe(2);
  });

  it('leave the ceiling of the job where that is lower', () => {
    const job = dimmedWall(2, (each) => {
      each.drivers.outputCeiling_W = 40;
    });
    const { settled } = settledOf(job);
    expect(setVoltage_V(job, settled.wired.products)).toBe(24);
    expect(settled.allocation.drivers.flatMap(({ outputs }) => outputs).length).toBe(2);
  });
});

describe('what a dimmer takes itself', () => {
  it('is room that its driver has not for runs: 48 W and 1.2 W are more than 49 W', () => {
    const drivers = (rated_W: number): number => {
      const job = dimmedWall(2, (each) => {
        each.drivers.data = { rated_W, current_A: 4, efficiency: 0.8 };
        each.site.room_degC = 20;
      });
      return settledOf(job).settled.allocation.drivers.length;
    };
    expect(drivers(50)).toBe(1);
    expect(drivers(49)).toBe(2);
  });
});
