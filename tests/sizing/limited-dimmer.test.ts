import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

/** Sixty slots of 14.4 W/m on 2.5 mm2, which fail on heat fully on. */
function wall(change: Partial<Job['dimming']>): Job {
  const { job } = demoJobs.find(({ id }) => id === 'foyer-wall')!;
  return {
    ...job,
    cables: { ...job.cables, entry: '2.5mm2' },
    dimming: { ...job.dimming, levels: [0.155], sizeFor: 'levels', pwm_Hz: 4000, ...change },
  };
}

const pulsed = size(wall({}));
const steady = size(wall({ pwm_Hz: null }));

const statusOf = ({ findings }: Sizing, id: string) => findings.find((finding) => finding.id === id)!.status;
const rows = ({ schedules }: Sizing, id: string) => schedules.find((schedule) => schedule.id === id)!;

describe.each([
  ['switched', pulsed],
  ['steady', steady],
])('a job sized for a limited dimmer, %s', (_, answer) => {
  const { sentence } = answer.conditions[0]!;

  it('says so in one sentence with the level as entered, who sets it, and that no user undoes it', () => {
    expect(answer.conditions.map(({ id }) => id)).toEqual(['dimmer-limit']);
    expect(sentence).toContain('unable to go above 15.5 % of full by whoever commissions it');
    expect(sentence).toContain('where no user of the wall can undo it');
  });

  it('says it in a finding that never passes, in the cautions, the driver schedule and the test sheet', () => {
    const finding = answer.findings.find(({ id }) => id === 'dimmer-limit')!;
    expect([finding.status, finding.value, finding.sentence]).toEqual(['watch', 0.155, sentence]);
    expect(answer.cautions[0]).toMatchObject({ id: 'dimmer-limit', sentence });
    expect(rows(answer, 'drivers').notes[0]).toBe(sentence);
    const steps = rows(answer, 'test-sheet').rows.map((row) => String(row[1]));
    const [limit, hour] = [sentence, 'after one hour'].map((words) =>
      steps.findIndex((step) => step.includes(words)),
    );
    expect(limit).toBeGreaterThan(0);
    expect(limit, 'shown before the wall burns for an hour').toBeLessThan(hour!);
  });

  it('passes no temperature of the section or of a driver', () => {
    const warm = answer.findings.filter(({ id }) => /^heat-|^driver-(ambient|case)/.test(id));
    expect(warm.length).toBeGreaterThan(5);
    for (const { id, status, value, sentence: said } of warm) {
      expect(status, id).not.toBe('passes');
      if (value !== null) expect(said).toContain('unable to go above 15.5 % of full');
    }
  });
});

describe('what else rests on the limit', () => {
  const electrical = ['voltage-drop', 'light-fall', 'cable-capacity', 'driver-load', 'driver-current'];

  it('is nothing electrical where the dimmer switches: each pulse is full', () => {
    const full = size(wall({ sizeFor: 'all on' }));
    for (const id of electrical) expect(statusOf(pulsed, id), id).toBe(statusOf(full, id));
    for (const id of electrical)
      expect(pulsed.findings.find((finding) => finding.id === id)!.sentence, id).not.toContain(
        'unable to go above',
      );
    // What lies together beyond the tables is never passed, dimmed or not.
    expect(electrical.filter((id) => statusOf(pulsed, id) !== 'passes')).toEqual(['cable-capacity']);
  });

  it('is every current where the dimmer lowers it steadily', () => {
    for (const id of electrical) expect(statusOf(steady, id), id).toBe('watch');
  });
});

describe('a job sized for full', () => {
  it.each([
    ['all on', newJob()],
    ['levels that are full', wall({ levels: [1] })],
  ])('rests on no condition: %s', (_, job) => {
    const answer = size(job);
    expect(answer.conditions).toEqual([]);
    expect(answer.findings.map(({ id }) => id)).not.toContain('dimmer-limit');
    expect(answer.cautions.map(({ id }) => id)).not.toContain('dimmer-limit');
    expect(rows(answer, 'drivers').notes.filter((note) => /dimmer|level/.test(note))).toEqual([]);
    expect(JSON.stringify(rows(answer, 'test-sheet'))).not.toContain('limit of the dimmer');
  });
});

describe('channels with levels of their own', () => {
  it('are each named with theirs', () => {
    const base = wall({ levels: [0.3, 0.055] });
    const two = size({ ...base, strip: { ...base.strip, entry: '24V-2x9.6W-two-white' } });
    expect(two.conditions[0]!.levels).toEqual([0.3, 0.055]);
    expect(two.conditions[0]!.sentence).toMatch(/above 30 % \([^)]+\) and 5.5 % \([^)]+\) of full/);
  });
});
