import { describe, expect, it } from 'vitest';
import { type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';

function sized(change: (job: Job) => void): Sizing {
  const job = newJob();
  change(job);
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const scheduleOf = (sizing: Sizing, id: string) => sizing.schedules.find((schedule) => schedule.id === id)!;

const column = (sizing: Sizing, id: string, key: string) => {
  const { columns, rows } = scheduleOf(sizing, id);
  return rows.map((row) => String(row[columns.findIndex((each) => each.key === key)]));
};

/** The catalogue's cable is "2 × 1.5 mm² fine-wire". */
describe('the name of a cable', () => {
  it.each([
    ['two cores', 2, () => {}],
    ['one core where plus and minus part', 1, (job: Job) => (job.feeds.arrangement = 'crossed')],
    [
      'three cores for two channels',
      3,
      (job: Job) => {
        job.strip.entry = '24V-2x9.6W-two-white';
        job.drivers.entry = '24V-200W';
        job.dimming.levels = [0.2, 0.2];
      },
    ],
  ])('says %s, in schedule and bill alike', (_, cores, change) => {
    const sizing = sized(change);
    const name = `${cores} × 1.5 mm² fine-wire`;
    expect(new Set(column(sizing, 'cables', 'type'))).toEqual(new Set([name]));
    expect(column(sizing, 'bill', 'description')).toContain(
      `${name}, ${cores} ${cores === 1 ? 'core' : 'cores'}`,
    );
  });
});

describe('a row of the test sheet on a trunk', () => {
  it('names the lead that comes off the driver and where the way ends, not every cable between', () => {
    const sizing = sized((job) => (job.cables.layout = 'trunk'));
    for (const step of column(sizing, 'test-sheet', 'step'))
      expect(step.match(/C\d+/g)?.length ?? 0).toBeLessThanOrEqual(3);
    expect(
      column(sizing, 'test-sheet', 'step').some((step) => /^C\d+, which leads on to C\d+, off D/.test(step)),
    ).toBe(true);
  });
});
