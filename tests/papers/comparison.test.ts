import { describe, expect, it } from 'vitest';
import { comparisonOf } from '../../server/papers/comparison.ts';
import type { Finding } from '../../src/answer/findings.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import { demoJobs } from '../../src/index.ts';

const { job } = demoJobs[0]!;

const finding = (id: string, value: number, status: Finding['status']): Finding => ({
  ...{
    id,
    value,
    status,
    question: 'circuit',
    place: {},
    title: `Check ${id}`,
    limit: 5,
    margin: 0,
    unit: id === 'ripple' ? 'lx' : 'ratio',
  },
  ...{ basis: '', sentence: '', remedies: [] },
});

const column = (key: string, unit: string, digits: number) => ({ key, label: key, unit, digits });

const cables = (...rows: Schedule['rows']): Schedule => ({
  id: 'cables',
  title: 'Cables',
  columns: [column('ref', '', 0), column('type', '', 0), column('cut', 'mm', 0), column('dropLow', 'V', 2)],
  rows,
  notes: [],
});

const before = {
  job,
  findings: [
    finding('drop', 0.03, 'passes'),
    finding('fall', 0.02, 'passes'),
    finding('ripple', 40, 'watch'),
  ],
  schedules: [cables(['C01', '1.5', 1000, 1], ['C02', '1.5', 2000, 1], ['C03', '1.5', 3000, 1])],
};

describe('two issues compared', () => {
  it('are the same where nothing differs, the letter and the date of the issue aside', () => {
    const title = { ...job.title, revision: 'B', date: '2026-04-01' };
    expect(comparisonOf(before, { ...before, job: { ...job, title } })).toEqual({
      made: [],
      became: [],
      shifts: '',
    });
  });

  // 2 % to 2.08 % is 4 % more and 1000 to 1040 mm too: shifts. 3 % to 6 % doubles, and fails; 2000 to 3000 mm is a third.
  it('say what the maker changed, then verdicts and what moved much, and all shifts in one line', () => {
    const now = {
      job: { ...job, panel: { ...job.panel, width_mm: 1800 }, drivers: { ...job.drivers, reserve: 0.25 } },
      findings: [
        finding('drop', 0.06, 'fails'),
        finding('fall', 0.0208, 'passes'),
        finding('ripple', 20, 'passes'),
      ],
      schedules: [cables(['C01', '2.5', 1040, 9], ['C02', '2.5', 3000, 9], ['C04', '1.5', 10, 1])],
    };
    expect(comparisonOf(before, now)).toEqual({
      made: [
        { label: 'Panel width', before: '1,620 mm', after: '1,800 mm' },
        { label: expect.stringMatching(/[Rr]eserve/), before: '20 %', after: '25 %' },
      ],
      became: [
        'Check drop: 3.00 %, passes → 6.00 %, fails',
        'Check ripple: 40 lx, a warning → 20 lx, passes',
        'Cables: C04 new',
        'Cables: C03 no longer there',
        'Cables, type: 2 rows, most at C01: 1.5 → 2.5',
        'Cables, cut: 2 rows, most at C02: 2,000 → 3,000 mm',
      ],
      shifts: 'Check fall',
    });
  });

  it('leave out of what an earlier engine wrote otherwise only that', () => {
    const now = {
      schedules: [cables(['C01', '1.5', 1001, 1], ['C02', '1.5', 2000, 1], ['C03', '1.5', 3000, 1])],
    };
    expect(comparisonOf({ schedules: before.schedules }, now)).toEqual({
      made: [],
      became: [],
      shifts: 'Cables, cut (1 row)',
    });
  });
});
