import { describe, expect, it } from 'vitest';
import type { Cable } from '../../src/answer/cables.ts';
import type { Condition } from '../../src/answer/conditions.ts';
import { type Schedule, schedule as scheduleSchema } from '../../src/answer/schedules.ts';
import type { HandOverInput } from '../../src/hand-over/input.ts';
import { schedulesOf } from '../../src/hand-over/schedules.ts';
import { listed } from '../../src/hand-over/wiring.ts';
import { byHand, column as columnOf, rowsOf } from './rows.ts';
import { smallJob } from './small-job.ts';

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
    expect(column('protection', 'ref')).toEqual(['mains', ...input.cables.map((c) => c.id)]);
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
    expect(column('cables', 'polarity')[0]).toBe('plus and minus');
  });

  it('name the zone, the drop against its limit, and the load of each cable', () => {
    expect(column('cables', 'zone')).toEqual(['Left', '', '', '', '']);
    expect(column('cables', 'limit')[0]).toBeCloseTo(0.05 * 24, 12);
    expect(new Set(column('cables', 'within'))).toEqual(new Set(['within limit']));
    expect(column('cables', 'load')[0]).toBeCloseTo(0.1 * 23.9, 12);
  });

  it('warn where the driver may hold the fuse closed', () => {
    // 60 W at 24 V gives 2.5 A: above twice 1 A, which opens the fuse, and below twice 2 A.
    expect(column('protection', 'remark')[1]).toBe('');
    const weak = { ...input, cables: input.cables.map((c) => ({ ...c, fuse_A: 2, fuseOpens: false })) };
    expect(column('protection', 'remark', weak)[1]).toBe(
      'The driver limits at about 2.50 A and may hold this fuse closed on a fault: the cable relies on that limit as well.',
    );
  });

  it('ask for a fuse of 32 V up to 24 V, and of 58 V at 48 V, where 32 V is less than what stands there', () => {
    for (const [output_V, device] of [
      [12, 'blade fuse, 32 V'],
      [24, 'blade fuse, 32 V'],
      [48, 'blade fuse, 58 V'],
    ] as const) {
      const products = { ...input.products, driver: { ...input.products.driver, output_V } };
      expect(column('protection', 'device', { ...input, products })[1]).toBe(device);
    }
  });

  it('name no device where no fuse fits, and what to do then', () => {
    const bare = { ...input, cables: [{ ...input.cables[0]!, fuse_A: null, fuseOpens: false }] };
    expect(rowsOf(named('protection', bare))[1]).toMatchObject({
      ...{ device: '', rating: null, breaking: null, design: 0.1, capacity: 12 },
      remark: 'No standard fuse lies between Ib and Iz: take a thicker cable or share the load.',
    });
    expect(column('cables', 'fuse', bare)).toEqual([null]);
    expect(column('bill', 'item', bare)).not.toContain('Fuse with holder');
  });

  it('bill whole metres and spares, with the strip left over counted as spare when it replaces any piece', () => {
    const total = (item: string) => {
      const index = column('bill', 'item').indexOf(item);
      return [column('bill', 'quantity')[index], column('bill', 'spare')[index]];
    };
    expect(total('Strip')).toEqual([1, 0]);
    // Pairs of 2, 3 and 4 m, then single conductors of 5 and 6 m.
    expect(total('Cable')).toEqual([9, 1]);
    expect(total('Driver')).toEqual([1, 1]);
    expect(total('Fuse with holder')).toEqual([5, 1]);
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
        ...{ input: 12, inputA: 0.06 },
      }),
    );
    expect(named('drivers').notes).toEqual([]);
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
    expect(named('drivers', { ...input, conditions: [condition] }).notes).toEqual([sentence]);
  });

  it('of the cables: the same load everywhere, lengths and loops of their own', () => {
    // 0.1 A at 23.9 V is 2.39 W; lowest 23.8 V, 0.2 V below the driver; limit 5 % of 24 V, 1.2 V.
    const each = {
      ...{ circuit: 'D1.1', from: 'D1.1', type: '2 × 1.5 mm² fine-wire', area: 1.5, way: 'foot run' },
      ...{ grouped: 4, warm: 40, nominal: 24, load: 2.39, current: 0.1, capacity: 12, drop: 0.02 },
      ...{ lowest: 23.8, wholeDrop: 0.2, limit: 1.2, within: 'within limit', fuse: 1 },
    };
    const pair = { ...each, polarity: 'plus and minus', cores: 2 };
    // Each runs 600 mm more than its way; 13.3 mohm for every metre of every conductor.
    expect(rowsOf(named('cables'))).toEqual(
      byHand(
        { ...pair, cable: 'C01', to: 'S01-F1', zone: 'Left', route: 1400, cut: 2000, loop: 0.0532 },
        { ...pair, cable: 'C02', to: 'S02-F1', zone: '', route: 2400, cut: 3000, loop: 0.0798 },
        { ...pair, cable: 'C03', to: 'S02-F2', zone: '', route: 3400, cut: 4000, loop: 0.1064 },
        {
          ...{ ...each, cable: 'C04', to: 'S03-F1', zone: '', route: 4400, cut: 5000, loop: 0.0665 },
          ...{ polarity: 'plus only', cores: 1 },
        },
        {
          ...{ ...each, cable: 'C05', to: 'S03-F2', zone: '', route: 5400, cut: 6000, loop: 0.0798 },
          ...{ polarity: 'minus only', cores: 1 },
        },
      ),
    );
  });

  it('of a cable that serves two runs: the sum of the load, the lowest volts, the greatest drop, both zones', () => {
    const shared = structuredClone(input) as Changed;
    shared.cables[0]!.serves.push('S02-F1');
    shared.setOut.runs[1]!.zone = 'Right';
    Object.assign(shared.circuit.runs[0]!, { lowest_V: 22.6, drop_V: 1.2, output: 'D1.1' });
    Object.assign(shared.circuit.runs[1]!, { lowest_V: 22.5, drop_V: 1.5, output: 'D1.2' });
    // 2 x 2.39 W; 1.5 V is over 1.2 V, 1.2 V by itself is not.
    expect(rowsOf(named('cables', shared))[0]).toMatchObject({
      ...{ circuit: 'D1.1, D1.2', zone: 'Left, Right', to: 'S01-F1, S02-F1', polarity: 'plus and minus' },
      ...{ load: expect.closeTo(4.78, 9), lowest: 22.5, wholeDrop: 1.5, within: 'over limit' },
    });
    Object.assign(shared.circuit.runs[1]!, { lowest_V: 22.7, drop_V: 1.1 });
    expect(rowsOf(named('cables', shared))[0]).toMatchObject({
      ...{ lowest: 22.6, wholeDrop: 1.2, within: 'within limit' },
    });
  });

  it('of a single conductor on a trunk of plus and minus: the trunk names both', () => {
    const crossed = structuredClone(input) as Changed;
    crossed.cables[0]!.serves = ['S03-F1', 'S03-F2'];
    expect(column('cables', 'polarity', crossed)[0]).toBe('plus and minus');
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
        { ...s02, ...start, feedPoint: 'S02-F1', cable: 'C02' },
        { ...s02, ...finish, feedPoint: 'S02-F2', cable: 'C03' },
        { ...s03, ...start, feedPoint: 'S03-F1', cable: 'C04', polarity: 'plus only' },
        { ...s03, ...finish, feedPoint: 'S03-F2', cable: 'C05', polarity: 'minus only' },
      ),
    );
  });

  it('of a feed point between the ends, at a cable behind a trunk', () => {
    const between = structuredClone(input) as Changed;
    Object.assign(between.setOut.runs[0]!.feedPoints[0]!, { cutLine: 7, at: 'between' });
    between.cables[1]!.serves.push('S01-F1');
    // 7 of 20 units of a metre; the last cable on the way is the one that lands there.
    expect(rowsOf(named('feed-points', between))[0]).toMatchObject({
      ...{ at: 'between the ends', along: 350, cutLine: 7, cable: 'C02' },
    });
  });

  it('of a feed point that was not solved by itself, or has no cable: nothing stands for what is not known', () => {
    const unsolved = structuredClone(input) as Changed;
    for (const run of unsolved.circuit.runs) run.feed_A = [];
    unsolved.cables.shift();
    expect(rowsOf(named('feed-points', unsolved))[0]).toMatchObject({
      ...{ current: null, volts: null, cable: null },
    });
    expect(column('cables', 'load', unsolved)).toEqual([0, 0, 0, 0]);
  });

  it('of the protection: the mains, then every cable', () => {
    const each = {
      ...{ device: 'blade fuse, 32 V', rating: 1, design: 0.1, capacity: 12, source: 2.5 },
      ...{ breaking: 1000, location: 'at D1.1, driver D1', remark: '' },
    };
    const ids = ['C01', 'C02', 'C03', 'C04', 'C05'];
    expect(rowsOf(named('protection'))).toEqual(
      byHand(
        {
          ...{ ref: 'mains', protects: 'mains side of all drivers, 230 V', rating: 16, design: 0.06 },
          ...{ device: 'circuit breaker B16 to IEC 60898-1', capacity: null, source: null, breaking: null },
          location: 'chosen and placed by the licensed electrician',
          remark: 'Drivers: 1, at most 1 on one B16, breakers needed: 1: 3 × 16 A × √2 / 40 A.',
        },
        ...ids.map((ref) => ({ ...each, ref, protects: `cable ${ref}, 2 × 1.5 mm² fine-wire` })),
      ),
    );
    const idle = { ...input, cables: [{ ...input.cables[0]!, serves: [] }] };
    expect(column('protection', 'location', idle)[1]).toBe('at D1.1');
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

  it('of the bill', () => {
    // 2 + 3 + 4 = 9 m of pairs, 5 + 6 = 11 m of single conductors, a tenth more begun: 1 and 2.
    // Terminals: a pair at three feed points, one conductor at two. A fifth of 5 fuses is 1.
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
        ...{ quantity: 9, spare: 1, total: 10, unit: 'm', basis: lengths },
      },
      {
        ...{ item: 'Cable', description: '2 × 1.5 mm² fine-wire, 1 core' },
        ...{ quantity: 11, spare: 2, total: 13, unit: 'm', basis: lengths },
      },
      {
        ...{ item: 'Driver', description: input.products.driver.name },
        ...{ quantity: 1, spare: 1, total: 2, unit: 'piece', basis: spares },
      },
      {
        ...{ item: 'Fuse with holder', description: '1 A', quantity: 5, spare: 1, total: 6, unit: 'piece' },
        basis: 'one for each cable; one spare for every five begun',
      },
      {
        ...{ item: 'Terminal at the strip', description: 'one for each conductor at each feed point' },
        ...{ quantity: 8, spare: 1, total: 9, unit: 'piece', basis: spares },
      },
      {
        ...{ item: 'Strip joint', description: 'all rails, piece to piece at a cut line' },
        ...{ quantity: 1, spare: 1, total: 2, unit: 'piece', basis: spares },
      },
    ]);
  });

  it('of a bill with two sizes of fuse, a spare reel, more channels and taps that several cables share', () => {
    const more = structuredClone(input) as Changed;
    for (const cable of more.cables.slice(0, 3)) cable.from = { kind: 'tap', id: 'D1.1-T1' };
    more.cables[3]!.from = { kind: 'tap', id: 'D1.1-T2' };
    more.cables[4]!.fuse_A = 3;
    more.setOut.reels[0]!.left_mm = 999;
    more.products.strip.channels.push(more.products.strip.channels[0]!);
    const rows = rowsOf(named('bill', more));
    expect(rows.filter(({ item }) => item === 'Fuse with holder')).toMatchObject([
      { description: '1 A', quantity: 4, spare: 1 },
      { description: '3 A', quantity: 1, spare: 1 },
    ]);
    expect(rows[0]).toMatchObject({
      ...{ quantity: 1, spare: 1, total: 2 },
      basis:
        'one spare reel of the same batch: the longest offcut, 999 mm, does not replace a piece of 1,000 mm',
    });
    // Three pairs of 1 + 2 conductors, one plus, two minus.
    expect(rows.find(({ item }) => item === 'Terminal at the strip')!.quantity).toBe(12);
    expect(rows.find(({ item }) => item === 'Tap')).toMatchObject({
      ...{ description: 'branch from the trunk, all conductors', quantity: 2, spare: 1, total: 3 },
    });
    more.setOut.reels[0]!.left_mm = 1000;
    expect(rowsOf(named('bill', more))[0]!.spare).toBe(0);
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
