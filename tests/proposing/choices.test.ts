import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import { job as schema } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { openables } from '../../src/job/open-choices.ts';
import { choicesOf } from '../../src/proposing/choices.ts';
import { spaceOf } from '../../src/proposing/space.ts';

const all = new Set(openables);

describe('what there is to choose from', () => {
  it('is what the job has where nothing is open', () => {
    for (const { job } of demoJobs) expect(spaceOf(job, new Set()).allowedCount).toBe(1);
  });

  it('begins with what the job has', () => {
    const { job } = demoJobs[2]!;
    const choices = choicesOf(job, all);
    expect(choices.strips[0]).toMatchObject({ entry: job.strip.entry });
    expect(choices.depths_mm[0]).toBe(job.section.cavity_mm);
    expect(choices.cabling(job.cables.layout)[0]).toMatchObject({ entry: job.cables.entry });
    expect(choices.drivers[0]).toMatchObject({ entry: job.drivers.entry, data: job.drivers.data });
  });

  it('has strips of as many channels, drivers that dim alike, trunks no thinner than branches', () => {
    const two = choicesOf(demoJobs[3]!.job, all);
    expect(two.strips).toHaveLength(1);
    const foyer = choicesOf(demoJobs[2]!.job, all);
    expect(foyer.strips).toHaveLength(10);
    expect(foyer.drivers).toHaveLength(33);
    expect(foyer.drivers.every(({ data }) => data.control === '1-10 V')).toBe(true);
    const pairs = foyer.cabling('trunk');
    // Six cables with each other no thinner: 6 + 5 + 4 + 3 + 2 + 1, the present pair once.
    expect(pairs).toHaveLength(21);
    expect(pairs.every(({ area_mm2, trunk_mm2 }) => trunk_mm2 >= area_mm2)).toBe(true);
  });

  it('takes the deepest cavity that fits first, then shallower ones', () => {
    // 38 mm less 1.5 of tolerance, 6 of backing, 12 of front.
    const { depths_mm } = choicesOf(demoJobs[2]!.job, all);
    expect(depths_mm).toEqual([22, 18.5, 16.5, 14.5, 12.5, 10.5, 8.5]);
  });

  it('makes jobs that can be read', () => {
    const choices = choicesOf(newJob(), all);
    for (const slots of choices.pitches) expect(schema.safeParse({ ...newJob(), slots }).success).toBe(true);
    expect(choices.pitches).toHaveLength(3);
  });
});
