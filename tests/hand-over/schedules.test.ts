import { describe, expect, it } from 'vitest';
import type { Cable } from '../../src/answer/cables.ts';
import type { Condition } from '../../src/answer/conditions.ts';
import { type Schedule, schedule as scheduleSchema } from '../../src/answer/schedules.ts';
import type { HandOverInput } from '../../src/hand-over/input.ts';
import { schedulesOf } from '../../src/hand-over/schedules.ts';
import { listed } from '../../src/hand-over/wiring.ts';
import { byHand, column as columnOf, rowsOf } from './rows.ts';
import { cableOf, smallJob } from './small-job.ts';

const input = smallJob();

// A job of its own each time, since what is remembered of one is not worked out again.
const all = (from: HandOverInput = smallJob()): Schedule[] => schedulesOf(from);
const named = (id: Schedule['id'], from = smallJob()): Schedule =>
  all(from).find((schedule) => schedule.id === id)!;
const column = (id: Schedule['id'], key: string, from = smallJob()) => columnOf(named(id, from), key);

/** A copy of the job that may be changed. */
type Changed = HandOverInput & { readonly cables: Cable[] };

describe('schedules', () => {
  it('have the shape the contract asks for, unique columns, full rows and finite numbers', () => {
    for (const schedule of all()) {
      expect(scheduleSchema.safeParse(schedule).success, schedule.id).toBe(true);
      const keys = schedule.columns.map((c) => c.key);
      expect(new Set(keys).size).toBe(keys.length);
      for (const row of schedule.rows) expect(row).toHaveLength(keys.length);
    }
    expect(new Set(all().map((schedule) => schedule.id)).size).toBe(8);
  });

  it('lose nothing: one row for each output, cable, feed point, piece and reel', () => {
    expect(column('drivers', 'output')).toEqual(['D1.1']);
    expect(column('cables', 'cable')).toEqual(input.cables.map((c) => c.id));
    expect(column('feed-points', 'feedPoint')).toEqual(
      input.setOut.runs.flatMap((r) => r.feedPoints.map((f) => f.id)),
    );
    expect(column('cutting-list', 'piece')).toEqual(
      input.setOut.runs.flatMap((r) => r.pieces.map((p) => p.id)),
    );
    expect(column('reels', 'reel')).toEqual(['R1']);
    // A breaker and what the electrician adds to it, three fuses, and the link that the limit of the driver holds; every
    // cable is protected in one row.
    expect(column('protection', 'ref')).toEqual([
      ...['M1', 'isolator', 'RCD', 'earth'],
      ...['F1.1-1', 'F1.1-2', 'F1.1-3', 'D1.1'],
    ]);
  });

  it('cut as much strip as the runs hold, and say where on the reel', () => {
    const cut_mm = column('cutting-list', 'length').reduce<number>((sum, x) => sum + Number(x), 0);
    expect(cut_mm).toBe(3000);
    expect(column('reels', 'pieces')[0]).toBe('S01-A to 500, S01-B to 1000, S02-A to 2000, S03-A to 3000');
    expect(column('cutting-list', 'joint').slice(0, 3)).toEqual(['S01-B', 'S01-A', '']);
    expect(column('cutting-list', 'darkStart').slice(0, 2)).toEqual([10, null]);
    expect(column('cutting-list', 'darkFinish').slice(0, 2)).toEqual([null, 10]);
  });

  it('name every run of an output, neighbours drawn together', () => {
    const order = ['S01', 'S02', 'S03', 'S04', 'S05', 'S06', 'S07'];
    expect(listed(['S07', 'S01', 'S02', 'S03', 'S05'], order)).toBe('S01 to S03, S05, S07');
    expect(listed(['S02', 'S01'], order)).toBe('S01, S02');
    expect(listed([], order)).toBe('');
    expect(column('drivers', 'runs')).toEqual(['S01 to S03']);
  });

  it('give feed points from the lower left corner, and volts only where a meter finds a pair of pads', () => {
    expect(column('feed-points', 'x')).toEqual([300, 600, 600, 900, 900]);
    expect(column('feed-points', 'y')).toEqual([110, 110, 1110, 110, 1110]);
    expect(column('feed-points', 'along')).toEqual([0, 0, 1000, 0, 1000]);
    expect(column('feed-points', 'volts')).toEqual([23.9, 23.9, 23.9, null, null]);
    expect(column('feed-points', 'polarity').slice(3)).toEqual(['plus only', 'minus only']);
  });

  it('name the zone, the drop against its limit, and the load of each cable', () => {
    expect(column('cables', 'zone')).toEqual(['Left', 'Left', '', '', '', '']);
    expect(column('cables', 'limit')[0]).toBeCloseTo(0.05 * 24, 12);
    expect(new Set(column('cables', 'within'))).toEqual(new Set(['within']));
    // 2.39 W a feed point; S03 has a plus and a minus for one load, so that the link carries four times that.
    expect(column('cables', 'load')).toEqual(
      [9.56, 2.39, 2.39, 2.39, 2.39, 2.39].map((x) => expect.closeTo(x, 9)),
    );
  });

  it('warn where the driver may hold the fuse closed', () => {
    expect(column('protection', 'remark')[5]).toBe('');
    const weak = structuredClone(input) as Changed;
    // One of the two cables of a fuse is enough.
    cableOf(weak, 'C02.2').fuseOpens = false;
    expect(column('protection', 'remark', weak)[5]).toBe(
      'The driver limits at about 2.50 A and may hold this fuse closed on a fault: the cable relies on that limit as well.',
    );
    expect(column('protection', 'remark', weak)[4]).toBe('');
  });

  it('take kind, standard, volts and breaking capacity from the fuse, and say once what its kind asks for', () => {
    const job = structuredClone(input) as Changed;
    const [first, second] = job.installation.blocks[0]!.ways;
    Object.assign(first!.fuse!, {
      family: 'electronic',
      name: 'channel',
      standard: 'its sheet',
      rated_V: 30,
    });
    Object.assign(first!.fuse!, { breaking_A: null, remark: 'Seal it.' });
    Object.assign(second!.fuse!, { rated_V: null });
    const [channel, none, third] = rowsOf(named('protection', job)).slice(4);
    expect(channel).toMatchObject({ device: 'channel, its sheet, 30 V', breaking: null });
    expect(none).toMatchObject({
      device: 'small fuse, IEC 60127-2',
      remark: 'None of this kind is made for 24 V with a tenth to spare: choose another kind.',
    });
    expect(third).toMatchObject({ device: 'small fuse, IEC 60127-2, 250 V', breaking: 35 });
    const onBreaker = 'At most 1 driver on one B16: 3 × 16 A × √2 / 40 A.';
    expect(named('protection', job).notes).toEqual([
      onBreaker,
      'Seal it.',
      'See that the holder is made for it.',
    ]);
    expect(named('protection').notes).toEqual([onBreaker, 'See that the holder is made for it.']);
    expect(rowsOf(named('bill', job)).filter(({ basis }) => /fused way/.test(String(basis)))).toMatchObject([
      { item: 'Electronic channel', description: 'channel, its sheet, 30 V, 1 A', quantity: 1, spare: 1 },
      { item: 'Fuse with holder', description: 'small fuse, IEC 60127-2, 1 A', quantity: 1, spare: 1 },
      { item: 'Fuse with holder', description: 'small fuse, IEC 60127-2, 250 V, 1 A', quantity: 1, spare: 1 },
    ]);
  });

  it('say where a fuse stands, when there is room for its block', () => {
    const job = structuredClone(input) as Changed;
    expect(column('protection', 'location', job)[5]).toBe('B1.1 way 2, in the plus');
    const standing = { x_mm: 0, y_mm: 0, across_mm: 1, up_mm: 1, deep_mm: 1, faces: 'up' } as const;
    const ends = { out_x_mm: 0, out_y_mm: 0, in_x_mm: 0, in_y_mm: 0 };
    job.installation.blocks[0]!.standing = { place: 'Plinth', ...standing, ...ends };
    expect(column('protection', 'location', structuredClone(job))[5]).toBe('B1.1 way 2, in the plus, Plinth');
  });

  it('name no device where no fuse fits, and what to do then', () => {
    const bare = structuredClone(input) as Changed;
    for (const id of ['C01', 'C02.1'])
      Object.assign(cableOf(bare, id), {
        fuse: null,
        fuse_A: null,
        fuseOpens: false,
        protectedBy: 'nothing',
      });
    Object.assign(cableOf(bare, 'C02.1'), { design_A: 0.3, capacity_A: 0.2 });
    bare.installation.blocks[0]!.ways[0]!.fuse = null;
    expect(rowsOf(named('protection', bare)).at(-1)).toMatchObject({
      ...{ ref: 'D1.1', protects: 'cables C01, C02.1', device: 'none', rating: null, breaking: null },
      ...{ design: 0.3, capacity: 0.2, location: '' },
      remark:
        'No fuse lies between what each carries and may carry: take a thicker cable, lay fewer together, or share the load.',
    });
    expect(column('cables', 'fuse', bare).slice(0, 3)).toEqual(['', '', '']);
    expect(column('cables', 'rating', bare).slice(0, 3)).toEqual([null, null, null]);
    for (const way of bare.installation.blocks[0]!.ways) way.fuse = null;
    expect(column('bill', 'item', structuredClone(bare))).not.toContain('Fuse with holder');
  });

  it('name cables as they are met along the wall, kind by kind, output by output', () => {
    const job = structuredClone(input) as Changed;
    job.cables.push({ ...structuredClone(cableOf(job, 'C01')), id: 'T1.1' });
    job.cables.reverse();
    for (const cable of job.cables) Object.assign(cable, { fuse: null, protectedBy: 'driver' });
    // C02.1 lies between C01 and C02.2 and hangs on another output.
    cableOf(job, 'C02.1').output = 'D2.1';
    const [one] = job.drivers.drivers;
    const second = { ...structuredClone(one!), id: 'D2' };
    job.drivers.drivers.push({ ...second, outputs: [{ ...second.outputs[0]!, id: 'D2.1', runs: [] }] });
    expect(column('protection', 'protects', job).slice(-2)).toEqual([
      'cables T1.1, C01, C02.2 to C03.2, L1.1',
      'cable C02.1',
    ]);
  });

  it('bill whole metres and spares, with the strip left over counted as spare when it replaces any piece', () => {
    const total = (item: string) => {
      const index = column('bill', 'item').indexOf(item);
      return [column('bill', 'quantity')[index], column('bill', 'spare')[index]];
    };
    expect(total('Strip')).toEqual([1, 0]);
    // A link of 0.3 m and pairs of 2, 3 and 4 m, then single conductors of 5 and 6 m.
    expect(total('Cable')).toEqual([10, 1]);
    expect(total('Driver')).toEqual([1, 1]);
    expect(total('Distribution block')).toEqual([1, 0]);
    expect(total('Fuse with holder')).toEqual([3, 1]);
    expect(total('Terminal at the strip')).toEqual([8, 1]);
    expect(total('Strip joint')).toEqual([1, 1]);
    expect(column('bill', 'item')).not.toContain('Tap');
  });

  it('never promise what only the electrician can', () => {
    expect(JSON.stringify(all())).not.toMatch(/\b(compl(y|ies|iant)|approved|safe)\b/i);
  });
});

describe('every row of a small job', () => {
  it('of the driver', () => {
    expect(rowsOf(named('drivers'))).toEqual(
      byHand({
        ...{ output: 'D1.1', driver: 'D1', type: '24 V 60 W driver', place: 'Plinth', x: 200, y: 30 },
        ...{ runs: 'S01 to S03', zone: 'Left', set: 24, current: 0.44, currentLimit: 2.5 },
        ...{ load: 10.5, usable: 48, rated: 60, derating: 1, air: 35, case: 40, caseLimit: 80 },
        ...{ input: 12, inputA: 0.06, breaker: 'M1' },
      }),
    );
    expect(named('drivers').notes).toEqual(['Side by side.']);
    expect(named('cables').notes).toEqual([]);
  });

  it('of the driver under a limit of the dimmer, which is said above it', () => {
    const sentence = 'The dimmer must be made unable to go above 30 % of full.';
    const condition = {
      id: 'dimmer-limit',
      holds: 'heat',
      levels: [0.3],
      sentence,
      short: '',
    } satisfies Condition;
    expect(named('drivers', { ...input, conditions: [condition] }).notes).toEqual([
      sentence,
      'Side by side.',
    ]);
  });

  it('of the cables: both ends of each, every core, what it feeds, carries and is protected by', () => {
    // 0.1 A at 23.9 V is 2.39 W; lowest 23.8 V, 0.2 V below the driver; limit 5 % of 24 V, 1.2 V. Of the stretches, with 6, 5,
    // 4 circuits, the second decides.
    const each = {
      ...{ circuit: 'D1.1', area: 1.5, way: 'place, riser, foot run, panel, slot', grouped: 5, warm: 40 },
      ...{ nominal: 24, load: 2.39, current: 0.1, design: 0.12, capacity: 12, drop: 0.02 },
      ...{ lowest: 23.8, wholeDrop: 0.2, limit: 1.2, within: 'within', rating: 1 },
    };
    const pair = { ...each, polarity: 'plus and minus', cores: 2, type: '2 × 1.5 mm² fine-wire' };
    const single = { ...each, cores: 1, type: '1 × 1.5 mm² fine-wire' };
    const marks = (way: number, pad: string) =>
      `red: B1.1 way ${way} plus to ${pad} plus; white: B1.1 way ${way} minus to ${pad} minus`;
    // Each runs 600 mm more than its way; 13.3 mohm for every metre of every conductor.
    expect(rowsOf(named('cables'))).toEqual(
      byHand(
        {
          ...{ ...pair, cable: 'L1.1', zone: 'Left', from: 'D1.1', to: 'B1.1 in', feeds: 'S01-F1 to S03-F2' },
          marks: 'red: D1.1 plus to B1.1 in, plus; white: D1.1 minus to B1.1 in, minus',
          ...{ way: 'place', route: 100, cut: 300, grouped: 1, warm: 38, load: 9.56, current: 0.44 },
          ...{ design: 0.48, capacity: 14, drop: 0.004, loop: 0.00798, fuse: '', rating: null },
        },
        {
          ...{ ...pair, cable: 'C01', zone: 'Left', from: 'B1.1 way 1', to: 'S01-F1, start of S01' },
          ...{ feeds: 'S01-F1', marks: marks(1, 'S01-F1'), route: 1400, cut: 2000, loop: 0.0532 },
          fuse: 'F1.1-1',
        },
        {
          ...{ ...pair, cable: 'C02.1', zone: '', from: 'B1.1 way 2', to: 'S02-F1, start of S02' },
          ...{ feeds: 'S02-F1', marks: marks(2, 'S02-F1'), route: 2400, cut: 3000, loop: 0.0798 },
          fuse: 'F1.1-2',
        },
        {
          ...{ ...pair, cable: 'C02.2', zone: '', from: 'B1.1 way 2', to: 'S02-F2, finish of S02' },
          ...{ feeds: 'S02-F2', marks: marks(2, 'S02-F2'), route: 3400, cut: 4000, loop: 0.1064 },
          fuse: 'F1.1-2',
        },
        {
          ...{ ...single, cable: 'C03.1', zone: '', from: 'B1.1 way 3', to: 'S03-F1, start of S03' },
          ...{ feeds: 'S03-F1', polarity: 'plus only', marks: 'red: B1.1 way 3 plus to S03-F1 plus' },
          ...{ route: 4400, cut: 5000, loop: 0.0665, fuse: 'F1.1-3' },
        },
        {
          ...{ ...single, cable: 'C03.2', zone: '', from: 'B1.1 way 3', to: 'S03-F2, finish of S03' },
          ...{ feeds: 'S03-F2', polarity: 'minus only', marks: 'white: B1.1 way 3 minus to S03-F2 minus' },
          ...{ route: 5400, cut: 6000, loop: 0.0798, fuse: 'F1.1-3' },
        },
      ),
    );
  });

  it('of a trunk: the taps it passes; of a cable from run to run: the end it leaves; of a dimmer: its side', () => {
    const job = structuredClone(input) as Changed;
    const tap = (number: number) => ({ kind: 'tap', id: `D1.1-T${number}` }) as const;
    const trunk = cableOf(job, 'C01');
    const leg = trunk.legs[0]!;
    Object.assign(trunk, { to: tap(3), legs: [1, 2, 3].map((number) => ({ ...leg, to: tap(number) })) });
    const onward = { kind: 'pad', run: 'S01', cutLine: 20, feedPoint: null } as const;
    Object.assign(cableOf(job, 'C02.1'), { from: onward });
    Object.assign(cableOf(job, 'C02.2'), { from: { kind: 'dimmer', id: 'K1.1', side: 'out' } });
    Object.assign(cableOf(job, 'L1.1'), { to: { kind: 'dimmer', id: 'K1.1', side: 'in' } });
    Object.assign(cableOf(job, 'C03.1').to, { cutLine: 7 });
    expect(column('cables', 'to', job)).toEqual([
      ...['K1.1 in', 'D1.1-T3, past D1.1-T1, D1.1-T2', 'S02-F1, start of S02', 'S02-F2, finish of S02'],
      ...['S03-F1, cut line 7 of S03', 'S03-F2, finish of S03'],
    ]);
    expect(column('cables', 'from', job).slice(2, 4)).toEqual(['S01 finish', 'K1.1 out']);
  });

  it('of a cable of a zone with a way of its own', () => {
    const job = structuredClone(input) as Changed;
    job.job.dimming.zones[0]!.way = 'head';
    expect(column('cables', 'way', job).slice(1, 3)).toEqual([
      'place, riser, head run, panel, slot',
      'place, riser, foot run, panel, slot',
    ]);
  });

  it('of a cable with cores left over, which are bought too', () => {
    const job = structuredClone(input) as Changed;
    for (const cable of job.cables) cable.spareCoreCount = cable.conductorCount === 2 ? 1 : 0;
    expect(column('cables', 'marks', job)[1]).toMatch(/ to S01-F1 minus; spare: 1$/);
    expect(column('bill', 'description', structuredClone(job))[1]).toBe(
      '2 × 1.5 mm² fine-wire, 3 cores, 1 of them spare',
    );
  });

  it('of a cable that serves two runs: the sum of the load, the lowest volts, the greatest drop, both zones', () => {
    const shared = structuredClone(input) as Changed;
    cableOf(shared, 'C01').serves.push('S02-F1');
    shared.setOut.runs[1]!.zone = 'Right';
    Object.assign(shared.circuit.runs[0]!, { lowest_V: 22.6, drop_V: 1.2 });
    Object.assign(shared.circuit.runs[1]!, { lowest_V: 22.5, drop_V: 1.5 });
    // All of S01, 2.39 W, and half of S02, of 4.78 W; 1.5 V is over 1.2 V, 1.2 V by itself is not.
    expect(rowsOf(named('cables', shared))[1]).toMatchObject({
      ...{ zone: 'Left, Right', feeds: 'S01-F1, S02-F1', load: expect.closeTo(4.78, 9) },
      ...{ lowest: 22.5, wholeDrop: 1.5, within: 'over' },
    });
    Object.assign(shared.circuit.runs[1]!, { lowest_V: 22.7, drop_V: 1.1 });
    expect(rowsOf(named('cables', shared))[1]).toMatchObject({
      ...{ lowest: 22.6, wholeDrop: 1.2, within: 'within' },
    });
  });

  it('of a run fed at both ends: each cable has the part of its watts that its current is', () => {
    const uneven = structuredClone(input) as Changed;
    uneven.circuit.runs[1]!.feed_A[0]!.current_A = 0.3;
    // 0.3 and 0.1 A of 4.78 W.
    expect(column('cables', 'load', uneven).slice(2, 4)).toEqual(
      [3.585, 1.195].map((x) => expect.closeTo(x, 9)),
    );
  });

  it('of a run that current passes on its way to the next: its own watts, not what passes', () => {
    const onward = structuredClone(input) as Changed;
    onward.circuit.runs[0]!.feed_A[0]!.current_A = 0.3;
    expect(column('cables', 'load', onward)[1]).toBeCloseTo(2.39, 9);
  });

  it('of the feed points', () => {
    const each = { output: 'D1.1', current: 0.1 };
    const start = { at: 'start', along: 0, cutLine: 0, y: 110 };
    const finish = { at: 'finish', along: 1000, cutLine: 20, y: 1110 };
    const pair = { ...each, polarity: 'plus and minus', volts: 23.9 };
    const s02 = { ...pair, slot: 'S02', run: 'S02', x: 600 };
    const s03 = { ...each, slot: 'S03', run: 'S03', x: 900, volts: null };
    expect(rowsOf(named('feed-points'))).toEqual(
      byHand(
        { ...pair, ...start, feedPoint: 'S01-F1', slot: 'S01', run: 'S01', x: 300, cable: 'C01' },
        { ...s02, ...start, feedPoint: 'S02-F1', cable: 'C02.1' },
        { ...s02, ...finish, feedPoint: 'S02-F2', cable: 'C02.2' },
        { ...s03, ...start, feedPoint: 'S03-F1', cable: 'C03.1', polarity: 'plus only' },
        { ...s03, ...finish, feedPoint: 'S03-F2', cable: 'C03.2', polarity: 'minus only' },
      ),
    );
  });

  it('of a feed point between the ends, at a cable behind a trunk', () => {
    const between = structuredClone(input) as Changed;
    Object.assign(between.setOut.runs[0]!.feedPoints[0]!, { cutLine: 7, at: 'between' });
    cableOf(between, 'C02.1').serves.push('S01-F1');
    // 7 of 20 units of a metre; the last cable on the way is the one that lands there.
    expect(rowsOf(named('feed-points', between))[0]).toMatchObject({
      ...{ at: 'between the ends', along: 350, cutLine: 7, cable: 'C02.1' },
    });
  });

  it('of a feed point that was not solved by itself, or has no cable: nothing stands for what is not known', () => {
    const unsolved = structuredClone(input) as Changed;
    for (const run of unsolved.circuit.runs) run.feed_A = [];
    unsolved.cables.splice(0, 2);
    expect(rowsOf(named('feed-points', unsolved))[0]).toMatchObject({
      ...{ current: null, volts: null, cable: null },
    });
    expect(column('cables', 'load', unsolved)).toEqual([0, 0, 0, 0]);
  });

  it('of the protection: the mains, every fuse with what is behind it, and what the limit of the driver holds', () => {
    const fuse = {
      ...{ device: 'small fuse, IEC 60127-2, 250 V', rating: 1, capacity: 12, source: 2.5, breaking: 35 },
      remark: '',
    };
    const written = {
      ...{ device: null, rating: null, design: null, capacity: null, source: null, breaking: null },
      ...{ location: null, remark: 'Written in by the licensed electrician.' },
    };
    expect(rowsOf(named('protection'))).toEqual(
      byHand(
        {
          ...{ ref: 'M1', protects: 'mains side of driver D1, 230 V', rating: 16, design: 0.06 },
          ...{ device: 'circuit-breaker B16 to IEC 60898-1', capacity: null, source: null, breaking: null },
          location: 'chosen and placed by the licensed electrician',
          remark:
            '1 driver of at most 1; its peak on switching on is about 40 A (inrush typical, not the maker’s).',
        },
        {
          ...{ ...written, ref: 'isolator' },
          protects: 'those who work on the drivers: cuts all of them off the mains',
        },
        {
          ...{ ...written, ref: 'RCD' },
          protects: 'against shock on the mains side: its current and its type',
        },
        {
          ...{ ...written, ref: 'earth' },
          protects: 'drivers and metal that need a protective earth: its conductor and where it joins',
        },
        {
          ...{ ...fuse, ref: 'F1.1-1', protects: 'cable C01', design: 0.12 },
          location: 'B1.1 way 1, in the plus',
        },
        {
          ...{ ...fuse, ref: 'F1.1-2', protects: 'cables C02.1, C02.2', design: 0.24 },
          location: 'B1.1 way 2, in the plus',
        },
        // The return of S03 has no fuse of its own.
        {
          ...{ ...fuse, ref: 'F1.1-3', protects: 'cables C03.1, C03.2', design: 0.12 },
          location: 'B1.1 way 3, in the plus',
        },
        // 1.5 x 2.5 A.
        {
          ...{ ref: 'D1.1', protects: 'cable L1.1', device: 'limit of the driver', rating: null },
          ...{ design: 0.48, capacity: 14, source: 2.5, breaking: null, location: 'in the driver' },
          remark:
            'At 1.5 times its rating, 3.75 A, the driver has limited, and every cable named may carry that.',
        },
      ),
    );
  });

  it('of the mains side: a row for each breaker, by the rules of the country', () => {
    const job = structuredClone(input) as Changed;
    const [only] = job.drivers.drivers;
    for (const id of ['D2', 'D3']) job.drivers.drivers.push({ ...structuredClone(only!), id });
    const { breaker } = job.drivers;
    Object.assign(breaker.models[0]!, { mostDrivers: 2, isInrushPrinted: true });
    breaker.loads = [
      { id: 'M1', drivers: ['D1', 'D2'], input_A: 0.12, inrush_A: 80, share: 1 },
      { id: 'M2', drivers: ['D3'], input_A: 0.06, inrush_A: 40, share: 0.5 },
    ];
    job.job.site.rules = 'BS 7671';
    expect(rowsOf(named('protection', job)).slice(0, 2)).toMatchObject([
      {
        ...{ ref: 'M1', protects: 'mains side of drivers D1, D2, 230 V', rating: 16, design: 0.12 },
        device: 'circuit-breaker B16 to BS EN 60898-1',
        remark:
          '2 drivers of at most 2; their peaks on switching on add up to about 80 A (inrush as entered from the maker’s sheet).',
      },
      { ref: 'M2', protects: 'mains side of driver D3, 230 V', design: 0.06 },
    ]);
    expect(column('drivers', 'breaker', job)).toEqual(['M1', 'M1', 'M2']);
  });

  it('of the mains side where no driver may start on the breaker asked for', () => {
    const job = structuredClone(input) as Changed;
    job.drivers.breaker.loads = [];
    expect(rowsOf(named('protection', job)).slice(0, 2)).toMatchObject([
      {
        ...{ ref: 'M1', protects: 'mains side of all drivers', device: null, rating: null, design: null },
        remark:
          'Not even one driver may start on one B16 by these figures: choose another breaker, or fit an inrush limiter.',
      },
      { ref: 'isolator' },
    ]);
    expect(column('drivers', 'breaker', job)).toEqual([null]);
  });

  it('of the strip: piece by piece, joined and dark where it is', () => {
    const each = { reel: 'R1', unit: 1000 / input.products.strip.unitsPerMetre };
    const half = { ...each, slot: 'S01', units: 10, length: 500 };
    const whole = { ...each, units: 20, length: 1000, joint: '', darkStart: 10, darkFinish: 10 };
    expect(rowsOf(named('cutting-list'))).toEqual(
      byHand(
        { ...half, piece: 'S01-A', joint: 'S01-B', darkStart: 10, darkFinish: null },
        { ...half, piece: 'S01-B', joint: 'S01-A', darkStart: null, darkFinish: 10 },
        { ...whole, piece: 'S02-A', slot: 'S02' },
        { ...whole, piece: 'S03-A', slot: 'S03' },
      ),
    );
    const three = structuredClone(input) as Changed;
    const { pieces } = three.setOut.runs[0]!;
    pieces.push({ ...pieces[1]!, id: 'S01-C' });
    expect(column('cutting-list', 'joint', three).slice(0, 3)).toEqual(['S01-B', 'S01-A and S01-C', 'S01-B']);
    expect(column('cutting-list', 'darkFinish', three).slice(0, 3)).toEqual([null, null, 10]);
  });

  it('of the reels', () => {
    expect(rowsOf(named('reels'))).toEqual(
      byHand({
        ...{ reel: 'R1', strip: input.products.strip.name, length: 5000, used: 3000, left: 2000 },
        pieces: 'S01-A to 500, S01-B to 1000, S02-A to 2000, S03-A to 3000',
      }),
    );
  });

  // 1150 mm are 3.77 ft, cut to 3.8; four of them 15.1 ft, two 7.5 ft. A piece of 500 mm is 19.685 in: 19 11/16.
  it('of cables, pieces and the bill in feet and inches too, under the NEC', () => {
    const job = structuredClone(input) as Changed;
    job.job.site.rules = 'NEC';
    for (const cable of job.cables) Object.assign(cable, { length_mm: 1150 });
    expect(new Set(column('cables', 'cutFeet', job))).toEqual(new Set([3.8]));
    expect(column('cutting-list', 'lengthInches', job)).toContain('19 11/16');
    const bought = rowsOf(named('bill', job)).filter(({ item }) => item === 'Cable');
    expect(bought.map(({ quantity, unit }) => [quantity, unit])).toEqual([
      [16, 'ft'],
      [8, 'ft'],
    ]);
    for (const schedule of ['cables', 'cutting-list'] as const)
      expect(named(schedule).columns.filter(({ key }) => /Feet|Inches/.test(key))).toEqual([]);
  });

  it('of the bill', () => {
    // 0.3 + 2 + 3 + 4 = 9.3 m of pairs, 5 + 6 = 11 m of single conductors, a tenth more begun: 1 and 2.
    // Terminals: a pair at three feed points, one conductor at two. A fifth of 3 fuses is 1.
    const spares = 'counted; one spare for every ten begun';
    const lengths = 'cut lengths with their allowance, whole metres; one tenth spare';
    expect(rowsOf(named('bill'))).toEqual([
      {
        ...{ item: 'Strip', quantity: 1, spare: 0, total: 1, unit: 'reel' },
        description: `${input.products.strip.name}, reel of 5,000 mm`,
        basis: 'no spare reel: 2,000 mm left on one reel replaces any piece',
      },
      {
        ...{ item: 'Cable', description: '2 × 1.5 mm² fine-wire, 2 cores' },
        ...{ quantity: 10, spare: 1, total: 11, unit: 'm', basis: lengths },
      },
      {
        ...{ item: 'Cable', description: '1 × 1.5 mm² fine-wire, 1 core' },
        ...{ quantity: 11, spare: 2, total: 13, unit: 'm', basis: lengths },
      },
      {
        ...{ item: 'Driver', description: '24 V 60 W driver' },
        ...{ quantity: 1, spare: 1, total: 2, unit: 'piece', basis: spares },
      },
      {
        ...{ item: 'Distribution block', quantity: 1, spare: 0, total: 1, unit: 'piece' },
        description: 'one way in, 3 out, plus and minus, up to 2 cable ends on a way',
        basis: 'one for each output that several cable ends meet, or that needs fuses',
      },
      {
        ...{ item: 'Fuse with holder', description: 'small fuse, IEC 60127-2, 250 V, 1 A' },
        ...{ quantity: 3, spare: 1, total: 4, unit: 'piece' },
        basis: 'one for each fused way; one spare for every five begun',
      },
      {
        ...{ item: 'Terminal at the strip', description: 'one for each conductor made off at a strip' },
        ...{ quantity: 8, spare: 1, total: 9, unit: 'piece', basis: spares },
      },
      {
        ...{ item: 'Strip joint', description: 'all rails, piece to piece at a cut line' },
        ...{ quantity: 1, spare: 1, total: 2, unit: 'piece', basis: spares },
      },
    ]);
  });

  it('of a bill with two sizes of fuse, two kinds of block, a spare reel, taps, and cables that go on from runs', () => {
    const more = structuredClone(input) as Changed;
    const [block] = more.installation.blocks;
    block!.ways[2]!.fuse!.rating_A = 3;
    const single = { ...structuredClone(block!), id: 'B2.1' };
    single.ways = [1, 2, 3].map((number) => ({ number, fuse: null, cables: ['C01'] }));
    more.installation.blocks.push(single, { ...single, id: 'B3.1' });
    for (const id of ['D1.1-T1', 'D1.1-T2'])
      more.installation.taps.push({ id, cable: 'T1.1', x_mm: 0, y_mm: 0 });
    more.setOut.reels[0]!.left_mm = 999;
    // A pair leaves S01 at its finish: two terminals more.
    Object.assign(cableOf(more, 'C02.1'), {
      from: { kind: 'pad', run: 'S01', cutLine: 20, feedPoint: null },
    });
    const rows = rowsOf(named('bill', more));
    const of = (item: string) => rows.filter((each) => each.item === item);
    expect(of('Fuse with holder')).toMatchObject([
      { description: 'small fuse, IEC 60127-2, 250 V, 1 A', quantity: 2, spare: 1 },
      { description: 'small fuse, IEC 60127-2, 250 V, 3 A', quantity: 1, spare: 1 },
    ]);
    expect(of('Distribution block')).toMatchObject([
      { description: 'one way in, 3 out, plus and minus, up to 2 cable ends on a way', quantity: 1 },
      { description: 'one way in, 3 out, plus and minus, one cable on a way', quantity: 2 },
    ]);
    expect(rows[0]).toMatchObject({
      ...{ quantity: 1, spare: 1, total: 2 },
      basis:
        'one spare reel of the same batch: the longest offcut, 999 mm, does not replace a piece of 1,000 mm',
    });
    expect(of('Terminal at the strip')).toMatchObject([{ quantity: 10 }]);
    expect(of('Tap')).toMatchObject([
      { description: 'branch from the trunk, all conductors', quantity: 2, spare: 1, total: 3 },
    ]);
    more.setOut.reels[0]!.left_mm = 1000;
    expect(rowsOf(named('bill', more))[0]!.spare).toBe(0);
  });

  it('of a bill of two channels: a block with a minus for each behind a dimmer, with one minus without', () => {
    const two = structuredClone(input) as Changed;
    two.products.strip.channels.push(two.products.strip.channels[0]!);
    expect(column('bill', 'description', two)).toContain(
      'one way in, 3 out, plus and minus, up to 2 cable ends on a way',
    );
    two.installation.dimmers = [{ id: 'K1.1', output: 'D1.1' }] as never;
    expect(column('bill', 'description', two)).toContain(
      'one way in, 3 out, plus and 2 minus, up to 2 cable ends on a way',
    );
  });

  it('of cables by the drop in the worst combination of tolerances as well', () => {
    const job = structuredClone(input) as Changed;
    const greatest = (drop: number) => {
      for (const run of job.circuit.runs) Object.assign(run, { band: { drop: { greatest: drop } } });
      return [...new Set(column('cables', 'within', job))];
    };
    // The limit is 5 % of 24 V; as drawn the drop is 0.2 V.
    expect(greatest(0.05)).toEqual(['within']);
    expect(greatest(0.051)).toEqual(['over at worst']);
  });

  it('of drivers in a remote place: where they stand on the panel is not said, for they do not', () => {
    const job = structuredClone(input) as Changed;
    expect(column('drivers', 'x', job)).toEqual([expect.any(Number)]);
    Object.assign(job.job.drivers.places[0]!, { kind: 'remote' });
    expect(column('drivers', 'x', job)).toEqual([null]);
    expect(column('drivers', 'y', job)).toEqual([null]);
  });

  it('of a bill with a ring: both its ends are made off to its way', () => {
    const ring = structuredClone(input) as Changed;
    ring.installation.blocks[0]!.ways[1]!.cables = ['C02.1'];
    expect(column('bill', 'description', ring)).toContain(
      'one way in, 3 out, plus and minus, one cable on a way',
    );
    const back = { kind: 'block', id: 'B1.1', way: 2 } as const;
    Object.assign(cableOf(ring, 'C02.1'), { from: back, to: back });
    expect(column('bill', 'description', ring)).toContain(
      'one way in, 3 out, plus and minus, up to 2 cable ends on a way',
    );
  });

  it('of ratings and areas: as many decimals as they are marked with', () => {
    const digitsOf = (id: 'protection' | 'cables', key: string, of: typeof input) =>
      named(id, of).columns.find((each) => each.key === key)!.digits;
    // A breaker of 16 A and fuses of 1 A; cores of 1.5 mm2.
    expect(digitsOf('protection', 'rating', input)).toBe(0);
    expect(digitsOf('cables', 'area', input)).toBe(1);
    const odd = structuredClone(input) as Changed;
    odd.installation.blocks[0]!.ways[0]!.fuse!.rating_A = 6.3;
    expect(digitsOf('protection', 'rating', odd)).toBe(1);
    odd.installation.blocks[0]!.ways[1]!.fuse!.rating_A = 3.15;
    expect(digitsOf('protection', 'rating', odd)).toBe(2);
  });

  it('of a bill with two reels: the longer offcut counts', () => {
    const two = structuredClone(input) as Changed;
    two.setOut.reels.unshift({ ...two.setOut.reels[0]!, id: 'R0', left_mm: 0 });
    expect(rowsOf(named('bill', two))[0]).toMatchObject({ quantity: 2, spare: 0 });
  });

  it('needs every run set out and solved', () => {
    const strange = structuredClone(input) as Changed;
    strange.circuit.runs.pop();
    expect(() => all(strange)).toThrow(new RangeError('the hand-over lacks solved run S03'));
    const missing = structuredClone(input) as Changed;
    missing.drivers.drivers[0]!.outputs[0]!.runs.push('S09');
    expect(() => all(missing)).toThrow(new RangeError('the hand-over lacks run S09'));
  });
});
