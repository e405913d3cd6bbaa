import { describe, expect, it } from 'vitest';
import { testRows } from '../../src/hand-over/test-sheet.ts';
import { judgeReading, measuredValues, readingsOf } from '../../src/readings/readings.ts';
import { smallJob } from '../hand-over/small-job.ts';

const rows = testRows(smallJob());

describe('readings', () => {
  it('are one for each box of the sheet that applies', () => {
    const boxes = rows
      .flatMap((r) => [r.loop, r.noLoad, r.loaded, r.current])
      .filter((band) => band !== null);
    expect(readingsOf(rows, new Map())).toHaveLength(boxes.length);
  });

  it('are judged against their band, edges included', () => {
    const reading = { row: 'S01-F1', quantity: 'loaded', predicted: 23.9, low: 23, high: 24.5 } as const;
    const judged = [null, 22.9, 23, 24.5, 24.6].map((measured) => judgeReading({ ...reading, measured }));
    expect(judged).toEqual(['not measured', 'below band', 'in band', 'in band', 'above band']);
  });

  it('take what was written into their own box', () => {
    const written = new Map([['S01-F1', { loop: 0.07, loaded: 23.8 }]]);
    const measured = readingsOf(rows, written).filter((reading) => reading.measured !== null);
    expect(measured.map((r) => [r.row, r.quantity, r.measured])).toEqual([
      ['S01-F1', 'loop', 0.07],
      ['S01-F1', 'loaded', 23.8],
    ]);
  });

  it('share the gain of the meter they were taken with, and no other', () => {
    const readings = readingsOf(rows, new Map());
    const { shifts } = measuredValues(readings, []);
    for (const [i] of readings.entries()) expect(shifts.filter((shift) => shift[i] !== 0)).toHaveLength(1);
  });
});
