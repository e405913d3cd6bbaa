import { describe, expect, it } from 'vitest';
import { notMeasured, type TestRow, testRows, testSheet } from '../../src/hand-over/test-sheet.ts';
import { smallJob } from './small-job.ts';

const input = smallJob();
const rows = testRows(input);
const row = (id: string): TestRow => rows.find((r) => r.id === id)!;

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
    const places = rows.map((r) => r.id);
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
    for (const { loop, noLoad, loaded, current } of rows)
      for (const band of [loop, noLoad, loaded, current])
        if (band) {
          expect(band.low).toBeLessThanOrEqual(band.predicted);
          expect(band.high).toBeGreaterThanOrEqual(band.predicted);
        }
  });

  it('predicts no loop where cables do not form a chain', () => {
    const ring = structuredClone(input) as typeof input & { job: { cables: { layout: string } } };
    ring.job.cables.layout = 'ring';
    expect(testRows(ring).every((r) => r.loop === null)).toBe(true);
  });

  const cell = (id: string, key: string, sheet = testSheet(input)) =>
    sheet.rows.find((r) => r[0] === id)![sheet.columns.findIndex((c) => c.key === key)];

  it('takes every link out before power, with a box to tick, and links nothing it does not measure', () => {
    for (const each of rows) {
      expect(/link plus and minus/.test(each.step), each.id).toBe(each.isLinked);
      expect(/link plus and minus .*: loop\. Link OUT, tick\. All lit: volts/.test(each.step)).toBe(
        each.isLinked,
      );
      if (each.isLinked) expect(each.loop).not.toBeNull();
    }
    expect(cell('S01-F1', 'linkOut')).toBeNull();
    expect(cell('S03-F1', 'linkOut')).toBe(notMeasured);
    expect(cell('D1.1', 'linkOut')).toBe(notMeasured);
    const ring = structuredClone(input);
    ring.job.cables.layout = 'ring';
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
    expect(row('S01-F1').step).toContain('amps in series at the fuse of C01');
    const strong = structuredClone(input);
    strong.circuit.runs[0]!.feed_A[0]!.current_A = 1.5;
    Object.assign(strong.cables[0]!, { fuse_A: null });
    const [, first] = testRows(strong);
    expect(first!.step).toMatch(/volts at the pads, amps at D1\.1\.$/);
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
