import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { newJob } from '../../../src/job/new-job.ts';
import type { StripData } from '../../../src/job/strip.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { conditionsOf } from '../../../src/sizing/conditions-of-job.ts';
import {
  averageShare,
  circuitLight,
  circuitShare,
  electricalLevels,
  isLimited,
  isPulsed,
  lowestLevel,
} from '../../../src/sizing/dimming-of-job.ts';

const dimmed = (change: Partial<Job['dimming']>): Job => {
  const job = newJob();
  return { ...job, dimming: { ...job.dimming, levels: [0.5, 0.1], sizeFor: 'levels', ...change } };
};

/** Two channels: 6 W/m and 500 lm/m, 2 W/m and 300 lm/m. */
const entry = stripCatalogue.find(({ id }) => id === '24V-2x9.6W-two-white')!;
const strip: StripData = {
  ...entry,
  channels: [
    { ...entry.channels[0]!, watts_per_m: 6, lumens_per_m: 500 },
    { ...entry.channels[1]!, watts_per_m: 2, lumens_per_m: 300 },
  ],
};

/** All slots at the levels of the job. */
const whole = [
  { zone: null, name: 'the wall', levels: { full: 1 as const, working: [0.5, 0.1], lowest: 0.1 } },
];

const steady = dimmed({ pwm_Hz: null });
const pulsed = dimmed({ pwm_Hz: 4000 });
const atFull = dimmed({ sizeFor: 'all on' });

describe('the limit of a dimmer', () => {
  it('is there when the job is sized for levels and one of them is below full', () => {
    expect([steady, pulsed, atFull].map((job) => isLimited(job, null))).toEqual([true, true, false]);
    expect(isLimited(dimmed({ levels: [1, 1] }), null)).toBe(false);
    expect(isLimited(dimmed({ levels: [1, 0.99] }), null)).toBe(true);
    expect([steady, pulsed].map((job) => isPulsed(job, { dimmer: null }))).toEqual([false, true]);
  });

  it('goes by the pulses of the dimmer that is chosen, whatever the job says of others', () => {
    const by = (frequency_Hz: number | null) => ({ strip, dimmer: { frequency_Hz } });
    expect([isPulsed(pulsed, by(null)), isPulsed(steady, by(1000))]).toEqual([false, true]);
    expect(electricalLevels(pulsed, by(null), null)).toEqual([0.5, 0.1]);
    expect(averageShare(steady, by(1000), null)).toBeCloseTo(0.4, 12);
    expect(conditionsOf(pulsed, by(null), whole)[0]!.holds).toBe('everything');
  });

  it('lowers volts and currents only where the current is lowered steadily', () => {
    expect(
      [steady, pulsed, atFull].map((job) => electricalLevels(job, { strip, dimmer: null }, null)),
    ).toEqual([
      [0.5, 0.1],
      [1, 1],
      [1, 1],
    ]);
  });

  it('weighs watts by watts, (6*0.5 + 2*0.1)/8 = 0.4, and light by lumens, (250 + 30)/800 = 0.35', () => {
    expect(circuitShare(steady, { strip, dimmer: null }, null)).toBeCloseTo(0.4, 12);
    expect(circuitLight(steady, { strip, dimmer: null }, null)).toBeCloseTo(0.35, 12);
    expect([
      circuitShare(pulsed, { strip, dimmer: null }, null),
      circuitLight(pulsed, { strip, dimmer: null }, null),
    ]).toEqual([1, 1]);
  });

  it('lowers average watts over those of the circuit only where pulses are limited', () => {
    expect(averageShare(pulsed, { strip, dimmer: null }, null)).toBeCloseTo(0.4, 12);
    expect(averageShare(steady, { strip, dimmer: null }, null)).toBe(1);
    expect(averageShare(dimmed({ sizeFor: 'all on', pwm_Hz: 4000 }), { strip, dimmer: null }, null)).toBe(1);
  });
});

describe('the lowest level', () => {
  it.each([
    ['the own one of the job', { lowest: 0.02 }, 0.02],
    ['else the lowest working one', {}, 0.1],
    ['of those that are lit', { levels: [0.5, 0] }, 0.5],
    ['none where nothing is lit', { levels: [0, 0] }, null],
  ])('is %s', (_, change, level) => {
    expect(lowestLevel(dimmed(change).dimming)).toBe(level);
  });
});

describe('conditions', () => {
  it('are none without a limit, and name heat for pulses and everything else for a steady one', () => {
    expect(conditionsOf(atFull, { strip, dimmer: null }, whole)).toEqual([]);
    const [own] = conditionsOf(pulsed, { strip, dimmer: null }, whole);
    expect(own).toMatchObject({ id: 'dimmer-limit', holds: 'heat', levels: [0.5, 0.1] });
    expect(own!.sentence).toContain('while cables, fuses and drivers are sized for full');
    const [other] = conditionsOf(steady, { strip, dimmer: null }, whole);
    expect(other!.holds).toBe('everything');
    expect(other!.sentence).toContain('cables, fuses, drivers and temperatures hold only then');
    expect(other!.short).toContain('50 % (warm white) and 10 % (cool white) of full');
  });
});
