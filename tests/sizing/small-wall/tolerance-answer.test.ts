import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { extremes, spreadOf, toleranceAnswer } from '../../../src/sizing/tolerance-answer.ts';
import { wattsBand } from '../../../src/sizing/watts-band.ts';
import { granted } from './granted.ts';
import { plainLaw, preparedOf, wallOf } from './small-wall.ts';

const settledOf = (change: (job: Job) => void = () => {}, law = plainLaw()) =>
  granted(settle(preparedOf(wallOf([600, 900], change), law)));

const plainlySettled = () => settledOf();

describe('how far a wall may be from what is described', () => {
  it('is 3 % of volts by the sheet of the driver, 15 K, 0.1 V a lamp, and cable 10 % shorter to 5 % longer', () => {
    const settled = plainlySettled();
    const spread = spreadOf(settled);
    expect(spread).toMatchObject({
      source_ratio: { from: 0.97, to: 1.03 },
      copper_K: { from: -15, to: 15 },
      lampShift_V: { from: -0.1, to: 0.1 },
      length_ratio: { from: 0.9, to: 1.05 },
    });
    // Bare copper of 1.5 mm2, 17.241/1.5 = 11.494 ohm/km, of the 13.3 of IEC 60228.
    expect(spread.cable_ratio).toEqual({ from: expect.closeTo(0.8642, 4), to: 1 });
    const one = settledOf((job) => {
      job.drivers.data.tolerance = 0.01;
    });
    expect(granted(toleranceAnswer(one)).text).toMatch(/^Driver volts ±1 %/);
    expect(granted(toleranceAnswer(settled)).text).toMatch(/^Driver volts ±3 %/);
  });

  it('is worst for volts with lamps that draw much, and worst for light with lamps that draw little', () => {
    const spread = spreadOf(plainlySettled());
    const { low, high, dim, bright } = extremes(spread);
    const poor = { source_ratio: 0.97, copper_K: 15, cable_ratio: 1, length_ratio: 1.05 };
    const good = { source_ratio: 1.03, copper_K: -15, length_ratio: 0.9 };
    expect([low, dim]).toEqual([
      { ...poor, lampShift_V: -0.1 },
      { ...poor, lampShift_V: 0.1 },
    ]);
    expect(high).toMatchObject({ ...good, lampShift_V: 0.1 });
    expect(bright).toMatchObject({ ...good, lampShift_V: -0.1 });
    expect([high.cable_ratio, bright.cable_ratio]).toEqual(Array(2).fill(spread.cable_ratio.from));
  });
});

describe('the bands of a wall', () => {
  const answered = () => {
    const settled = plainlySettled();
    return { settled, answer: granted(toleranceAnswer(settled)) };
  };

  it('hold what is described, unit by unit', () => {
    const { settled, answer } = answered();
    for (const [r, band] of answer.runs.entries()) {
      const { channels, light } = settled.solution.runs[r]!;
      expect(band.unit_V_least).toHaveLength(20);
      for (const [unit, volts] of channels[0]!.unit_V.entries()) {
        expect(band.unit_V_least[unit]).toBeLessThan(volts);
        expect(band.unit_V_greatest[unit]).toBeGreaterThan(volts);
        expect(band.unit_light_least[unit]).toBeLessThan(light[unit]!);
        expect(band.unit_light_greatest[unit]).toBeGreaterThan(light[unit]!);
      }
    }
  });

  it('are the same found corner by corner and from the profile: the lowest volts of the lowest unit', () => {
    const { answer } = answered();
    for (const band of answer.runs) {
      expect(Math.min(...band.unit_V_least)).toBeCloseTo(band.lowest_V.least, 9);
      expect(Math.min(...band.unit_V_greatest)).toBeCloseTo(band.lowest_V.greatest, 9);
    }
    // 3 % of 24 V either way are 0.72 V, but for what 0.2 A drop in a metre or two of cable and strip.
    const [{ lowest_V }] = answer.runs as [(typeof answer.runs)[0]];
    expect(lowest_V.greatest - lowest_V.least).toBeCloseTo(1.44, 1);
  });

  it('hold the fall and the drop of each run, and the watts of each output', () => {
    const { settled, answer } = answered();
    for (const [r, { drop, fall }] of answer.runs.entries()) {
      const { dropRatio, lightFall } = settled.solution.runs[r]!;
      expect([drop.least < dropRatio, dropRatio < drop.greatest]).toEqual([true, true]);
      expect([fall.least < lightFall, lightFall < fall.greatest]).toEqual([true, true]);
    }
    expect([...answer.outputs.keys()]).toEqual(['D1.1']);
    const { least, greatest } = answer.outputs.get('D1.1')!;
    // Both runs: 4.8 W. A lamp of 0.1 V less leaves 0.6 V more of 6.6 V to the resistor, volts of 3 % more 0.72 V: a fifth
    // more current at 3 % more volts; as much less at the other end.
    expect(greatest / settled.solution.out_W).toBeCloseTo(1.03 * (1 + (0.6 + 0.72) / 6.8), 1);
    expect(least / settled.solution.out_W).toBeCloseTo(0.97 * (1 - (0.6 + 0.72) / 6.8), 1);
    expect(Object.keys(answer.runs[0]!.drop)).toEqual(['least', 'greatest']);
  });
});

describe('the band of an output with a dimmer', () => {
  it('has what the dimmer takes for itself at either end: 1.2 W', () => {
    const band = (ownLoss_W: number) => {
      const settled = settledOf((job) => {
        job.dimming.control = 'dimmer';
        job.dimming.dimmer = { entry: '1x5A-push-button', data: { ownLoss_W } };
      });
      return granted(toleranceAnswer(settled)).outputs.get('D1.1')!;
    };
    const [without, own] = [band(0), band(1.2)];
    expect(own.least - without.least).toBeCloseTo(1.2, 9);
    expect(own.greatest - without.greatest).toBeCloseTo(1.2, 9);
  });
});

describe('the bands of a strip with two channels at unequal steady levels', () => {
  it('are of the channel whose volts the answer shows, and without the level', () => {
    const strip = stripCatalogue.find(({ id }) => id === '24V-2x9.6W-two-white')!;
    const two = settledOf((job) => {
      job.strip.entry = strip.id;
      Object.assign(job.dimming, { levels: [0.2, 0.8], sizeFor: 'levels', pwm_Hz: null });
    });
    const answer = granted(toleranceAnswer(two));
    for (const [r, band] of answer.runs.entries()) {
      const [weak, strong] = two.solution.runs[r]!.channels;
      // The channel that is lit more drops more on its own return.
      expect(strong!.lowest_V).toBeLessThan(weak!.lowest_V);
      expect(Math.min(...band.unit_V_least)).toBeCloseTo(band.lowest_V.least, 9);
      // Near 1 at any level: it is what the volts do.
      for (const [unit, least] of band.unit_light_least.entries()) {
        expect(least).toBeGreaterThan(0.5);
        expect(band.unit_light_greatest[unit]).toBeLessThan(1.5);
        expect(band.unit_light_greatest[unit]).toBeGreaterThan(1);
      }
    }
  });
});

describe('the watts heat is judged by', () => {
  const ends = (law = plainLaw()) =>
    granted(
      wattsBand(
        settledOf(() => {}, law),
        law,
      ),
    );

  it('reach as far as the load of the output where nothing warms the strip', () => {
    const settled = plainlySettled();
    const { least, greatest } = ends();
    const band = granted(toleranceAnswer(settled)).outputs.get('D1.1')!;
    // By the unit that draws most, at the beginning of a run.
    expect(greatest / 2.4).toBeCloseTo(band.greatest / settled.solution.out_W, 2);
    expect(least / 2.4).toBeCloseTo(band.least / settled.solution.out_W, 2);
  });

  it('reach further where watts warm the strip', () => {
    const [cool, warm] = [ends(), ends(plainLaw(10))];
    expect(warm.greatest - warm.least).toBeGreaterThan(1.02 * (cool.greatest - cool.least));
  });

  it('are those of the strip as warm as described where a corner runs away', () => {
    // 40 K for each watt a metre: 2.8 W/m settle at some 140 degC; a fifth more would pass 150.
    const law = plainLaw(40);
    const described = settledOf(() => {}, law);
    const { least, greatest } = granted(wattsBand(described, law));
    const at_W_per_m = (described.strip_degC[0]! - 25) / 40;
    expect(greatest / at_W_per_m).toBeGreaterThan(1.1);
    expect(greatest / at_W_per_m).toBeLessThan(1.3);
    // The cold end settles, and so goes further from what is described than watts alone.
    expect(least / at_W_per_m).toBeLessThan(0.85);
  });
});
