import { describe, expect, it } from 'vitest';
import type { HandOverInput } from '../../src/hand-over/input.ts';
import { selvStepsUnder } from '../../src/hand-over/selv-steps.ts';
import { notMeasured, type TestRow, testRows, testSheet } from '../../src/hand-over/test-sheet.ts';
import { byHand, rowsOf } from './rows.ts';
import { cableOf, closeRing, smallJob } from './small-job.ts';

const input = smallJob();
// A job of its own each time, since what is remembered of one is not worked out again.
const row = (id: string, from: HandOverInput = smallJob()): TestRow =>
  testRows(from).find((r) => r.id === id)!;

// By hand: conductor 13.3 mΩ/m, contact 5 mΩ, rail 61.6 mΩ/m, joint 2 mΩ, cables of 2, 3, 4, 5 and 6 m.
const lead = (length_m: number): number => 0.0133 * length_m + 0.005;

describe('test sheet', () => {
  it('predicts every loop as worked out by hand', () => {
    expect(row('S01-F1').loop!.predicted).toBeCloseTo(2 * lead(2), 12);
    expect(row('S01 finish').loop!.predicted).toBeCloseTo(2 * lead(2) + 2 * (0.0616 + 0.002), 12);
    expect(row('S02 start').loop!.predicted).toBeCloseTo(2 * lead(4) + 2 * 0.0616, 12);
    expect(row('S02 finish').loop!.predicted).toBeCloseTo(2 * lead(3) + 2 * 0.0616, 12);
    expect(row('S03-F1').loop!.predicted).toBeCloseTo(lead(5), 12);
    expect(row('S03 start').loop!.predicted).toBeCloseTo(lead(5) + 0.0616 + lead(6), 12);
  });

  it('gives both ends of a crossed feed the same loop, as symmetry asks', () => {
    expect(row('S03 start').loop!.predicted).toBeCloseTo(row('S03 finish').loop!.predicted, 12);
  });

  it('covers every output, feed point and run end', () => {
    const places = testRows(smallJob()).map((r) => r.id);
    expect(places).toEqual([
      'D1.1',
      ...['S01-F1', 'S01 finish'],
      ...['S02-F1', 'S02-F2', 'S02 start', 'S02 finish'],
      ...['S03-F1', 'S03-F2', 'S03 start', 'S03 finish'],
    ]);
  });

  it('reads volts at the terminals where fed and at the last unit elsewhere', () => {
    expect(row('S01 finish').loaded!.predicted).toBe(23.8);
    expect(row('S02 finish').loaded!.predicted).toBe(23.9);
    expect(row('D1.1').noLoad).toMatchObject({ predicted: 24, low: 24 * 0.97, high: 24 * 1.03 });
    expect(row('S03-F1').loaded).toBeNull();
  });

  it('holds every prediction inside its own band', () => {
    for (const { loop, noLoad, loaded, current } of testRows(smallJob()))
      for (const band of [loop, noLoad, loaded, current])
        if (band) {
          expect(band.low).toBeLessThanOrEqual(band.predicted);
          expect(band.high).toBeGreaterThanOrEqual(band.predicted);
        }
  });

  it('predicts no loop where cables do not form a chain', () => {
    const ring = smallJob();
    closeRing(ring);
    expect(testRows(ring).every((r) => r.loop === null)).toBe(true);
  });

  const cell = (id: string, key: string, sheet = testSheet(input)) =>
    sheet.rows.find((r) => r[0] === id)![sheet.columns.findIndex((c) => c.key === key)];

  it('takes every link out before power, with a box to tick, and links nothing it does not measure', () => {
    for (const each of testRows(smallJob())) {
      expect(/link plus and minus/.test(each.step), each.id).toBe(each.isLinked);
      expect(/link plus and minus .*: loop\. Link OUT, tick\. All lit: volts/.test(each.step)).toBe(
        each.isLinked,
      );
      if (each.isLinked) expect(each.loop).not.toBeNull();
    }
    expect(cell('S01-F1', 'linkOut')).toBeNull();
    expect(cell('S03-F1', 'linkOut')).toBe(notMeasured);
    expect(cell('D1.1', 'linkOut')).toBe(notMeasured);
    const ring = smallJob();
    closeRing(ring);
    expect(testRows(ring).filter((each) => each.isLinked || /link/i.test(each.step))).toEqual([]);
  });

  it('lets the mains come on only after the step in which every link is ticked out', () => {
    const steps = testSheet(input)
      .rows.map((r) => String(r[1]))
      .slice(0, 10);
    const out = steps.findIndex((step) => step.includes('every box “link out” is ticked'));
    expect(out).toBeGreaterThan(0);
    expect(steps.findIndex((step) => /mains on|^Live/.test(step))).toBe(out + 1);
    expect(steps.slice(0, out + 1).every((step) => step.startsWith('Dead'))).toBe(true);
  });

  it('says at which level, where and with what amps are taken', () => {
    const live = testSheet(input)
      .rows.map((r) => String(r[1]))
      .filter((step) => step.includes('all lit, dimmers'));
    expect(live).toHaveLength(2);
    for (const step of live) expect(step).toContain('dimmers at 100 %, or bridged');
    const limited = structuredClone(input);
    Object.assign(limited.circuit, { level: 'working' });
    expect(JSON.stringify(testSheet(limited).rows)).not.toContain('dimmers at 100 %');
    // 0.1 A in each feed, below what a clamp meter resolves; 0.44 A at the output, still below.
    expect(row('S01-F1').step).toContain('amps in series in the plus of C01 at B1.1 way 1');
    const strong = structuredClone(input);
    strong.circuit.runs[0]!.feed_A[0]!.current_A = 1.5;
    const [, first] = testRows(strong);
    expect(first!.step).toMatch(/volts at the pads, amps in the plus of C01 at B1\.1 way 1\.$/);
  });

  it('has a ring measured from end to end, since an open one lights as well', () => {
    const stepV2 = (of: HandOverInput) => String(testSheet(of).rows.find(([ref]) => ref === 'V2')![1]);
    expect(stepV2(input)).not.toContain('Ring');
    const ring = smallJob();
    const back = { kind: 'block', id: 'B1.1', way: 1 } as const;
    Object.assign(cableOf(ring, 'C01'), { kind: 'trunk', from: back, to: back, loop_ohm: 0.4 });
    // 0.2 ohm in one conductor: 0.85 times that is 0.17; 1.1 times, and two contacts of 50 mohm, 0.32.
    expect(stepV2(ring)).toMatch(
      / Rings, plus from end to end, then minus: C01, both ends off B1\.1 way 1, 0\.17 to 0\.32 Ω\.$/,
    );
  });

  it('leaves boxes empty to be written in, and strikes those that do not apply', () => {
    const sheet = testSheet(input);
    const at = (key: string) => sheet.columns.findIndex((c) => c.key === key);
    const output = sheet.rows.find((r) => r[0] === 'D1.1')!;
    expect(output[at('loopMeasured')]).toBe(notMeasured);
    for (const key of ['noLoadMeasured', 'loadedMeasured', 'currentMeasured', 'instrument', 'name', 'date'])
      expect(output[at(key)]).toBeNull();
    expect(sheet.rows[0]![0]).toBe('V1');
  });
});

/** The job with C01 as a trunk, at whose end the cables of S03 go on. */
const behindTrunk = (): HandOverInput => {
  const job = smallJob();
  const trunk = cableOf(job, 'C01');
  const to = { kind: 'tap', id: 'D1.1-T1' } as const;
  const serves = [...trunk.serves, 'S03-F1', 'S03-F2'];
  Object.assign(trunk, { kind: 'trunk', to, serves });
  Object.assign(trunk.legs[0]!, { to, serves });
  return job;
};

/** The bands of a row as they stand on the sheet. */
const bands = (id: string) => {
  const { loop, noLoad, loaded, current } = row(id);
  return { loop, noLoad, loaded, current };
};

const near = (predicted: number, low: number, high: number) => ({
  predicted: expect.closeTo(predicted, 9),
  low: expect.closeTo(low, 9),
  high: expect.closeTo(high, 9),
});

describe('the bands of every place', () => {
  // 24 V, 3 %: 0.72 V either way. Gain of six lamps of 2.9 V at 24 V: 24 / 6.6; 0.1 + 0.03 x 24 / 6.6 = 23 / 110.
  const noLoad = near(24, 23.28, 24.72);
  const feedAmps = near(0.1, 0.1 * (87 / 110), 0.1 * (133 / 110));
  // At a fed place 0.1 V below the driver and 0.1 A: most 0.11 + 0.01 = 0.12 V, least 0.085 V.
  const fed = near(23.9, 24 - 0.72 - 0.12, 24.72 - 0.085);
  // At the last unit 0.2 V below it: most 0.22 + 0.01 = 0.23 V, least 0.17 V.
  const last = near(23.8, 24 - 0.72 - 0.23, 24.72 - 0.17);
  const loop = (ohm: number) => near(ohm, 0.85 * ohm, 1.1 * ohm + 0.1);

  it('are an output alone at its terminals', () => {
    expect(bands('D1.1')).toEqual({
      ...{ loop: null, noLoad, loaded: noLoad },
      current: near(0.44, 0.44 * (87 / 110), 0.44 * (133 / 110)),
    });
    expect(row('D1.1').path).toBeNull();
  });

  it('are all four at a pair of pads, and loop and volts at an end', () => {
    expect(bands('S02-F2')).toEqual({ loop: loop(2 * lead(4)), noLoad, loaded: fed, current: feedAmps });
    expect(bands('S01 finish')).toEqual({
      ...{ loop: loop(2 * lead(2) + 2 * 0.0636), noLoad: null, loaded: last, current: null },
    });
    // A fed end reads the volts of its own pads.
    expect(bands('S02 start')).toEqual({
      ...{ loop: loop(2 * lead(4) + 2 * 0.0616), noLoad: null, loaded: fed, current: null },
    });
  });

  it('are one conductor and its amps at a crossed pad', () => {
    expect(bands('S03-F1')).toEqual({
      ...{ loop: loop(lead(5)), noLoad: null, loaded: null, current: feedAmps },
    });
    expect(row('S03-F1').isLinked).toBe(false);
    expect(row('S03 start').isLinked).toBe(true);
  });

  it('take the contacts of the end at the strongest of the feeds', () => {
    const uneven = structuredClone(input);
    uneven.circuit.runs[1]!.feed_A[0]!.current_A = 0.3;
    // 1.1 x 0.1 + 0.1 x 0.3 = 0.14 V.
    expect(row('S02 finish', uneven).loaded!.low).toBeCloseTo(24 - 0.72 - 0.14, 9);
  });

  it('are each feed point’s own', () => {
    const uneven = structuredClone(input);
    Object.assign(uneven.circuit.runs[1]!.feed_A[1]!, { current_A: 0.3, terminal_V: 23.7 });
    expect(row('S02-F1', uneven)).toMatchObject({ loaded: { predicted: 23.9 }, current: { predicted: 0.1 } });
    expect(row('S02-F2', uneven)).toMatchObject({ loaded: { predicted: 23.7 }, current: { predicted: 0.3 } });
  });

  it('of a crossed pad behind a trunk pass one conductor of the trunk, and the contact of its tap', () => {
    // C01, 2 m of plus and minus to a tap, before the single conductors of 5 and 6 m: 26.6 and 5 mohm more.
    const trunk = behindTrunk();
    expect(row('S03-F1', trunk).loop!.predicted).toBeCloseTo(0.0266 + 0.005 + lead(5), 12);
    expect(row('S03-F2', trunk).loop!.predicted).toBeCloseTo(0.0266 + 0.005 + lead(6), 12);
  });

  it('are missing for a feed that was not solved by itself', () => {
    const unsolved = structuredClone(input);
    for (const run of unsolved.circuit.runs) run.feed_A = [];
    expect(row('S02-F1', unsolved)).toMatchObject({ noLoad, loaded: null, current: null });
    // The end stands at its own unit, without amps to widen it: 1.1 x 0.2 V.
    const { loaded } = row('S02 finish', unsolved);
    expect(loaded).toEqual(near(23.8, 24 - 0.72 - 0.22, 24.72 - 0.17));
    expect(row('S02-F1', unsolved).step).toMatch(/amps in series in the plus of C02\.1 at B1\.1 way 2\.$/);
  });

  it('read the first unit at the start and the last at the finish', () => {
    const sloping = structuredClone(input);
    Object.assign(sloping.circuit.runs[2]!.unit_V, { 0: 23.6, 19: 23.5 });
    expect(row('S03 start', sloping).loaded!.predicted).toBe(23.6);
    expect(row('S03 finish', sloping).loaded!.predicted).toBe(23.5);
  });
});

describe('a run end', () => {
  const between = () => {
    const job = structuredClone(input);
    const run = job.setOut.runs[1]!;
    const [first, second] = run.feedPoints;
    Object.assign(first!, { cutLine: 5, at: 'between' });
    Object.assign(second!, { cutLine: 12, at: 'between' });
    return job;
  };

  it('is measured from the nearest feed point that is not there', () => {
    // Start: 5 of 20 units from F1 (C02.1, 3 m); finish: 8 of 20 units from F2 (C02.2, 4 m); both rails of 61.6.
    expect(row('S02 start', between()).loop!.predicted).toBeCloseTo(2 * lead(3) + 2 * 0.0616 * 0.25, 12);
    expect(row('S02 finish', between()).loop!.predicted).toBeCloseTo(2 * lead(4) + 2 * 0.0616 * 0.4, 12);
  });

  it('is measured from the same places in whichever order they are listed', () => {
    for (const job of [input, between()]) {
      const listed = testRows(job);
      const turned = structuredClone(job);
      for (const run of turned.setOut.runs) run.feedPoints.reverse();
      const ends = listed.filter(({ id }) => /start|finish/.test(id));
      expect(ends.length).toBeGreaterThan(4);
      for (const { id, loop, step } of ends) expect(row(id, turned)).toMatchObject({ loop, step });
    }
  });

  it('says which leads come off, and that others of the run do where there are any', () => {
    expect(row('S02 finish').step).toBe(
      'C02.1 off B1.1 way 2, other leads of this run off as well, link plus and minus at this end: loop. Link OUT, tick. All lit: volts at this end.',
    );
    expect(row('S01 finish').step).toBe(
      'C01 off B1.1 way 1, link plus and minus at this end: loop. Link OUT, tick. All lit: volts at this end.',
    );
    expect(row('S03 finish').step).toMatch(/^C03\.1 off B1\.1 way 3 and C03\.2 off B1\.1 way 3, other leads/);
  });

  it('is no row where nothing feeds it from elsewhere', () => {
    const unfed = structuredClone(input);
    unfed.setOut.runs[0]!.feedPoints = [];
    expect(testRows(unfed).filter(({ id }) => id.startsWith('S01'))).toEqual([]);
  });

  it('says in a ring only what is read with everything lit', () => {
    const ring = smallJob();
    closeRing(ring);
    expect(row('S01 finish', ring).step).toBe('All lit: volts at this end.');
    expect(row('S02-F1', ring).step).toBe(
      'All lit: volts at the pads, amps in series in the plus of C02.1 at B1.1 way 2.',
    );
    expect(testRows(ring).every(({ path }) => path === null)).toBe(true);
  });
});

describe('the words of a feed point', () => {
  it('ask for a clamp from half an ampere, and for a meter in series below', () => {
    for (const [current_A, amps] of [
      [0.49, 'amps in series'],
      [0.5, 'amps'],
    ] as const) {
      const job = structuredClone(input);
      job.circuit.runs[0]!.feed_A[0]!.current_A = current_A;
      expect(row('S01-F1', job).step).toMatch(
        new RegExp(`volts at the pads, ${amps} in the plus of C01 at B1\\.1 way 1\\.$`),
      );
      job.drivers.drivers[0]!.outputs[0]!.current_A = current_A;
      expect(row('D1.1', job).step).toBe(
        `Output of D1, at its terminals. Fuses out, strips off: volts. Fuses in, all lit: volts, ${amps} in the plus of L1.1.`,
      );
    }
  });

  it('of an output name fuses only where it has some, and the link only where there is one', () => {
    const bare = structuredClone(input);
    for (const way of bare.installation.blocks[0]!.ways) way.fuse = null;
    expect(row('D1.1', bare).step).toBe(
      'Output of D1, at its terminals. Strips off: volts. All lit: volts, amps in series in the plus of L1.1.',
    );
    const other = structuredClone(input);
    other.installation.blocks[0]!.output = 'D2.1';
    expect(row('D1.1', other).step).toContain('Strips off: volts. All lit: volts');
    const elsewhere = structuredClone(input);
    cableOf(elsewhere, 'L1.1').output = 'D2.1';
    expect(row('D1.1', elsewhere).step).toMatch(/all lit: volts, amps in series\.$/);
    const direct = { ...input, cables: input.cables.slice(1) };
    expect(row('D1.1', direct).step).toMatch(/all lit: volts, amps in series\.$/);
  });

  // Both cables of S02 hang on one fuse: at the fuse a meter would read the two together.
  it('take the amps of each cable in that cable, not at a fuse that several share, and those of a return in its minus', () => {
    expect(row('S02-F2').step).toMatch(/amps in series in the plus of C02\.2 at B1\.1 way 2\.$/);
    expect(row('S03-F2').step).toBe(
      'C03.2 off B1.1 way 3, no link: this one conductor end to end. All lit: amps in series in the minus of C03.2 at B1.1 way 3.',
    );
  });

  it('name one lead, or where the way begins and ends', () => {
    expect(row('S03-F1').step).toBe(
      'C03.1 off B1.1 way 3, no link: this one conductor end to end. All lit: amps in series in the plus of C03.1 at B1.1 way 3.',
    );
    expect(row('S03-F1', behindTrunk()).step).toMatch(
      /^C01, which leads on to C03\.1, off B1\.1 way 1, no link: this one conductor end to end\. /,
    );
  });

  it('of a feed point without a cable say what is lit alone', () => {
    // S03 without its return: neither end of it closes a loop, and its plus does by itself.
    const open = { ...smallJob(), cables: smallJob().cables.filter(({ id }) => !/^(L|C03\.2)/.test(id)) };
    expect(row('S03 start', open)).toMatchObject({ loop: null, step: 'All lit: volts at this end.' });
    expect(row('S03-F1', open).loop!.predicted).toBeCloseTo(lead(5), 12);
    expect(row('S01-F1', { ...smallJob(), cables: [] }).step).toBe(
      'All lit: volts at the pads, amps in series.',
    );
  });

  it('name an output where a cable leaves it without a block', () => {
    const direct = { ...smallJob(), cables: smallJob().cables.slice(1) };
    for (const end of [direct.cables[0]!, direct.cables[0]!.legs[0]!])
      Object.assign(end, { from: { kind: 'output', id: 'D1.1' } });
    expect(row('S01-F1', direct).step).toBe(
      'C01 off D1.1, link plus and minus at the pads: loop. Link OUT, tick. All lit: volts at the pads, amps in series in the plus of C01 at D1.1.',
    );
  });
});

describe('the sheet', () => {
  const empty = { result: null, instrument: null, name: null, date: null };

  it('shows the bands of a place under their columns, and boxes', () => {
    const ohm = 2 * lead(2);
    const [here] = rowsOf(testSheet(input)).filter(({ ref }) => ref === 'S01-F1');
    expect([here]).toEqual(
      byHand({
        ...{ ref: 'S01-F1', step: row('S01-F1').step },
        ...{ loop: ohm, loopLow: 0.85 * ohm, loopHigh: 1.1 * ohm + 0.1, loopMeasured: null, linkOut: null },
        ...{ noLoad: 24, noLoadLow: 23.28, noLoadHigh: 24.72, noLoadMeasured: null },
        ...{ loaded: 23.9, loadedLow: 23.16, loadedHigh: 24.635, loadedMeasured: null },
        ...{ current: 0.1, currentLow: 8.7 / 110, currentHigh: 13.3 / 110, currentMeasured: null },
        ...empty,
      }),
    );
  });

  it('strikes the boxes of a step that has no figure', () => {
    expect(rowsOf(testSheet(input))[0]).toEqual({
      ...{ ref: 'V1', step: selvStepsUnder([], 'full')[0]!.step },
      ...{ loop: null, loopLow: null, loopHigh: null, loopMeasured: notMeasured, linkOut: notMeasured },
      ...{ noLoad: null, noLoadLow: null, noLoadHigh: null, noLoadMeasured: notMeasured },
      ...{ loaded: null, loadedLow: null, loadedHigh: null, loadedMeasured: notMeasured },
      ...{ current: null, currentLow: null, currentHigh: null, currentMeasured: notMeasured },
      ...empty,
    });
  });
});

describe('a limit of the dimmer', () => {
  const limit = (holds: 'heat' | 'everything') => ({
    ...{ id: 'dimmer-limit' as const, holds, levels: [0.3], sentence: 'No more than 30 %.', short: '' },
  });
  const order = (...conditions: ReturnType<typeof limit>[]) =>
    selvStepsUnder(conditions, 'full').map(({ id }) => id);
  const [upTo6, on] = [
    ['V1', 'V2', 'V3', 'V4', 'V5', 'V6'],
    ['V7', 'V8'],
  ];

  it('is set before the readings that are predicted under it, and after those of full', () => {
    expect(order()).toEqual([...upTo6!, ...on!, 'V9', 'V10']);
    expect(order(limit('everything'))).toEqual([...upTo6!, 'L1', ...on!, 'V9', 'V10']);
    expect(order(limit('heat'))).toEqual([...upTo6!, ...on!, 'L1', 'V9', 'V10']);
    expect(order(limit('heat'), limit('everything'))).toEqual([...upTo6!, 'L2', ...on!, 'L1', 'V9', 'V10']);
  });

  it('says how it bears on the readings', () => {
    const step = (holds: 'heat' | 'everything') =>
      selvStepsUnder([limit(holds)], 'full').find(({ id }) => id === 'L1')!.step;
    expect(step('heat')).toMatch(
      /^Live: limit of the dimmer\. No more than 30 %\. .* before it is set, at full/,
    );
    expect(step('everything')).toMatch(/^Live: limit of the dimmer\. No more than 30 %\. .* with it set/);
  });

  it('is a row of the sheet at the level of the answer', () => {
    const limited = { ...input, conditions: [limit('everything')] };
    const refs = rowsOf(testSheet(limited)).map(({ ref }) => ref);
    expect(refs.slice(0, 11)).toEqual([...upTo6!, 'L1', ...on!, 'V9', 'V10']);
    expect(refs[11]).toBe('D1.1');
  });
});
