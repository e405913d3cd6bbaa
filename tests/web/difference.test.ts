import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { isSameJob } from '../../src/job/job-differences.ts';
import { differences, differenceText } from '../../web/state/difference.ts';
import { nextRevision } from '../../web/state/next-revision.ts';

const job = () => structuredClone(demoJobs[0]!.job);

describe('what differs between two versions of a job', () => {
  it('is nothing for the same job, in whatever order its keys stand', () => {
    const turned = Object.fromEntries(Object.entries(job()).reverse()) as ReturnType<typeof job>;
    expect(isSameJob(job(), turned)).toBe(true);
    expect(differences(job(), turned)).toEqual([]);
  });

  it('is named by its field, with its unit and ratios in percent', () => {
    const after = job();
    after.panel.width_mm = 1700;
    after.drivers.reserve = 0.25;
    after.title.client = '';
    expect(differences(job(), after).map(differenceText)).toEqual([
      'Client: Practice Rooms Ltd became nothing',
      'Panel width: 1,620 mm became 1,700 mm',
      expect.stringMatching(/20 % became 25 %$/),
    ]);
    expect(isSameJob(job(), after)).toBe(false);
  });

  it('covers lists that grow and ways of giving the slots', () => {
    const after = job();
    after.slots = { from: 'segments', width_mm: 18, segments: [] };
    after.drivers.places = [];
    const fields = differences(job(), after).map(({ field }) => field);
    expect(fields).toContain('slots.from');
    expect(fields).toContain('drivers.places');
    expect(differences(job(), after)).toHaveLength(new Set(fields).size);
  });
});

describe('the next revision', () => {
  it.each([
    ['A', 'B'],
    ['Z', 'AA'],
    ['1', '2'],
    ['09', '10'],
    ['C2', 'C3'],
    ['', 'A'],
    ['AZ', undefined],
  ])('after %j is %j', (revision, next) => {
    expect(nextRevision(revision)).toBe(next);
  });
});
