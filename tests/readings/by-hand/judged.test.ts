import { describe, expect, it } from 'vitest';
import type { JudgedReadings, WrittenRow } from '../../../src/answer/asked.ts';
import type { Job } from '../../../src/job/job.ts';
import { judgeReadings, measuredJob, modelOfReadings } from '../../../src/readings/judge-readings.ts';
import { readingsOf } from '../../../src/readings/readings.ts';
import { wallOf } from '../../sizing/small-wall/small-wall.ts';
import { granted } from '../site.ts';

/** Two runs of 1 m and 2.4 W, 0.1 A each. */
const job = wallOf([600, 900]);

const keys = { loop: 'loop_ohm', noLoad: 'noLoad_V', loaded: 'loaded_V', current: 'current_A' } as const;
type Written = Record<string, Omit<WrittenRow, 'row'>>;

/** The whole test sheet as predicted, some of its boxes changed by so much. */
function written(changes: Written = {}): WrittenRow[] {
  const rows: Record<string, Record<string, number | 'OL'>> = {};
  for (const { row, quantity, predicted } of granted(judgeReadings(job, [])).rows) {
    const change = changes[row]?.[keys[quantity]] ?? 0;
    const value = change === 'OL' ? change : predicted + change;
    rows[row] = { ...rows[row], [keys[quantity]]: value };
  }
  return Object.entries(rows).map(([row, values]) => ({ row, ...values }));
}

const judged = (changes: Written = {}): JudgedReadings => granted(judgeReadings(job, written(changes)));

const judgementOf = ({ rows }: JudgedReadings, row: string, quantity: string) =>
  rows.find((one) => one.row === row && one.quantity === quantity)?.judgement;

describe('a test sheet', () => {
  it('nothing is written on judges nothing', () => {
    const { rows, ...rest } = granted(judgeReadings(job, []));
    expect(new Set(rows.map(({ judgement }) => judgement))).toEqual(new Set(['not measured']));
    expect(new Set(rows.map(({ row }) => row))).toEqual(
      new Set(['D1.1', 'S01-F1', 'S01 finish', 'S02-F1', 'S02 finish']),
    );
    expect(rest).toMatchObject({ verdict: 'cannot tell', suspects: [], readingCount: 0 });
    expect(rest.sentence).toMatch(/no reading to judge/);
  });

  it('filled in as predicted agrees, every box in its band', () => {
    const answer = judged();
    expect(answer).toMatchObject({ verdict: 'as predicted', suspects: [], readingCount: answer.rows.length });
    expect(answer.chiSquare).toBeCloseTo(0, 3);
    expect(answer.goodFit).toBeGreaterThan(answer.readingCount);
    expect(new Set(answer.rows.map(({ judgement }) => judgement))).toEqual(new Set(['in band']));
  });

  it('counts only the boxes that are filled in', () => {
    const one = written().filter(({ row }) => row === 'S01-F1');
    const answer = granted(judgeReadings(job, one));
    expect(answer.readingCount).toBe(4);
    expect(judgementOf(answer, 'S01-F1', 'loaded')).toBe('in band');
    expect(judgementOf(answer, 'S02-F1', 'loaded')).toBe('not measured');
  });
});

describe('what is wrong', () => {
  it('is an extra resistance, with its size and its place in the job', () => {
    // 0.8 ohm in each loop through the feed of S01, and some 0.1 A times it, 0.08 V, off its volts.
    const answer = judged({
      'S01-F1': { loop_ohm: 0.8, loaded_V: -0.078 },
      'S01 finish': { loop_ohm: 0.8, loaded_V: -0.078 },
    });
    expect(judgementOf(answer, 'S01-F1', 'loop')).toBe('above band');
    expect(judgementOf(answer, 'S02-F1', 'loop')).toBe('in band');
    const [first] = answer.suspects;
    expect(first).toMatchObject({ kind: 'resistance', place: { run: 'S01' } });
    expect(first!.name).toContain('S01-F1');
    expect(first!.ohm).toBeCloseTo(0.8, 1);
    expect(first!.ohmSpread).toBeGreaterThan(0);
    expect(first!.posterior).toBeGreaterThan(0.5);
    expect(answer.chiSquare).toBeLessThan(answer.goodFit);
  });

  it('is a run without current, which has no ohms', () => {
    // 0.1 A less through S01 and from the output; its volts as without load.
    const drops = granted(judgeReadings(job, [])).rows.filter((one) => one.quantity === 'loaded');
    const rise = (row: string) => 24 - drops.find((one) => one.row === row)!.predicted;
    const amps = granted(judgeReadings(job, [])).rows.find(
      (one) => one.row === 'S01-F1' && one.quantity === 'current',
    )!.predicted;
    const answer = judged({
      'D1.1': { current_A: -amps },
      'S01-F1': { current_A: -amps, loaded_V: rise('S01-F1') },
      'S01 finish': { loaded_V: rise('S01 finish') },
    });
    expect(judgementOf(answer, 'S01-F1', 'current')).toBe('below band');
    expect(answer).toMatchObject({ verdict: 'found' });
    expect(answer.suspects).toEqual([
      {
        ...{ kind: 'missing run', name: 'S01', place: { run: 'S01' }, ohm: null, ohmSpread: null },
        posterior: expect.closeTo(1, 1),
      },
    ]);
  });
});

describe('the model of the readings asked about', () => {
  /** Two channels of 0.25 and 0.75 of their amps: the volts of a feed are to the mean of its returns, of an end the lower. */
  const twoChannels = wallOf([600, 900], (one) => {
    one.strip.entry = '24V-2x9.6W-two-white';
    Object.assign(one.dimming, { levels: [0.25, 0.75], sizeFor: 'levels', pwm_Hz: null });
  });

  /** Fed at both ends, an end is measured at its feed, a millivolt above its last unit: 0.3 A through half a unit of rails. */
  const bothEnds = wallOf([600, 900], (one) => {
    one.strip.entry = '24V-14.4W';
    one.feeds.arrangement = 'both';
  });

  /** A level run of 12 m of reels of 5 m: joints of 0.5 ohm where one ends, fed at an end or also in between. */
  const threeReels = (arrangement: Job['feeds']['arrangement']) =>
    wallOf([], (one) => {
      Object.assign(one.panel, { width_mm: 13000 });
      if (one.slots.from === 'segments')
        one.slots.segments = [{ x0_mm: 500, y0_mm: 1000, x1_mm: 12500, y1_mm: 1000 }];
      Object.assign(one.feeds, { arrangement, joint_mohm: 500 });
    });

  it.each([
    ['one channel', job],
    ['three reels', threeReels('start')],
    ['three reels, fed between', threeReels('between')],
    ['two channels', twoChannels],
    ['fed at both ends', bothEnds],
  ])('predicts them in their order, by their own row and quantity: %s', (_, asked) => {
    const measured = granted(measuredJob(asked));
    const readings = readingsOf(measured.rows, new Map()).toReversed();
    const predicted = modelOfReadings(measured, readings).at([], { kind: 'none' }).predict({ kind: 'none' });
    for (const [i, reading] of readings.entries())
      expect(predicted[i], `${reading.row} ${reading.quantity}`).toBeCloseTo(reading.predicted, 3);
  });
});

describe('what is refused', () => {
  const codesOf = (outcome: ReturnType<typeof judgeReadings>): string[] =>
    outcome.ok ? [] : outcome.issues.map(({ code }) => code);

  it('is a job that cannot be sized, and rows the sheet does not have', () => {
    const unknown = wallOf([600], (one) => {
      one.strip.entry = 'none';
    });
    expect(codesOf(judgeReadings(unknown, []))).toEqual(['unknown-entry']);
    expect(codesOf(judgeReadings(job, [{ row: 'S09-F1', loaded_V: 24 }]))).toEqual(['no-such-row']);
  });
});
