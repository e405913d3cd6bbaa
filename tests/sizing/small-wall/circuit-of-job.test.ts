import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { lawOf, partnerOf } from '../../../src/sizing/circuit-of-job.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

const settled = (xs_mm: readonly number[], change: (job: Job) => void = () => {}) =>
  granted(settle(preparedOf(wallOf(xs_mm, change))));

/** Cables of 20 ohm/km at 40 degC, so of 20*(1 + 0.00393*20) = 21.572 mohm a metre; no tails, nothing allowed for. */
const plainCables = (job: Job): void => {
  job.cables.data.conductor_ohm_per_km = 20;
  Object.assign(job.cables, { tail_mm: 0, allowance: 0 });
};

describe('the network of one run', () => {
  const network = () =>
    settled([600], (job) => {
      plainCables(job);
      job.strip.data.reel_mm = 500;
      job.drivers.set_V = 24.2;
    }).description;

  it('has the run in units of 50 mm, its rails a metre, and the joint of its two reels in the middle', () => {
    const [run] = network().runs;
    expect(run).toMatchObject({
      ...{ id: 'S01', unitCount: 20, unitLength_m: 0.05, strip_degC: 25 },
      positiveRail_ohm_per_m: expect.closeTo(0.0821, 12),
      joints: [{ cutLine: 10, contact_ohm: 0.002 }],
    });
    expect(run!.channels).toEqual([
      {
        ...{ id: 'ch1', returnRail_ohm_per_m: expect.closeTo(0.0821, 12), level: 1, lightShare: 1 },
        // 2.4 W/m over 20 units are 0.12 W each; six lamps of 2.9 V leave 6.6 V of 24 to the resistor.
        law: {
          ...{ kind: 'resistor', nominal_V: 24, unit_W: 0.12, lampsInSeries: 6, lampForward_V: 2.9 },
          slope_V: 0.075,
        },
      },
    ]);
  });

  it('has the output at the volts set, and one cable from it to the start of the run', () => {
    const description = network();
    expect(description.sources).toEqual([{ id: 'D1.1', set_V: 24.2 }]);
    expect(description.taps).toEqual([]);
    const [cable] = description.cables;
    // Terminals at (415, -94): 235 across and 74 up to the hole at (650, -20), 60 up, 50 back, 60 up to the strip at (600, 100).
    const conductor = {
      ...{ from: { source: 'D1.1' }, to: { run: 'S01', cutLine: 0 }, length_m: 0.479, contact_ohm: 0.005 },
      ...{ ohm_per_m: expect.closeTo(0.021572, 12), series_ohm: 0 },
    };
    expect(cable).toEqual({
      ...{ id: 'C01', positive: conductor, returns: [{ ...conductor, channel: 'ch1' }] },
    });
  });
});

describe('the network of a trunk', () => {
  const ends = ({ description }: ReturnType<typeof settled>) =>
    description.cables.map(({ id, positive }) => [id, positive.from, positive.to]);

  it('has each tap and the block once, parts between taps, and a branch from each to its run', () => {
    const trunk = settled([600, 800], (job) => {
      job.cables.layout = 'trunk';
      // The hole is left of both slots: one trunk.
      job.drivers.places[0]!.x_mm = 0;
    });
    expect(trunk.description.taps).toEqual([
      { id: 'D1.1-T1', hasOneMinus: false },
      { id: 'D1.1-T2', hasOneMinus: false },
    ]);
    expect(ends(trunk)).toEqual([
      ['T1.1/1', { source: 'D1.1' }, { tap: 'D1.1-T1' }],
      ['T1.1/2', { tap: 'D1.1-T1' }, { tap: 'D1.1-T2' }],
      ['C01', { tap: 'D1.1-T1' }, { run: 'S01', cutLine: 0 }],
      ['C02', { tap: 'D1.1-T2' }, { run: 'S02', cutLine: 0 }],
    ]);
  });

  it('meets its connectors: at a block, where a trunk ends and where a branch leaves, each conductor', () => {
    const { description } = settled([600, 800], (job) => {
      job.cables.layout = 'trunk';
      // From the hole at 650 one trunk goes to either side, so that there is a block for the two.
    });
    expect(description.taps.map(({ id }) => id).sort()).toEqual(['B1.1', 'D1.1-T1', 'D1.1-T2']);
    const series = description.cables.map(({ id, positive, returns }) => [
      id,
      positive.series_ohm,
      returns[0]!.series_ohm,
    ]);
    expect(series).toEqual([
      ['L1.1', 0.005, 0.005],
      ['T1.1a', 0.01, 0.01],
      ['C02', 0.005, 0.005],
      ['T1.1b', 0.01, 0.01],
      ['C01', 0.005, 0.005],
    ]);
  });
});

describe('the network of crossed feeds', () => {
  const crossed = () =>
    settled([600, 800], (job) => {
      plainCables(job);
      job.feeds.arrangement = 'crossed';
      job.strip.entry = '24V-2x9.6W-two-white';
      job.dimming.levels = [1, 1];
    });

  it('has one cable a run: plus to its start, the return of each channel to its finish, each of its length', () => {
    const { description } = crossed();
    expect(description.cables.map(({ id }) => id)).toEqual(['L1.1', 'C01.1', 'C02.1']);
    const [, first, second] = description.cables;
    // From the block at (495, -104) 155 across, 84 and 60 up, 50 back, 60 up to (600, 100): 0.409 m, to the finish at
    // (600, 1100) 1 m more; the other run 150 along instead of 50.
    expect(first!.positive).toMatchObject({ to: { run: 'S01', cutLine: 0 }, length_m: 0.409 });
    expect(first!.returns).toMatchObject([
      { channel: 'ch1', to: { run: 'S01', cutLine: 20 }, length_m: 1.409 },
      { channel: 'ch2', to: { run: 'S01', cutLine: 20 }, length_m: 1.409 },
    ]);
    expect(second!.positive).toMatchObject({ to: { run: 'S02', cutLine: 0 }, length_m: 0.509 });
    expect(second!.returns[0]).toMatchObject({ to: { run: 'S02', cutLine: 20 }, length_m: 1.509 });
  });

  it('finds the solved cable of each conductor laid: a return is solved with the plus of its own run', () => {
    const { wired } = crossed();
    expect(wired.installation.branches.map(({ id }) => [id, partnerOf(id, wired)])).toEqual([
      ['L1.1', 'L1.1'],
      ['C01.1', 'C01.1'],
      ['C01.2', 'C01.1'],
      ['C02.1', 'C02.1'],
      ['C02.2', 'C02.1'],
    ]);
  });

  it('shares light by lumens: 860 and 920 of 1,780 lm/m, each channel on a return rail of its own', () => {
    const [one, two] = crossed().description.runs[0]!.channels;
    expect([one!.id, two!.id]).toEqual(['ch1', 'ch2']);
    expect(one!.lightShare).toBeCloseTo(860 / 1780, 12);
    expect(two!.lightShare).toBeCloseTo(920 / 1780, 12);
    expect(two!.returnRail_ohm_per_m).toBe(0.123);
  });
});

describe('a dimmer that lowers the current steadily', () => {
  it('lowers the level of each channel', () => {
    const { description } = settled([600], (job) => {
      job.strip.entry = '24V-2x9.6W-two-white';
      Object.assign(job.dimming, { levels: [0.5, 0.2], sizeFor: 'levels', pwm_Hz: null });
    });
    expect(description.runs[0]!.channels.map(({ level }) => level)).toEqual([0.5, 0.2]);
  });
});

describe('the law of a regulated strip', () => {
  it('has the dropout of its regulator', () => {
    const strip = stripCatalogue.find(({ id }) => id === '24V-9.6W-regulated')!;
    // 9.6 W/m over 20 units.
    expect(lawOf(strip, strip.channels[0]!)).toMatchObject({ kind: 'regulated', dropout_V: 1, unit_W: 0.48 });
  });
});

describe('the slope of an LED', () => {
  it('is that of the data sheet', () => {
    const strip = { ...stripCatalogue[0]!, slope_V: 0.09 };
    expect(lawOf(strip, strip.channels[0]!).slope_V).toBe(0.09);
  });
});

describe('two units worked out by hand', () => {
  it('stand at 23.97387 and 23.96539 V', () => {
    // Strip that is nearly all resistor: one lamp of 1.5 V and (24 - 1.5)/(2 W/24 V) = 270 ohm a unit, 40 W/m.
    const { solution } = settled([600], (job) => {
      if (job.slots.from === 'segments')
        job.slots.segments = [{ x0_mm: 600, y0_mm: 100, x1_mm: 600, y1_mm: 200 }];
      const [channel] = stripCatalogue.find(({ id }) => id === '24V-2.4W')!.channels;
      job.strip.data = {
        ...{ railPositive_mohm_per_m: 1000, railReturn_mohm_per_m: 1000 },
        channels: [{ ...channel!, watts_per_m: 40, lampsInSeries: 1, lampForward_V: 1.5 }],
      };
      job.cables.data.conductor_ohm_per_km = 200;
      Object.assign(job.cables, { tail_mm: 0, allowance: 0, cable_degC: 20 });
      Object.assign(job.drivers.places[0]!, { x_mm: 385, y_mm: -186, width_mm: 430 });
    });
    // The driver of 195 x 52 mm, 20 mm from the corner of its place, has its terminals at (600, -140), under the slot and the
    // hole: cable of 180 + 60 mm: 2*0.24*0.2 + 2*0.005 = 0.106 ohm. Both rails at 25 degC 2*1.01965 ohm/m: 0.025 m to the
    // middle of the first unit 0.0509825, 0.05 m on to the next 0.101965 ohm. Currents (V - 1.5)/270:
    // 83.237 and 83.205 mA, so V1 = 24 - 0.1569825*0.166442 and V2 = V1 - 0.101965*0.083205.
    const [first, second] = solution.runs[0]!.channels[0]!.unit_V;
    expect(first).toBeCloseTo(23.97387, 4);
    expect(second).toBeCloseTo(23.96539, 4);
  });
});
