import { describe, expect, it } from 'vitest';
import { askedHeat, askJobHeat, demoJobs, type Job, newJob, type Sizing, sizeAt } from '../../src/index.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';
import type { Outcome } from '../../src/outcome.ts';

function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const demo = (id: string): Job => demoJobs.find((one) => one.id === id)!.job;
const foyer = demo('foyer-wall');
const askedOfFoyer = granted(askJobHeat(foyer));

/** The job with a strip of other watts on its data sheet, its light going with them. */
function withWatts(job: Job, watts_per_m: number): Job {
  const { channels } = granted(sizeAt(job, 'quick')).products.strip;
  const all = channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
  const share = watts_per_m / all;
  const scaled = channels.map((channel) => ({
    ...channel,
    watts_per_m: share * channel.watts_per_m,
    lumens_per_m: share * channel.lumens_per_m,
  }));
  return { ...job, strip: { ...job.strip, data: { ...job.strip.data, channels: scaled } } };
}

const failing = (sizing: Sizing): string[] =>
  sizing.findings
    .filter(({ id, status }) => id.startsWith('heat-') && status === 'fails')
    .map(({ id }) => id);

describe('the highest watts', () => {
  it('put back into the job pass, quick and careful, and four per cent more do not', () => {
    const asked = askedOfFoyer;
    expect(askedHeat.safeParse(asked).error?.issues).toBeUndefined();
    expect(asked.highestIsBounded).toBe(true);
    const highest = withWatts(foyer, asked.highestNominal_W_per_m!);
    for (const accuracy of ['quick', 'careful'] as const) {
      const sized = granted(sizeAt(highest, accuracy));
      expect(failing(sized), accuracy).toEqual([]);
      expect(sized.heat.strip_W_per_m / asked.highest_W_per_m!).toBeCloseTo(1, 2);
    }
    const more = withWatts(foyer, 1.04 * asked.highestNominal_W_per_m!);
    expect(failing(granted(sizeAt(more, 'quick')))).not.toEqual([]);
  });

  it('are judged by the warm end: less than would pass as described', () => {
    const asked = askedOfFoyer;
    const quick = granted(sizeAt(withWatts(foyer, asked.highestNominal_W_per_m!), 'quick'));
    const solder = quick.heat.temperatures.find(({ id }) => id === 'solder')!;
    expect(solder.high_degC).toBeLessThanOrEqual(75);
    expect(solder.value_degC).toBeLessThan(65);
  });
});

describe('the sweep over depth', () => {
  it('leaves a gap, with its reason, where the carrier fills the cavity, and answers all else', () => {
    const job = structuredClone(newJob());
    job.section.carrier = 'flat aluminium';
    job.section.carrierThickness_mm = 10;
    const asked = granted(askJobHeat(job));
    expect(asked.gaps.map(({ cavity_mm }) => cavity_mm)).toEqual([8]);
    expect(asked.gaps[0]!.reason).toContain('fills the cavity');
    expect(asked.byDepth).toHaveLength(13);
    expect(asked.passing_mm[0]!.from_mm).toBeGreaterThan(10);
    expect(asked.byPower).toHaveLength(7);
  });

  it('says of the depth of the job what the findings of the job say', () => {
    for (const [job, asked] of [
      [foyer, askedOfFoyer],
      [newJob(), granted(askJobHeat(newJob()))],
    ] as const) {
      const own = asked.byPower[3]!;
      const sized = granted(sizeAt(job, 'quick'));
      expect(own.passes).toBe(failing(sized).length === 0);
      const solder = sized.heat.temperatures.find(({ id }) => id === 'solder')!;
      expect(Math.abs(own.solderHigh_degC - solder.high_degC)).toBeLessThan(
        0.02 * (solder.high_degC - 25) + 0.1,
      );
    }
  });
});

describe('a profile asked of the heat', () => {
  const wall = (change: (section: Job['section']) => void): Job => {
    const job = newJob();
    Object.assign(job.panel, { width_mm: 800, height_mm: 1200 });
    Object.assign(job.section, { cavity_mm: 28, available_mm: 60 });
    change(job.section);
    return job;
  };
  const variantsOf = (job: Job) => granted(askJobHeat(job)).variants;
  const solderOf = (job: Job): number => {
    const { temperatures } = granted(sizeAt(job, 'quick')).heat;
    return temperatures.find(({ id }) => id === 'solder')!.value_degC;
  };

  it('is offered where there is none, as the job sized with it has it', () => {
    const plain = wall(() => {});
    const variant = variantsOf(plain).find(({ key }) => key === 'with-profile')!;
    expect(variant).toMatchObject({ profile: 'u-12x6', carrier: null });
    const changed = wall((section) => Object.assign(section, { profile: newProfile('u-12x6') }));
    // The same watts: what a warmer strip draws otherwise is some hundredths of a kelvin.
    expect(Math.abs(variant.solder_degC - solderOf(changed))).toBeLessThan(0.3);
    expect(Math.abs(variant.change_K - (solderOf(changed) - solderOf(plain)))).toBeLessThan(0.5);
  });

  it('is taken away where there is one, and left alone where the slot is cut to it', () => {
    const inProfile = wall((section) => Object.assign(section, { profile: newProfile('u-12x10') }));
    const keys = variantsOf(inProfile).map(({ key }) => key);
    expect(keys).toContain('without-profile');
    expect(keys).not.toContain('with-carrier');
    const without = variantsOf(inProfile).find(({ key }) => key === 'without-profile')!;
    expect(Math.abs(without.solder_degC - solderOf(wall(() => {})))).toBeLessThan(0.3);
    const recessed = wall((section) =>
      Object.assign(section, { profile: newProfile('u-12x10'), strip: 'recessed', cover: 'open' }),
    );
    recessed.slots.width_mm = 15;
    expect(variantsOf(recessed)).toEqual([]);
  });

  it('puts a flat on the joint of the job: screwed on dry it helps less than as one with the timber', () => {
    const change = (carrierFixing: Job['section']['carrierFixing']): number =>
      variantsOf(wall((section) => Object.assign(section, { carrierFixing }))).find(
        ({ key }) => key === 'with-carrier',
      )!.change_K;
    expect(change('screws or clips')).toBeGreaterThan(change(null));
    expect(change('screws or clips')).toBeLessThan(0);
  });
});
