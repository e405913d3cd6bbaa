import { describe, expect, it } from 'vitest';
import { bill } from '../../src/hand-over/bill.ts';
import { cablesSchedule } from '../../src/hand-over/cables-schedule.ts';
import { cuttingList } from '../../src/hand-over/cutting-list.ts';
import { driversSchedule } from '../../src/hand-over/drivers-schedule.ts';
import { feedPointsSchedule } from '../../src/hand-over/feed-points-schedule.ts';
import type { CautionContext } from '../../src/hand-over/input.ts';
import { protectionSchedule } from '../../src/hand-over/protection-schedule.ts';
import { reelsSchedule } from '../../src/hand-over/reels-schedule.ts';
import { type TestRow, testRows } from '../../src/hand-over/test-sheet.ts';
import { type Job, newJob, sizeJob } from '../../src/index.ts';
import { byHand, column, rowsOf } from './rows.ts';

/**
 * Two upright slots at 350 and 650 mm from the left on a panel of 1,000 by 700 mm, from 100 mm up to 600 mm: 10 cut
 * units of 50 mm each. One driver at 200 mm, 140 mm below the panel; cable way 40 mm up; tails of 300 mm, a tenth more;
 * 1.5 mm2 has 13.3 ohm/km (IEC 60228, class 5), a contact at a pad 5 mohm.
 */
function sized(change: (job: Job) => void): CautionContext {
  const job = newJob();
  Object.assign(job.panel, { width_mm: 1000, height_mm: 700 });
  job.slots = {
    ...{ from: 'generator', axis: 'upright', width_mm: 20 },
    ...{ left_mm: 200, right_mm: 200, foot_mm: 100, head_mm: 100 },
    spacing: { by: 'pitch', pitch_mm: 300 },
  };
  change(job);
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return { ...outcome.value, job };
}

/** What the circuit answers for a run, by key. */
const solved = ({ circuit }: CautionContext, run: string) => circuit.runs.find((each) => each.run === run)!;
const feed = (input: CautionContext, run: string, i = 0) => solved(input, run).feed_A[i]!;

const row = (input: CautionContext, id: string): TestRow => testRows(input).find((each) => each.id === id)!;

// The slots of this one reach from 100 to 610 mm: 10 units, 5 mm dark at either end.
const trunk = sized((job) => {
  job.cables.layout = 'trunk';
  if (job.slots.from === 'generator') job.slots.head_mm = 90;
});

describe('a trunk with two taps', () => {
  // C01: 180 up, 150 along, one tail: (330 + 300) x 1.1 = 693; C02: 300 between the taps, no tail: 330;
  // C03 and C04: 65 up from a tap, two tails: 665 x 1.1 = 731.5.
  const way_mm = [330, 300, 65, 65];
  const cut_mm = [693, 330, 731.5, 731.5];

  it('has a cable to each tap and a branch from each, cut as worked out', () => {
    const cables = cablesSchedule(trunk);
    expect(column(cables, 'cable')).toEqual(['C01', 'C02', 'C03', 'C04']);
    expect(column(cables, 'from')).toEqual(['D1.1', 'D1.1-T1', 'D1.1-T1', 'D1.1-T2']);
    expect(column(cables, 'to')).toEqual(['S01-F1, S02-F1', 'S02-F1', 'S01-F1', 'S02-F1']);
    expect(column(cables, 'route')).toEqual(way_mm.map((x) => expect.closeTo(x, 9)));
    expect(column(cables, 'cut')).toEqual(cut_mm.map((x) => expect.closeTo(x, 9)));
    // Out and back: 2 x 13.3 mohm for every metre.
    expect(column(cables, 'loop')).toEqual(cut_mm.map((x) => expect.closeTo((2 * 13.3 * x) / 1e6, 12)));
    expect(new Set(column(cables, 'cores'))).toEqual(new Set([2]));
    expect(new Set(column(cables, 'type'))).toEqual(new Set(['2 × 1.5 mm² fine-wire']));
    expect(column(bill(trunk), 'description')).toContain('2 × 1.5 mm² fine-wire, 2 cores');
    expect(new Set(column(cables, 'polarity'))).toEqual(new Set(['plus and minus']));
    expect(new Set(column(cables, 'circuit'))).toEqual(new Set(['D1.1']));
  });

  it('lets the first cable carry both runs, and sets the further one against the limit', () => {
    const cables = cablesSchedule(trunk);
    const watts = ['S01', 'S02'].map((id) => feed(trunk, id).current_A * feed(trunk, id).terminal_V);
    expect(column(cables, 'load')).toEqual(
      [watts[0]! + watts[1]!, watts[1], watts[0], watts[1]].map((x) => expect.closeTo(x!, 12)),
    );
    // S02 lies behind one more length of trunk, so that it stands lower.
    const { lowest_V, drop_V } = solved(trunk, 'S02');
    expect(lowest_V).toBeLessThan(solved(trunk, 'S01').lowest_V);
    expect(column(cables, 'lowest')).toEqual([lowest_V, lowest_V, solved(trunk, 'S01').lowest_V, lowest_V]);
    expect(column(cables, 'wholeDrop')).toEqual([drop_V, drop_V, solved(trunk, 'S01').drop_V, drop_V]);
  });

  it('orders 3 m of cable, four fuses, four terminals and two taps', () => {
    // 693 + 330 + 2 x 731.5 = 2,486 mm.
    const rows = rowsOf(bill(trunk)).map(({ item, quantity, spare, total, unit }) => [
      ...[item, quantity, spare, total, unit],
    ]);
    expect(rows).toEqual([
      ['Strip', 1, 0, 1, 'reel'],
      ['Cable', 3, 1, 4, 'm'],
      ['Driver', 1, 1, 2, 'piece'],
      ['Fuse with holder', 4, 1, 5, 'piece'],
      ['Terminal at the strip', 4, 1, 5, 'piece'],
      ['Tap', 2, 1, 3, 'piece'],
    ]);
  });

  it('predicts loops along the trunk and its branch, a contact at the pad alone', () => {
    // mohm: C01 18.4338, C02 8.778, branches 19.4579 each, two contacts 10, half a metre of two rails of 82.1: 82.1.
    const s01_ohm = 0.0184338 + 0.0194579 + 0.01;
    const s02_ohm = s01_ohm + 0.008778;
    expect(row(trunk, 'S01-F1').loop!.predicted).toBeCloseTo(s01_ohm, 12);
    expect(row(trunk, 'S01 finish').loop!.predicted).toBeCloseTo(s01_ohm + 0.0821, 12);
    expect(row(trunk, 'S02-F1').loop!.predicted).toBeCloseTo(s02_ohm, 12);
    expect(row(trunk, 'S02 finish').loop!.predicted).toBeCloseTo(s02_ohm + 0.0821, 12);
    expect(row(trunk, 'S02 finish').loop!.low).toBeCloseTo(0.85 * (s02_ohm + 0.0821), 12);
    expect(row(trunk, 'S02 finish').loop!.high).toBeCloseTo(1.1 * (s02_ohm + 0.0821) + 0.1, 12);
    // Both conductors of three cables, in order, a contact at the last.
    expect(row(trunk, 'S02-F1').path!.leads.map(({ cable, contact_ohm }) => [cable, contact_ohm])).toEqual([
      ...[['C01', 0] as const, ['C02', 0] as const, ['C04', 0.005] as const],
      ...[['C01', 0] as const, ['C02', 0] as const, ['C04', 0.005] as const],
    ]);
  });

  it('takes its volts and amps from the circuit', () => {
    for (const id of ['S01', 'S02']) {
      expect(row(trunk, `${id}-F1`).loaded!.predicted).toBe(feed(trunk, id).terminal_V);
      expect(row(trunk, `${id}-F1`).current!.predicted).toBe(feed(trunk, id).current_A);
      expect(row(trunk, `${id} finish`).loaded!.predicted).toBe(solved(trunk, id).unit_V.at(-1));
    }
    // Nominal 24 V, six lamps of 2.9 V: gain 24 / 6.6; 0.1 + 0.03 x 24 / 6.6 = 0.20909 either way.
    const amps = trunk.drivers.drivers[0]!.outputs[0]!.current_A;
    const { current } = row(trunk, 'D1.1');
    expect(current!.predicted).toBe(amps);
    expect(current!.low).toBeCloseTo(amps * (1 - (0.1 + 0.72 / 6.6)), 12);
    expect(current!.high).toBeCloseTo(amps * (1 + (0.1 + 0.72 / 6.6)), 12);
  });

  it('says where the leads begin, and where on the wall the strip is fed, cut and left dark', () => {
    expect(row(trunk, 'S01-F1').step).toMatch(/^C01, which leads on to C03, off D1\.1, link /);
    expect(row(trunk, 'S02-F1').step).toBe(
      'C01, which leads on to C04, off D1.1, link plus and minus at the pads: loop. Link OUT, tick. All lit: volts at the pads, amps in series at the fuse of C04.',
    );
    const [f1, f2] = rowsOf(feedPointsSchedule(trunk));
    expect(f1).toMatchObject({ slot: 'S01', run: 'S01', x: 350, y: 105, at: 'start', along: 0, cutLine: 0 });
    expect(f2).toMatchObject({ feedPoint: 'S02-F1', x: 650, y: 105, cable: 'C04', output: 'D1.1' });
    expect(f2).toMatchObject({ current: feed(trunk, 'S02').current_A, volts: feed(trunk, 'S02').terminal_V });
    const piece = { reel: 'R1', units: 10, unit: 50, length: 500, joint: '', darkStart: 5, darkFinish: 5 };
    expect(rowsOf(cuttingList(trunk))).toEqual(
      byHand({ piece: 'S01-A', slot: 'S01', ...piece }, { piece: 'S02-A', slot: 'S02', ...piece }),
    );
    expect(rowsOf(reelsSchedule(trunk))).toEqual(
      byHand({
        ...{ reel: 'R1', strip: '24 V 2.4 W/m, 120 LEDs/m', length: 5000 },
        ...{ pieces: 'S01-A to 500, S02-A to 1000', used: 1000, left: 4000 },
      }),
    );
  });
});

const crossed = sized((job) => (job.feeds.arrangement = 'crossed'));

describe('crossed feeds', () => {
  // Way 180 up and 150 or 450 along, then 60 up to a start or 560 to a finish; two tails, a tenth more.
  // (390 + 600) x 1.1 = 1,089; (890 + 600) x 1.1 = 1,639; 690: 1,419; 1,190: 1,969.
  const cut_mm = [1089, 1639, 1419, 1969];

  it('have single conductors, plus to the start and minus to the finish, each with the whole load of its run', () => {
    const cables = cablesSchedule(crossed);
    expect(column(cables, 'to')).toEqual(['S01-F1', 'S01-F2', 'S02-F1', 'S02-F2']);
    expect(column(cables, 'polarity')).toEqual(['plus only', 'minus only', 'plus only', 'minus only']);
    expect(column(cables, 'cores')).toEqual([1, 1, 1, 1]);
    expect(new Set(column(cables, 'type'))).toEqual(new Set(['1 × 1.5 mm² fine-wire']));
    expect(column(cables, 'cut')).toEqual(cut_mm.map((x) => expect.closeTo(x, 9)));
    // One conductor, one way.
    expect(column(cables, 'loop')).toEqual(cut_mm.map((x) => expect.closeTo((13.3 * x) / 1e6, 12)));
    const watts = feed(crossed, 'S01').current_A * feed(crossed, 'S01').terminal_V;
    expect(column(cables, 'load').slice(0, 2)).toEqual([watts, watts].map((x) => expect.closeTo(x, 12)));
  });

  it('give no volts between pads that are apart, and order a terminal for each conductor', () => {
    expect(column(feedPointsSchedule(crossed), 'volts')).toEqual([null, null, null, null]);
    // 1,089 + 1,639 + 1,419 + 1,969 = 6,116 mm: 7 m of one core.
    const rows = rowsOf(bill(crossed));
    expect(rows.find(({ item }) => item === 'Cable')).toMatchObject({
      ...{ description: '1 × 1.5 mm² fine-wire, 1 core', quantity: 7, spare: 1, total: 8 },
    });
    expect(rows.find(({ item }) => item === 'Terminal at the strip')!.quantity).toBe(4);
  });

  it('are measured one conductor at a time, and round the whole strip at either end', () => {
    // mohm: leads 14.4837 and 21.7987, a contact of 5 each, one rail of 82.1 over half a metre: 41.05.
    expect(row(crossed, 'S01-F1').loop!.predicted).toBeCloseTo(0.0194837, 12);
    expect(row(crossed, 'S01-F2').loop!.predicted).toBeCloseTo(0.0267987, 12);
    for (const end of ['start', 'finish']) {
      const { loop, step } = row(crossed, `S01 ${end}`);
      expect(loop!.predicted).toBeCloseTo(0.0194837 + 0.0267987 + 0.04105, 12);
      expect(step).toBe(
        'C01 and C02 off D1.1, other leads of this run off as well, link plus and minus at this end: loop. Link OUT, tick. All lit: volts at this end.',
      );
    }
    expect(row(crossed, 'S01-F2').step).toBe(
      'C02 off D1.1, no link: this one conductor end to end. All lit: amps in series at the fuse of C02.',
    );
    expect(row(crossed, 'S01 start').loaded!.predicted).toBe(solved(crossed, 'S01').unit_V[0]);
    expect(row(crossed, 'S01 finish').loaded!.predicted).toBe(solved(crossed, 'S01').unit_V.at(-1));
  });
});

const twoChannels = sized((job) => {
  job.strip.entry = '24V-2x9.6W-two-white';
  job.drivers.entry = '24V-200W';
  job.dimming.levels = [0.2, 0.2];
  job.feeds.arrangement = 'finish';
});

describe('two channels fed at the finish', () => {
  it('have three cores to every feed point and three terminals', () => {
    const cables = cablesSchedule(twoChannels);
    expect(column(cables, 'type')).toEqual(['3 × 1.5 mm² fine-wire', '3 × 1.5 mm² fine-wire']);
    expect(column(cables, 'cores')).toEqual([3, 3]);
    // 1,639 and 1,969 mm as the leads to a finish above: 3,608 mm, 4 m.
    expect(column(cables, 'cut')).toEqual([1639, 1969].map((x) => expect.closeTo(x, 9)));
    expect(column(bill(twoChannels), 'description')).toContain('3 × 1.5 mm² fine-wire, 3 cores');
    const rows = rowsOf(bill(twoChannels)).map(({ item, quantity, total }) => [item, quantity, total]);
    expect(rows).toEqual([
      ['Strip', 1, 1],
      ['Cable', 4, 5],
      ['Driver', 1, 2],
      ['Fuse with holder', 2, 3],
      // Plus and two minus at two feed points.
      ['Terminal at the strip', 6, 7],
    ]);
  });

  it('are measured by plus and one minus, whose rail is the thinner', () => {
    // mohm: 2 x 13.3 x 1.639 = 43.5974, two contacts 10; half a metre of 61.6 and of 123: 92.3.
    expect(row(twoChannels, 'S01-F1').loop!.predicted).toBeCloseTo(0.0535974, 12);
    expect(row(twoChannels, 'S01 start').loop!.predicted).toBeCloseTo(0.0535974 + 0.0923, 12);
    expect(row(twoChannels, 'S01 start').loaded!.predicted).toBe(solved(twoChannels, 'S01').unit_V[0]);
    expect(testRows(twoChannels).map(({ id }) => id)).toEqual([
      'D1.1',
      ...['S01-F1', 'S01 start', 'S02-F1', 'S02 start'],
    ]);
  });

  it('stand in the driver and protection schedules with the figures of the answer', () => {
    const [driver] = twoChannels.drivers.drivers;
    expect(rowsOf(driversSchedule(twoChannels))).toEqual([
      expect.objectContaining({
        ...{ output: 'D1.1', driver: 'D1', type: '24 V 200 W driver', place: 'Plinth', x: 200, y: -140 },
        ...{ runs: 'S01, S02', zone: '', set: 24, currentLimit: 8.33, rated: 200, caseLimit: 80 },
        ...{
          load: driver!.outputs[0]!.watts,
          usable: 160,
          air: driver!.ambient_degC,
          case: driver!.case_degC,
        },
      }),
    ]);
    // 0.46 A a lead: a fuse of 1 A, which 8.33 A opens.
    expect(column(protectionSchedule(twoChannels), 'rating')).toEqual([16, 1, 1]);
    expect(column(protectionSchedule(twoChannels), 'source')).toEqual([null, 8.33, 8.33]);
    expect(column(protectionSchedule(twoChannels), 'remark').slice(1)).toEqual(['', '']);
  });
});
