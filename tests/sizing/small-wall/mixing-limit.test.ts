import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { conditionsOf } from '../../../src/sizing/conditions-of-job.ts';
import { averageShare, electricalLevels, momentShare, worstMix } from '../../../src/sizing/dimming-of-job.ts';
import { sizeJob } from '../../../src/sizing/size-job.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

const entry = stripCatalogue.find(({ id }) => id === '24V-2x9.6W-two-white')!;
const channelOf = (watts_per_m: number) => ({ ...entry.channels[0]!, watts_per_m });
/** Channels of 6, 10 and 4 W/m: 20 W/m with all full. */
const strip = { ...entry, channels: [6, 10, 4].map(channelOf) };

const mixed = (mixingLimit: number | null, pwm_Hz: number | null): Job =>
  wallOf([400], ({ dimming }) => Object.assign(dimming, { mixingLimit, pwm_Hz, levels: [0.2, 0.2, 0.2] }));

const by = { strip, dimmer: null };

/** All slots at the levels of the job. */
const whole = [
  { zone: null, name: 'the wall', levels: { full: 1 as const, working: [0.2, 0.2, 0.2], lowest: 0.2 } },
];

describe('the worst mix of 6, 10 and 4 W/m', () => {
  it.each([
    [1, [0, 1, 0]],
    [1.5, [0.5, 1, 0]],
    [2, [1, 1, 0]],
    [2.25, [1, 1, 0.25]],
    [3, [1, 1, 1]],
  ])('where levels add up to %d is %j', (limit, levels) => {
    expect(worstMix(strip, limit)).toEqual(levels);
  });

  it('sizes a steady control as it is: at 1.5, 10 + 3 of 20 W', () => {
    expect(electricalLevels(mixed(1.5, null), by, null)).toEqual([0.5, 1, 0]);
    expect(momentShare(mixed(1.5, null), by)).toBeCloseTo(13 / 20, 12);
    expect(averageShare(mixed(1.5, null), by, null)).toBe(1);
  });

  it('sizes pulses for channels that are on or off: at 1.5 two of them, 16 W, of which 13 W on average', () => {
    expect(electricalLevels(mixed(1.5, 4000), by, null)).toEqual([1, 1, 0]);
    expect(momentShare(mixed(1.5, 4000), by)).toBeCloseTo(16 / 20, 12);
    expect(averageShare(mixed(1.5, 4000), by, null)).toBeCloseTo(13 / 16, 12);
    expect(averageShare(mixed(1, 4000), by, null)).toBe(1);
  });

  it('is every channel full without a limit, and with one that limits nothing', () => {
    for (const limit of [null, 3, 4]) {
      expect(electricalLevels(mixed(limit, 4000), by, null)).toEqual([1, 1, 1]);
      expect(conditionsOf(mixed(limit, 4000), by, whole)).toEqual([]);
    }
  });

  it('goes beside the limit of the dimmer: pulses at 20 % each, 4 W on average of the 10 W of a moment', () => {
    const both = mixed(1, 4000);
    both.dimming.sizeFor = 'levels';
    expect(averageShare(both, by, null)).toBeCloseTo(4 / 10, 12);
    expect(conditionsOf(both, by, whole).map(({ id }) => id)).toEqual(['dimmer-limit', 'mixing-limit']);
  });
});

describe('the condition', () => {
  it('asks that pulses follow one another, as many at once as the limit rounded up', () => {
    const [condition] = conditionsOf(mixed(1, 4000), by, whole);
    expect(condition).toMatchObject({ id: 'mixing-limit', holds: 'everything', levels: [0, 1, 0] });
    expect(condition!.sentence).toContain('add up to more than 100 %');
    expect(condition!.sentence).toMatch(/at no moment more than 1 channel on\.$/);
    const { sentence } = conditionsOf(mixed(1.5, 4000), by, whole)[0]!;
    expect(sentence).toContain('add up to more than 150 %');
    expect(sentence).toMatch(/more than 2 channels on\.$/);
  });

  it('asks nothing of the pulses of a steady one, and spares heat only where all may pulse at once', () => {
    expect(conditionsOf(mixed(1, null), by, whole)[0]!.sentence).not.toContain('Pulses');
    const [heat] = conditionsOf(mixed(2.5, 4000), by, whole);
    expect(heat!.holds).toBe('heat');
    expect(heat!.sentence).not.toContain('Pulses');
  });
});

describe('the limit of the dimmer', () => {
  const one = { strip: { ...entry, channels: [channelOf(6)] }, dimmer: null };
  const zone = (name: string, level: number) => ({
    ...{ zone: null, name },
    levels: { full: 1 as const, working: [level], lowest: level },
  });
  const limited = mixed(null, null);
  limited.dimming.sizeFor = 'levels';

  it('is the level of the wall, or of each zone by its name, and for the control as a whole the greatest', () => {
    const [wall] = conditionsOf(limited, one, [zone('the wall', 0.4)]);
    expect(wall!.short).toMatch(/go above 40 % of full$/);
    const [zones] = conditionsOf(limited, one, [zone('Bay', 0.15), zone('the rest', 0.4)]);
    expect(zones!.short).toMatch(/go above 15 % of full in Bay and 40 % of full in the rest$/);
    expect(zones!.levels).toEqual([0.4]);
  });
});

describe('a wall of two whites', () => {
  const wall = (mixingLimit: number | null): Job =>
    wallOf([400, 600], (job) => {
      const [channel] = preparedOf(wallOf([400])).products.strip.channels;
      const of = (name: string) => ({
        ...{ ...channel!, name, watts_per_m: 12, lumens_per_m: 1000 },
        ...{ lampsInSeries: 6, lampForward_V: 3 },
      });
      job.strip.entry = '24V-2x9.6W-two-white';
      job.strip.data = { law: 'regulated', dropout_V: 0.5, channels: [of('warm'), of('cool')] };
      Object.assign(job.dimming, { levels: [0.3, 0.3], mixingLimit });
    });
  const fullOf = () => granted(sizeJob(wall(null)));
  const oneOf = () => granted(sizeJob(wall(1)));

  it('takes the watts of one channel, 2 m of 12 W/m, and not of two', () => {
    const [full, one] = [fullOf(), oneOf()];
    expect(full.circuit.supply_W).toBeCloseTo(48, 6);
    expect(one.circuit.supply_W).toBeCloseTo(24, 6);
    expect([full.circuit.level, one.circuit.level]).toEqual(['full', 'mix']);
    // 12 and 24 W/m at 24 V; what copper takes off is no heat of the unit that draws most.
    expect(one.heat.strip_W_per_m).toBeCloseTo(12, 1);
    expect(full.heat.strip_W_per_m).toBeCloseTo(24, 0);
  });

  it('loses in plus half of what two lose, and in the return as much', () => {
    const [full, one] = [fullOf(), oneOf()];
    const drops = (answer: typeof full) => answer.circuit.runs.map(({ drop_V }) => drop_V);
    const link_V = full.cables.find(({ id }) => id === 'L1.1')!.drop_V;
    // Out and home are alike: 2 A out and 1 A home take 3 parts, 1 A and 1 A take 2; in the link, whose minus carries both
    // channels, 2 A and 2 A take 4, 1 A and 1 A take 2.
    for (const [i, drop_V] of drops(one).entries()) {
      const expected_V = (drops(full)[i]! - link_V) * (2 / 3) + link_V / 2;
      expect((2 * drop_V) / (3 * expected_V)).toBeCloseTo(2 / 3, 2);
    }
  });

  it('prints its condition in findings, cautions, driver schedule and test sheet, and passes nothing that rests on it', () => {
    const one = oneOf();
    const { sentence } = one.conditions[0]!;
    expect(one.findings.find(({ id }) => id === 'mixing-limit')).toMatchObject({
      ...{ status: 'watch', value: 1, place: { field: 'dimming.mixingLimit' }, title: 'Limit of the mix' },
    });
    expect(one.cautions[0]).toMatchObject({ id: 'mixing-limit', sentence });
    const schedule = (id: string) => one.schedules.find((each) => each.id === id)!;
    expect(schedule('drivers').notes).toContain(sentence);
    const steps = schedule('test-sheet').rows.flat().join('\n');
    expect(steps).toContain(sentence);
    expect(steps).toContain('as far as the limit of the mix allows');
    const resting = one.findings.filter(({ question }) =>
      ['circuit', 'cables', 'drivers', 'heat'].includes(question),
    );
    expect(
      resting.filter(({ status, id }) => status === 'passes' && id !== 'depth').map(({ id }) => id),
    ).toEqual([]);
  });
});
