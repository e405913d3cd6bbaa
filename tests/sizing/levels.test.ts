import { describe, expect, it } from 'vitest';
import { askJobLight, demoJobs, type Job, newJob, readJob, type Sizing, sizeJob } from '../../src/index.ts';

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

const dimmed = (change: Partial<Job['dimming']>, job = newJob()): Job => ({
  ...job,
  dimming: { ...job.dimming, ...change },
});

/** The light of a wall whose slots are all dimmed alike. */
function lit({ light: { zones } }: Sizing) {
  const [one, ...others] = zones;
  if (!one || others.length > 0) throw new RangeError(`${zones.length} zones`);
  return one;
}

const said = ({ findings }: Sizing, id: string) => findings.find((finding) => finding.id === id)!;

const atFull = dimmed({ levels: [0.3], sizeFor: 'all on' });
const limited = {
  switched: dimmed({ levels: [0.3], sizeFor: 'levels' }),
  steady: dimmed({ levels: [0.3], sizeFor: 'levels', pwm_Hz: null }),
};

describe.each(Object.entries(limited))('a wall sized for a working level of 30 %%, %s', (_, job) => {
  it('is dimmed once: the same luminance of every cut unit as when it is sized for full', () => {
    // Dimmed twice, 0.3 * 0.3, a slot was drawn at a third of its brightness.
    const seen = (sized: Sizing) =>
      sized.circuit.runs.flatMap((run) => run.unit_light.map((one) => one * lit(sized).luminance_cd_per_m2));
    const [own, full] = [seen(size(job)), seen(size(atFull))];
    for (const [i, one] of own.entries()) expect(Math.abs(one / full[i]! - 1)).toBeLessThan(0.05);
  });

  it('asks for the same strip and the same level as when it is sized for full', () => {
    const [own, full] = [job, atFull].map((each) => askJobLight(each));
    if (!own?.ok || !full?.ok) throw new Error('refused');
    // 18 lm/m sized for full became 62 sized for levels.
    expect(own.value.needed.flux_lm_per_m / full.value.needed.flux_lm_per_m).toBeCloseTo(1, 1);
    expect(own.value.needed.level / full.value.needed.level).toBeCloseTo(1, 1);
    expect(own.value.given.seen_cd_per_m2 / full.value.given.seen_cd_per_m2).toBeCloseTo(1, 1);
    expect(own.value.saving.watts / full.value.saving.watts).toBeCloseTo(1, 1);
  });
});

describe('channels under a steady limit', () => {
  it('count in the light of a unit as they are lit, and one that is off changes nothing', () => {
    const two = { ...newJob(), strip: { ...newJob().strip, entry: '24V-2x9.6W-two-white' } };
    const answer = size(dimmed({ levels: [0.2, 0], sizeFor: 'levels', pwm_Hz: null }, two));
    for (const run of answer.circuit.runs) {
      expect(run.channels[1]!.unit_light).toEqual(run.unit_light.map(() => 1));
      run.unit_light.forEach((one, unit) => {
        expect(one).toBeCloseTo(run.channels[0]!.unit_light[unit]!, 12);
        expect(one).toBeGreaterThan(0.9);
      });
    }
  });

  it('may all be off: the light question still answers, and nothing falls', () => {
    const dark = dimmed({ levels: [0], sizeFor: 'levels', pwm_Hz: null });
    expect(askJobLight(dark).ok).toBe(true);
    expect(size(dark).circuit.runs.every((run) => run.fall === 0)).toBe(true);
  });
});

describe('the three levels of an answer', () => {
  it('are full, working and lowest, each with its brightness in proportion', () => {
    const sized = size(dimmed({ levels: [0.3], lowest: 0.05 }));
    const full = sized.light.full_cd_per_m2;
    expect(lit(sized).levels).toEqual({ full: 1, working: [0.3], lowest: 0.05 });
    expect(lit(sized).luminance_cd_per_m2).toBeCloseTo(0.3 * full, 9);
    expect(lit(sized).lowest_cd_per_m2).toBeCloseTo(0.05 * full, 9);
  });

  it('leave an older job its meaning: without a lowest level it is the lowest working one that is lit', () => {
    const { lowest, ...older } = dimmed({ levels: [0.3] }).dimming;
    expect(lowest).toBeNull();
    const read = readJob({ ...newJob(), dimming: older });
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    expect(lit(size(read.value)).levels.lowest).toBe(0.3);
    expect(said(size(read.value), 'dimming-floor').value).toBe(0.3);
  });

  it('hold the lowest against the dimmer, whatever the working level is', () => {
    // 5 us at 10 kHz are 5 % of full: 4 % is below, 30 % is not.
    const deep = said(size(dimmed({ levels: [0.3], lowest: 0.04, pwm_Hz: 10_000 })), 'dimming-floor');
    expect([deep.status, deep.value, deep.limit]).toEqual(['watch', 0.04, 0.05]);
    const upsideDown = said(size(dimmed({ levels: [0.3], lowest: 0.4 })), 'dimming-floor');
    expect(upsideDown.status).toBe('watch');
    expect(upsideDown.sentence).toContain('40 %, lies above its working level');
  });
});

describe('what is said of brightness', () => {
  const tooBright = dimmed({ levels: [0.9], lowest: null });
  const tooDark = dimmed({ levels: [0.01] });

  it('names its level', () => {
    for (const job of [tooBright, tooDark, demoJobs[2]!.job]) {
      const level = `${100 * job.dimming.levels[0]!} %`;
      for (const finding of size(job).findings.filter(({ id }) => id === 'brightness' || id === 'glare'))
        expect(finding.sentence).toContain(`At the working level of ${level}`);
    }
  });

  it.each([
    ['too bright', tooBright],
    ['too dark', tooDark],
  ])('offers the very level that goes into the field: %s', (_, job) => {
    const sized = size(job);
    const [level] = lit(sized).neededLevels;
    const { remedies } = sized.findings.find(({ id }) => id === 'brightness')!;
    const sentence = `Set the working level to ${Number((100 * level!).toPrecision(4))} %.`;
    expect(remedies).toContainEqual({ field: 'dimming.levels[1]', sentence });
    const put = lit(size(dimmed({ levels: [level!] })));
    expect(put.luminance_cd_per_m2).toBeGreaterThanOrEqual(put.wanted_cd_per_m2);
    expect(put.luminance_cd_per_m2).toBeLessThan(1.05 * put.wanted_cd_per_m2);
  });

  it('compares strips at the same level: four times too bright is a quarter of the rated watts', () => {
    const sized = size(demoJobs[2]!.job);
    const ratio = lit(sized).luminance_cd_per_m2 / lit(sized).wanted_cd_per_m2;
    // 14.4 W/m rated over 3.98 are 3.6 W/m.
    const [first] = sized.findings.find(({ id }) => id === 'brightness')!.remedies;
    expect(first!.sentence).toContain(`a strip of ${(14.4 / ratio).toFixed(1)} W/m instead of 14.4 W/m`);
  });

  it('keeps the mix of two channels, and offers none where full is not enough', () => {
    const two = { ...newJob(), strip: { ...newJob().strip, entry: '24V-2x9.6W-two-white' } };
    const sized = size(dimmed({ levels: [0.2, 0.1], sizeFor: 'levels', pwm_Hz: null }, two));
    const [warm, cool] = lit(sized).neededLevels;
    expect(warm! / cool!).toBeCloseTo(2, 1);
    const dim = { ...newJob(), light: { ...newJob().light, wanted_cd_per_m2: 5000 } };
    expect(lit(size(dim)).neededLevels).toEqual([]);
    expect(said(size(dim), 'brightness').sentence).toContain('At full it reaches');
  });
});
