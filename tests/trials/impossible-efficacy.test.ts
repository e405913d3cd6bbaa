import { describe, expect, it } from 'vitest';
import { type Job, newJob, sizeJob } from '../../src/index.ts';
import { luminousBound } from '../../src/job/luminous-bound.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';

const white = stripCatalogue.find(({ id }) => id === '24V-9.6W')!.channels[0]!;

/** A wall with one strip of 9.6 W/m that gives the lumens asked. */
function wall(lumens_per_m: number, channel: Partial<typeof white> = {}): Job {
  const job = newJob();
  const channels = [{ ...white, watts_per_m: 9.6, lumens_per_m, ...channel }];
  return {
    ...job,
    strip: { ...job.strip, entry: '24V-9.6W', data: { channels } },
    drivers: { ...job.drivers, entry: '24V-240W' },
  };
}

function answer(job: Job) {
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const solder_degC = (job: Job): number =>
  answer(job).heat.temperatures.find(({ id }) => id === 'solder')!.value_degC;

describe('a slip of the pen that cooled the wall: 4,800 lm/m from 9.6 W/m', () => {
  it('is refused, with the field, the lumens of a watt and what light can carry', () => {
    const outcome = sizeJob(wall(4800));
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    // 4800 / 9.6 = 500 lm/W.
    expect(outcome.issues).toMatchObject([
      {
        code: 'light-without-watts',
        place: { field: 'strip.data.channels[1].lumens_per_m' },
        quantities: { given_lm_per_W: 500, most_lm_per_W: 350 },
      },
    ]);
    expect(outcome.issues[0]!.sentence).toContain('500 lm for each watt');
  });

  it('is refused from 350 lm/W on, the most that white light of the CIE spectra carries, and not below', () => {
    expect(sizeJob(wall(9.6 * 350)).ok).toBe(true);
    expect(sizeJob(wall(9.6 * 350 + 1)).ok).toBe(false);
  });

  it('is asked after from 200 lm/W on', () => {
    const found = (lumens_per_m: number) =>
      answer(wall(lumens_per_m)).findings.find(({ id }) => id === 'strip-efficacy');
    expect(found(9.6 * 200)).toBeUndefined();
    expect(found(9.6 * 250)).toMatchObject({
      status: 'watch',
      value: 250,
      limit: 200,
      margin: -50,
      unit: 'lm/W',
    });
  });

  it('does not cool the wall: more lumens than 200 a watt take no more heat away', () => {
    const at200 = answer(wall(9.6 * 200)).heat;
    const at340 = answer(wall(9.6 * 340)).heat;
    expect(at340.heat_W_per_m).toBeCloseTo(at200.heat_W_per_m, 9);
    expect(solder_degC(wall(9.6 * 340))).toBeCloseTo(solder_degC(wall(9.6 * 200)), 9);
    expect(solder_degC(wall(9.6 * 100))).toBeGreaterThan(solder_degC(wall(9.6 * 200)) + 1);
  });
});

describe('coloured channels', () => {
  it('carry by hue what V(lambda) allows, 683 lm/W where no hue is named', () => {
    const bound = (name: string): number => luminousBound({ name, cct_K: null }).most_lm_per_W;
    // CIE 018:2019 (from memory): V(555) 1, V(610) 0.503, V(480) 0.13902; 683 * 0.503 = 344, 683 * 0.13902 = 95.
    expect(bound('green')).toBe(683);
    expect(bound('')).toBe(683);
    expect(bound('Deep red 660')).toBe(344);
    expect(bound('blue')).toBe(95);
    expect(bound('red and blue')).toBe(683);
    expect(luminousBound({ name: 'white', cct_K: 3000 }).most_lm_per_W).toBe(350);
  });

  it('are refused above their hue and warm the wall by no less than their lumens leave', () => {
    const blue = { name: 'blue', cct_K: null };
    expect(sizeJob(wall(9.6 * 95, blue)).ok).toBe(true);
    expect(sizeJob(wall(9.6 * 96, blue)).ok).toBe(false);
    // 100 lm/W of green are at least 100/683 of the watts, and no more is taken as light.
    const { heat, light } = answer(wall(960, { name: 'green', cct_K: null }));
    const leaving = light.outFraction * (100 / 683);
    expect(heat.heat_W_per_m / heat.strip_W_per_m).toBeCloseTo(1 - leaving, 9);
  });
});

describe('the catalogue', () => {
  it('promises nothing doubtful', () => {
    for (const { channels } of stripCatalogue)
      for (const channel of channels) {
        const given = channel.lumens_per_m / channel.watts_per_m;
        expect(given).toBeLessThanOrEqual(Math.min(200, luminousBound(channel).most_lm_per_W));
      }
  });
});
