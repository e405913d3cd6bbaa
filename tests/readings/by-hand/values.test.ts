import { describe, expect, it } from 'vitest';
import { isOpen, judgeReading, measuredValues, readingsOf } from '../../../src/readings/readings.ts';
import { sheet } from './sheet.ts';

const written = new Map([['S01-F1', { loop: 0.21, loaded: 0, current: null }]]);
const readingsNow = () => readingsOf(sheet, written);

describe('readings of a test sheet', () => {
  it('are its boxes in order, with what was written into them', () => {
    const readings = readingsNow();
    expect(readings.map(({ row, quantity, measured }) => [row, quantity, measured])).toEqual([
      ['D1.1', 'noLoad', null],
      ['D1.1', 'loaded', null],
      ['D1.1', 'current', null],
      ['S01-F1', 'loop', 0.21],
      ['S01-F1', 'noLoad', null],
      ['S01-F1', 'loaded', 0],
      ['S01-F1', 'current', null],
      ['S01 finish', 'loop', null],
      ['S01 finish', 'noLoad', null],
      ['S01 finish', 'loaded', null],
    ]);
    expect(readings[3]).toMatchObject({ predicted: 0.2, low: 0.17, high: 0.32 });
  });

  it.each([
    [null, 'not measured'],
    [22.79, 'below band'],
    [22.8, 'in band'],
    [24.8, 'in band'],
    [24.81, 'above band'],
    [0, 'below band'],
  ])('of %d in a band of 22.8 to 24.8 are %s', (measured, judged) => {
    expect(judgeReading({ ...readingsNow()[5]!, measured })).toBe(judged);
  });

  // OL is beyond the range, whatever it is; a meter that shows ohms has a figure for them, and still none in the band.
  it('of OL, the meter beyond its range, are an open circuit', () => {
    const loop = readingsNow()[3]!;
    expect(judgeReading({ ...loop, measured: 'OL' })).toBe('open circuit');
    expect(judgeReading({ ...loop, measured: 5000 })).toBe('above band');
    expect([isOpen({ ...loop, measured: 'OL' }), isOpen({ ...loop, measured: 5000 })]).toEqual([true, true]);
    expect([isOpen(loop), isOpen({ ...loop, measured: 200 })]).toEqual([false, false]);
  });

  // 0 and 1/5000 = 0.0002 siemens, each within 1/200 = 0.005 siemens; no gain of 0.5 % opens a loop.
  it('of an open loop are a conductance of nothing', () => {
    const loops = readingsNow().filter(({ quantity }) => quantity === 'loop');
    const open = loops.map((one, i) => ({ ...one, measured: i === 0 ? ('OL' as const) : 5000 }));
    const { measured, spread, shifts } = measuredValues(open, []);
    expect(measured).toEqual([0, 0.0002]);
    expect(spread).toEqual([0.005, 0.005]);
    expect(shifts[0]).toEqual([0, 0]);
  });

  // Hand-held meters (common practice): 0.01 V, 0.01 ohm, 0.02 A each; gains of 0.3 %, 0.5 % and 1 %.
  it('have the spread of their meter, and share its gain', () => {
    const readings = readingsNow();
    const other = readings.map((_, i) => i);
    const { measured, spread, shifts } = measuredValues(readings, [other]);
    expect(measured).toEqual([null, null, null, 0.21, null, 0, null, null, null, null]);
    expect(spread).toEqual([0.01, 0.01, 0.02, 0.01, 0.01, 0.01, 0.02, 0.01, 0.01, 0.01]);
    const expected = [
      [0, 0, 0, 0.001, 0, 0, 0, 0.002, 0, 0],
      [0.072, 0.072, 0, 0, 0.072, 0.0714, 0, 0, 0.072, 0.0705],
      [0, 0, 0.02, 0, 0, 0, 0.01, 0, 0, 0],
      other,
    ];
    expect(shifts).toHaveLength(4);
    for (const [k, shift] of shifts.entries())
      for (const [i, x] of shift.entries()) expect(x).toBeCloseTo(expected[k]![i]!, 12);
  });
});
