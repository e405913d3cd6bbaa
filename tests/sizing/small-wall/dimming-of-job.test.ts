import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { newJob } from '../../../src/job/new-job.ts';
import type { StripData } from '../../../src/job/strip.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { newZone } from '../../../src/job/zone.ts';
import { levelFields, levelsOfZone } from '../../../src/job/zone-levels.ts';
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
import { slotsByLevels } from '../../../src/sizing/slots-by-levels.ts';

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

describe('zones with levels of their own', () => {
  /** Shelf at 20 % and 40 %, Bay at full, Left as the job: 50 % and 10 %. */
  const zones = [
    { ...newZone({ id: 'Z1', name: 'Shelf', slots: [1] }), levels: [0.2, 0.4] },
    { ...newZone({ id: 'Z2', name: 'Bay', slots: [2] }), levels: [1, 1], lowest: 0.05 },
    newZone({ id: 'Z3', name: 'Left', slots: [3] }),
  ];
  const by = { strip, dimmer: null };
  const [still, switched] = [dimmed({ zones, pwm_Hz: null }), dimmed({ zones, pwm_Hz: 4000 })];
  const names = ['Shelf', 'Bay', 'Left', null];

  it('are limited each for itself, and one at full not at all', () => {
    expect(names.map((zone) => isLimited(still, zone))).toEqual([true, false, true, true]);
  });

  it('stand at them where the current is lowered steadily, all at full in pulses', () => {
    expect(names.map((zone) => electricalLevels(still, by, zone))).toEqual([
      [0.2, 0.4],
      [1, 1],
      [0.5, 0.1],
      [0.5, 0.1],
    ]);
    expect(names.map((zone) => electricalLevels(switched, by, zone))).toEqual(names.map(() => [1, 1]));
  });

  it('average by their own watts: (6*0.2 + 2*0.4)/8 = 0.25, 1, and 0.4 of the job', () => {
    expect(names.map((zone) => averageShare(switched, by, zone))).toEqual(
      [0.25, 1, 0.4, 0.4].map((share) => expect.closeTo(share, 12)),
    );
    expect(names.map((zone) => circuitShare(still, by, zone))).toEqual(
      [0.25, 1, 0.4, 0.4].map((share) => expect.closeTo(share, 12)),
    );
    // (500*0.2 + 300*0.4)/800 of the light.
    expect(circuitLight(still, by, 'Shelf')).toBeCloseTo(0.275, 12);
  });

  it('are in the condition by name, those at full left out, with the highest level of each channel', () => {
    const groups = slotsByLevels(switched, [
      { slot: 'S01', zone: 'Shelf' },
      { slot: 'S02', zone: 'Bay' },
      { slot: 'S03', zone: 'Left' },
      { slot: 'S04', zone: null },
    ]).map(({ zone, name }) => {
      const { levels, lowest } = levelsOfZone(switched, zone);
      return { zone, name, levels: { full: 1 as const, working: [...levels], lowest } };
    });
    const [condition] = conditionsOf(switched, by, groups);
    expect(condition!.levels).toEqual([0.5, 0.4]);
    expect(condition!.short).toBe(
      'only with the dimmer made unable to go above 20 % (warm white) and 40 % (cool white) of full in Shelf and 50 % (warm white) and 10 % (cool white) of full in Left, the rest',
    );
  });
});

describe('slots by their levels', () => {
  const zones = [
    newZone({ id: 'Z1', name: 'Left', slots: [1] }),
    { ...newZone({ id: 'Z2', name: 'Shelf', slots: [2] }), wanted_cd_per_m2: 50 },
  ];
  const runs = [null, 'Left', 'Shelf', 'Shelf', 'Left'].map((zone, i) => ({ slot: `S0${i + 1}`, zone }));

  it('are together where no zone says anything of its own, in the order of the wall else', () => {
    expect(slotsByLevels(dimmed({ zones: [zones[0]!] }), runs.slice(0, 2))).toEqual([
      { zone: null, name: 'the wall', slots: ['S01', 'S02'] },
    ]);
    expect(slotsByLevels(dimmed({ zones, restName: 'Niche' }), runs)).toEqual([
      { zone: null, name: 'Niche, Left', slots: ['S01', 'S02', 'S05'] },
      { zone: 'Shelf', name: 'Shelf', slots: ['S03', 'S04'] },
    ]);
    expect(slotsByLevels(dimmed({ zones }), runs.slice(2, 4))).toEqual([
      { zone: 'Shelf', name: 'the wall', slots: ['S03', 'S04'] },
    ]);
  });

  it('go by what the zone says, and by the job in the rest; its fields are its own', () => {
    const job = dimmed({ zones, lowest: 0.02 });
    expect(levelsOfZone(job, 'Shelf')).toEqual({ levels: [0.5, 0.1], lowest: 0.02, wanted_cd_per_m2: 50 });
    expect(levelsOfZone(job, 'Left')).toEqual({ levels: [0.5, 0.1], lowest: 0.02, wanted_cd_per_m2: 200 });
    expect(levelFields(job, 'Shelf').levels).toBe('dimming.zones[2].levels[1]');
    expect(levelFields(job, 'Left').wanted).toBe('light.wanted_cd_per_m2');
  });
});
