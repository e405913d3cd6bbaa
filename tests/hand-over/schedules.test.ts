import { describe, expect, it } from 'vitest';
import { type Schedule, schedule as scheduleSchema } from '../../src/answer/sizing.ts';
import { schedulesOf } from '../../src/hand-over/schedules.ts';
import { listed } from '../../src/hand-over/wiring.ts';
import { smallJob } from './small-job.ts';

const input = smallJob();
const all = schedulesOf(input);

function named(id: Schedule['id']): Schedule {
  return all.find((schedule) => schedule.id === id)!;
}

function column(id: Schedule['id'], key: string) {
  const schedule = named(id);
  const index = schedule.columns.findIndex((c) => c.key === key);
  if (index < 0) throw new Error(`${id} has no column ${key}`);
  return schedule.rows.map((row) => row[index]!);
}

describe('schedules', () => {
  it('have the shape the contract asks for, unique columns, full rows and finite numbers', () => {
    for (const schedule of all) {
      expect(scheduleSchema.safeParse(schedule).success, schedule.id).toBe(true);
      const keys = schedule.columns.map((c) => c.key);
      expect(new Set(keys).size).toBe(keys.length);
      for (const row of schedule.rows) expect(row).toHaveLength(keys.length);
    }
    expect(new Set(all.map((schedule) => schedule.id)).size).toBe(8);
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

  it('warn where the driver may hold the fuse closed, and ask for the 58 V fuse at 48 V', () => {
    // 60 W at 24 V gives 2.5 A: above twice 1 A, which opens the fuse, and below twice 2 A.
    expect(column('protection', 'remark')[1]).toBe('');
    const weak = { ...input, cables: input.cables.map((c) => ({ ...c, fuse_A: 2, fuseOpens: false })) };
    const protection = schedulesOf(weak).find((s) => s.id === 'protection')!;
    expect(protection.rows[1]!.at(-1)).toContain('may hold this fuse closed');
    const products = { ...input.products, driver: { ...input.products.driver, output_V: 48 as const } };
    const at48 = schedulesOf({ ...input, products }).find((s) => s.id === 'protection')!;
    expect(at48.rows[1]![2]).toBe('blade fuse, 58 V');
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
    expect(JSON.stringify(all)).not.toMatch(/\b(compl(y|ies|iant)|approved|safe)\b/i);
  });
});
