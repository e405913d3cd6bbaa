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
