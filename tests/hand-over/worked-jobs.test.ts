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
 * units of 50 mm each. Place from 200 to 1,100 mm, 140 to 20 mm below the panel: its cables leave at 650 mm, at its top. A
 * driver of 195 by 52 mm stands 20 mm from its left and its bottom, terminals to the right at 415 mm and 94 mm below; 20
 * mm on a block of 60 by 32 mm, in at 435 mm, out at 495 mm, both 104 mm below. Cable way 40 mm up; tails of 300 mm, of a link 100 mm; a
 * tenth more. 1.5 mm2 has 13.3 ohm/km (IEC 60228, class 5), a contact at a pad or a tap 5 mohm.
 *
 * The link goes 20 mm along and 10 mm down, (30 + 200) x 1.1 = 253 mm. From the block to the way above the exit: 155 along, 84 up, 60 up:
 * 299 mm.
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

describe('a trunk to either side of the exit, with a tap on each', () => {
  // Right, straight up to the tap of S02: (299 + 600) x 1.1 = 988.9; left, 300 along to that of S01: (599 + 600) x 1.1 =
  // 1,318.9; a branch goes 65 up from its tap: 665 x 1.1 = 731.5.
  const way_mm = [30, 299, 65, 599, 65];
  const cut_mm = [253, 988.9, 731.5, 1318.9, 731.5];

  it('has a link, a cable to each tap and a branch from each, cut as worked out', () => {
    const cables = cablesSchedule(trunk);
    expect(column(cables, 'cable')).toEqual(['L1.1', 'T1.1a', 'C02', 'T1.1b', 'C01']);
    expect(column(cables, 'from')).toEqual(['D1.1', 'B1.1 way 1', 'D1.1-T2', 'B1.1 way 1', 'D1.1-T1']);
    expect(column(cables, 'to')).toEqual([
      ...['B1.1 in', 'D1.1-T2', 'S02-F1, start of S02', 'D1.1-T1', 'S01-F1, start of S01'],
    ]);
    expect(column(cables, 'feeds')).toEqual(['S01-F1, S02-F1', 'S02-F1', 'S02-F1', 'S01-F1', 'S01-F1']);
    expect(column(cables, 'way')).toEqual([
      ...['place', 'place, riser', 'panel', 'place, riser, foot run', 'panel'],
    ]);
    expect(column(cables, 'marks')[4]).toBe(
      'red: D1.1-T1 plus to S01-F1 plus; white: D1.1-T1 minus to S01-F1 minus',
    );
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

  it('lets the link carry both runs, each trunk its own, and sets the lower one against the limit', () => {
    const cables = cablesSchedule(trunk);
    const [s01, s02] = ['S01', 'S02'].map((id) => feed(trunk, id).current_A * feed(trunk, id).terminal_V);
    expect(column(cables, 'load')).toEqual(
      [s01! + s02!, s02, s02, s01, s01].map((x) => expect.closeTo(x!, 9)),
    );
    // S01 lies behind 330 mm more of trunk, so that it stands lower.
    const [low, high] = ['S01', 'S02'].map((id) => solved(trunk, id).lowest_V);
    expect(low).toBeLessThan(high!);
    expect(column(cables, 'lowest')).toEqual([low, high, high, low, low]);
    const [most, less] = ['S01', 'S02'].map((id) => solved(trunk, id).drop_V);
    expect(column(cables, 'wholeDrop')).toEqual([most, less, less, most, most]);
  });

  it('orders 5 m of cable, a block, no fuse, four terminals and two taps', () => {
    // 253 + 988.9 + 1,318.9 + 2 x 731.5 = 4,023.8 mm.
    const rows = rowsOf(bill(trunk)).map(({ item, quantity, spare, total, unit }) => [
      ...[item, quantity, spare, total, unit],
    ]);
    expect(rows).toEqual([
      ['Strip', 1, 0, 1, 'reel'],
      ['Cable', 5, 1, 6, 'm'],
      ['Driver', 1, 1, 2, 'piece'],
      ['Distribution block', 1, 0, 1, 'piece'],
      ['Terminal at the strip', 4, 1, 5, 'piece'],
      ['Tap', 2, 1, 3, 'piece'],
    ]);
  });

  it('needs no fuse where no cable may carry less than its driver gives', () => {
    // 75 W at 24 V, 3.13 A, at most 4.7 A, and 1.5 mm2 in a bunch of four at 40 degC may carry some 9 A.
    const [driver] = rowsOf(protectionSchedule(trunk)).slice(4);
    expect(driver).toMatchObject({ ref: 'D1.1', protects: 'cables L1.1, T1.1b, T1.1a, C01, C02' });
    expect(driver).toMatchObject({
      device: 'limit of the driver',
      rating: null,
      source: 3.13,
    });
  });

  it('predicts loops along a trunk and its branch, with contacts at tap and pad', () => {
    // mohm: trunks 35.08274 and 26.30474, branches 19.4579 each; into the tap, out of it and at the pad, plus and minus, six
    // contacts: 30; half a metre of two rails of 82.1: 82.1.
    const s01_ohm = 0.03508274 + 0.0194579 + 0.03;
    const s02_ohm = 0.02630474 + 0.0194579 + 0.03;
    expect(row(trunk, 'S01-F1').loop!.predicted).toBeCloseTo(s01_ohm, 12);
    expect(row(trunk, 'S01 finish').loop!.predicted).toBeCloseTo(s01_ohm + 0.0821, 12);
    expect(row(trunk, 'S02-F1').loop!.predicted).toBeCloseTo(s02_ohm, 12);
    expect(row(trunk, 'S02 finish').loop!.predicted).toBeCloseTo(s02_ohm + 0.0821, 12);
    expect(row(trunk, 'S02 finish').loop!.low).toBeCloseTo(0.85 * (s02_ohm + 0.0821), 12);
    expect(row(trunk, 'S02 finish').loop!.high).toBeCloseTo(1.1 * (s02_ohm + 0.0821) + 0.1, 12);
    // Both conductors of two cables, in order, without the link.
    expect(row(trunk, 'S02-F1').path!.leads.map(({ leg, contact_ohm }) => [leg, contact_ohm])).toEqual([
      ...[['T1.1a', 0.005] as const, ['C02', 0.01] as const],
      ...[['T1.1a', 0.005] as const, ['C02', 0.01] as const],
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
    expect(row(trunk, 'S01-F1').step).toMatch(/^T1\.1b, which leads on to C01, off B1\.1 way 1, link /);
    expect(row(trunk, 'S02-F1').step).toBe(
      'T1.1a, which leads on to C02, off B1.1 way 1, link plus and minus at the pads: loop. Link OUT, tick. All lit: volts at the pads, amps in series in the plus of C02 at D1.1-T2.',
    );
    const [f1, f2] = rowsOf(feedPointsSchedule(trunk));
    expect(f1).toMatchObject({ slot: 'S01', run: 'S01', x: 350, y: 105, at: 'start', along: 0, cutLine: 0 });
    expect(f2).toMatchObject({ feedPoint: 'S02-F1', x: 650, y: 105, cable: 'C02', output: 'D1.1' });
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
  // 299 to the way and 300 along it or none, then 60 up to a start or 560 to a finish; two tails, a tenth more.
  // (659 + 600) x 1.1 = 1,384.9; (1,159 + 600) x 1.1 = 1,934.9; 959: 1,054.9; 1,459: 1,604.9.
  const cut_mm = [253, 1384.9, 1934.9, 1054.9, 1604.9];

  it('have single conductors, plus to the start and minus to the finish, each with the whole load of its run', () => {
    const cables = cablesSchedule(crossed);
    expect(column(cables, 'cable')).toEqual(['L1.1', 'C01.1', 'C01.2', 'C02.1', 'C02.2']);
    expect(new Set(column(cables, 'from').slice(1))).toEqual(new Set(['B1.1 way 1']));
    expect(column(cables, 'to').slice(1, 3)).toEqual(['S01-F1, start of S01', 'S01-F2, finish of S01']);
    expect(column(cables, 'polarity')).toEqual([
      'plus and minus',
      ...['plus only', 'minus only', 'plus only', 'minus only'],
    ]);
    expect(column(cables, 'cores')).toEqual([2, 1, 1, 1, 1]);
    expect(column(cables, 'marks').slice(1, 3)).toEqual([
      'red: B1.1 way 1 plus to S01-F1 plus',
      'white: B1.1 way 1 minus to S01-F2 minus',
    ]);
    expect(new Set(column(cables, 'type').slice(1))).toEqual(new Set(['1 × 1.5 mm² fine-wire']));
    expect(column(cables, 'cut')).toEqual(cut_mm.map((x) => expect.closeTo(x, 9)));
    // One conductor, one way; the link has two.
    expect(column(cables, 'loop')).toEqual(
      cut_mm.map((x, i) => expect.closeTo(((i === 0 ? 2 : 1) * 13.3 * x) / 1e6, 12)),
    );
    // The link carries each run once, though plus and minus of each leave it by cables of their own.
    const [s01, s02] = ['S01', 'S02'].map((id) => solved(crossed, id).watts);
    expect(column(cables, 'load')).toEqual(
      [s01! + s02!, s01, s01, s02, s02].map((x) => expect.closeTo(x!, 9)),
    );
    expect(s01).toBeCloseTo(1.2, 1);
  });

  it('give no volts between pads that are apart, and order a terminal for each conductor', () => {
    expect(column(feedPointsSchedule(crossed), 'volts')).toEqual([null, null, null, null]);
    // 1,384.9 + 1,934.9 + 1,054.9 + 1,604.9 = 5,979.6 mm: 6 m of one core, beside the link.
    const rows = rowsOf(bill(crossed));
    expect(rows.filter(({ item }) => item === 'Cable')).toMatchObject([
      { description: '2 × 1.5 mm² fine-wire, 2 cores', quantity: 1, spare: 1, total: 2 },
      { description: '1 × 1.5 mm² fine-wire, 1 core', quantity: 6, spare: 1, total: 7 },
    ]);
    expect(rows.find(({ item }) => item === 'Terminal at the strip')!.quantity).toBe(4);
  });

  it('are measured one conductor at a time, and round the whole strip at either end', () => {
    // mohm: leads 18.41917 and 25.73417, a contact of 5 each, one rail of 82.1 over half a metre: 41.05.
    expect(row(crossed, 'S01-F1').loop!.predicted).toBeCloseTo(0.02341917, 12);
    expect(row(crossed, 'S01-F2').loop!.predicted).toBeCloseTo(0.03073417, 12);
    for (const end of ['start', 'finish']) {
      const { loop, step } = row(crossed, `S01 ${end}`);
      expect(loop!.predicted).toBeCloseTo(0.02341917 + 0.03073417 + 0.04105, 12);
      expect(step).toBe(
        'C01.1 off B1.1 way 1 and C01.2 off B1.1 way 1, other leads of this run off as well, link plus and minus at this end: loop. Link OUT, tick. All lit: volts at this end.',
      );
    }
    expect(row(crossed, 'S01-F2').step).toBe(
      'C01.2 off B1.1 way 1, no link: this one conductor end to end. All lit: amps in series in the minus of C01.2 at B1.1 way 1.',
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

/**
 * This driver is 235 by 68 mm: terminals at 455 mm, 86 mm below; block in at 475 mm, out at 535 mm, 104 mm below. The link goes
 * 20 along and 18 down, 238 x 1.1 = 261.8 mm; from the block to the way 115 + 84 + 60 = 259 mm.
 */
describe('two channels fed at the finish', () => {
  it('have three cores to every feed point and three terminals, and two from an output with one minus', () => {
    const cables = cablesSchedule(twoChannels);
    const [two, three] = ['2 × 1.5 mm² fine-wire', '3 × 1.5 mm² fine-wire'];
    expect(column(cables, 'type')).toEqual([two, three, three]);
    expect(column(cables, 'cores')).toEqual([2, 3, 3]);
    // (259 + 300 + 560 + 600) x 1.1 = 1,890.9 and 1,419 x 1.1 = 1,560.9: 3,451.8 mm, 4 m; 261.8 mm of link, 1 m.
    expect(column(cables, 'cut')).toEqual([261.8, 1890.9, 1560.9].map((x) => expect.closeTo(x, 9)));
    expect(column(cables, 'marks')[1]).toBe(
      'red: B1.1 way 1 plus to S01-F1 plus; 2: B1.1 way 1 minus to S01-F1 warm white; 3: B1.1 way 1 minus to S01-F1 cool white',
    );
    const described = column(bill(twoChannels), 'description');
    for (const each of ['2 × 1.5 mm² fine-wire, 2 cores', '3 × 1.5 mm² fine-wire, 3 cores'])
      expect(described).toContain(each);
    const rows = rowsOf(bill(twoChannels)).map(({ item, quantity, total }) => [item, quantity, total]);
    expect(rows).toEqual([
      ['Strip', 1, 1],
      ['Cable', 1, 2],
      ['Cable', 4, 5],
      ['Driver', 1, 2],
      ['Distribution block', 1, 1],
      ['Fuse with holder', 1, 2],
      // Plus and two minus at two feed points.
      ['Terminal at the strip', 6, 7],
    ]);
  });

  it('are measured by plus and one minus, whose rail is the thinner', () => {
    // mohm: 2 x 13.3 x 1.8909 = 50.29794, two contacts 10; half a metre of 61.6 and of 123: 92.3.
    expect(row(twoChannels, 'S01-F1').loop!.predicted).toBeCloseTo(0.06029794, 12);
    expect(row(twoChannels, 'S01 start').loop!.predicted).toBeCloseTo(0.06029794 + 0.0923, 12);
    expect(row(twoChannels, 'S01 start').loaded!.predicted).toBe(solved(twoChannels, 'S01').unit_V[0]);
    expect(testRows(twoChannels).map(({ id }) => id)).toEqual([
      'D1.1',
      ...['S01-F1', 'S01 start', 'S02-F1', 'S02 start'],
    ]);
  });

  it('have the note of the maker on the driver schedule, where there is one', () => {
    const noted = structuredClone(twoChannels);
    noted.job.site.note = 'Ring before you come.';
    const { method } = twoChannels.drivers;
    expect(driversSchedule(noted).notes).toEqual(['Note of the maker: Ring before you come.', method]);
    expect(driversSchedule(twoChannels).notes).toEqual([method]);
  });

  it('stand in the driver and protection schedules with the figures of the answer', () => {
    const [driver] = twoChannels.drivers.drivers;
    expect(rowsOf(driversSchedule(twoChannels))).toEqual([
      expect.objectContaining({
        ...{ output: 'D1.1', driver: 'D1', type: '24 V 200 W driver', place: 'Plinth', x: 220, y: -120 },
        ...{ runs: 'S01, S02', zone: '', set: 24, currentLimit: 8.33, rated: 200, caseLimit: 80 },
        ...{
          load: driver!.outputs[0]!.watts,
          usable: 160,
          air: driver!.ambient_degC,
          case: driver!.case_degC,
        },
      }),
    ]);
    // Two leads of half a metre at 19.2 W/m, 0.4 A each; 8.33 A may become 12.5 A, more than they may carry but not than the
    // link may. A cartridge fuse of 1 A holds 0.8 of it for ever and opens at four times that, which 8.33 A is.
    const [fuse, link] = rowsOf(protectionSchedule(twoChannels)).slice(4);
    expect([fuse]).toEqual(
      byHand({
        ...{ ref: 'F1.1-1', protects: 'cables C01, C02', rating: 1, source: 8.33, breaking: 35, remark: '' },
        ...{ device: 'cartridge fuse 5 × 20 mm, time-lag, IEC 60127-2, 250 V', design: 0.8 },
        ...{ capacity: twoChannels.cables[1]!.capacity_A, location: 'B1.1 way 1, in the plus, Plinth' },
      }),
    );
    expect(link).toMatchObject({ ref: 'D1.1', protects: 'cable L1.1', rating: null, source: 8.33 });
    expect(column(cablesSchedule(twoChannels), 'fuse')).toEqual(['', 'F1.1-1', 'F1.1-1']);
  });
});
