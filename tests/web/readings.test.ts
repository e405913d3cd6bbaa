import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { fixed } from '../../web/format.ts';
import { undo } from '../../web/state/history.ts';
import {
  clearReadings,
  readingBoxes,
  tickBoxes,
  typeReading,
  writtenRows,
} from '../../web/state/readings.ts';
import { createStore, emptyState } from '../../web/state/store.ts';

function testSheet() {
  const sized = sizeJob(demoJobs[1]!.job);
  if (!sized.ok) throw new Error('the demo job must have an answer');
  return sized.value.schedules.find(({ id }) => id === 'test-sheet')!;
}

const sheet = testSheet();
const store = () => createStore({ ...emptyState, draft: { job: demoJobs[1]!.job, entries: {}, parked: {} } });

describe('boxes of the test sheet', () => {
  it('are one for each empty cell under “measured”', () => {
    const columns = sheet.columns.flatMap(({ key }, i) => (key.endsWith('Measured') ? [i] : []));
    const empty = sheet.rows.flatMap((row) => columns.filter((i) => row[i] === null));
    expect(readingBoxes(sheet, {})).toHaveLength(empty.length);
  });

  it('take the printed edges of their bands as in them, and a digit beyond as out', () => {
    for (const box of readingBoxes(sheet, {})) {
      const judged = (value: number): string => {
        const key = `${box.row} ${box.written}`;
        return readingBoxes(sheet, { [key]: fixed(value, 2) }).find((one) => one.text !== '')!.judged;
      };
      expect([judged(box.low), judged(box.high)]).toEqual(['in band', 'in band']);
      expect(judged(box.high + 0.01)).toBe('above band');
      if (box.low > 0.01) expect(judged(box.low - 0.01)).toBe('below band');
    }
  });

  it('go to the service row by row, without what is no reading', () => {
    const [first, second, third] = readingBoxes(sheet, {});
    const typed = store();
    typeReading(typed, first!, '12,1');
    typeReading(typed, second!, 'about 12');
    typeReading(typed, third!, ' 1.5 ');
    const { readings } = typed.get().draft!;
    expect(writtenRows(readingBoxes(sheet, readings!))).toEqual([
      { row: first!.row, [first!.written]: 12.1, [third!.written]: 1.5 },
    ]);
  });

  it('take an open loop as meters show it and people write it, and nowhere else', () => {
    const boxes = readingBoxes(sheet, {});
    const loop = boxes.find(({ written }) => written === 'loop_ohm')!;
    const volts = boxes.find(({ written }) => written === 'noLoad_V')!;
    const typed = (box: typeof loop, text: string) =>
      readingBoxes(sheet, { [`${box.row} ${box.written}`]: text }).find((one) => one.text !== '')!;
    for (const text of ['OL', ' ol ', '0L', 'O.L', 'O.L.', 'over', 'Overload', 'open', 'open loop', '∞']) {
      const box = typed(loop, text);
      expect([text, box.judged]).toEqual([text, 'open circuit']);
      expect(writtenRows([box])).toEqual([{ row: loop.row, loop_ohm: 'OL' }]);
      expect(typed(volts, text).judged).toBe('not a reading');
    }
    for (const text of ['0', 'O', 'L', 'opened', '1L'])
      expect(typed(loop, text).judged).not.toBe('open circuit');
  });

  it('are ticked for every step and every link, and a tick is no reading', () => {
    const ticks = tickBoxes(sheet, {});
    const steps = sheet.rows.map(([ref]) => String(ref)).filter((ref) => /^[VL]\d+$/.test(ref));
    expect(ticks.filter(({ written }) => written === 'done').map(({ row }) => row)).toEqual(steps);
    const linkOut = sheet.columns.findIndex(({ key }) => key === 'linkOut');
    const links = sheet.rows.filter((row) => row[linkOut] === null && !steps.includes(String(row[0])));
    expect(links.length).toBeGreaterThan(0);
    expect(ticks.filter(({ written }) => written === 'linkOut')).toHaveLength(links.length);
    const typed = store();
    typeReading(typed, ticks[0]!, '1');
    const readings = typed.get().draft!.readings!;
    expect(tickBoxes(sheet, readings).filter(({ isTicked }) => isTicked)).toEqual([
      { ...ticks[0]!, isTicked: true },
    ]);
    expect(writtenRows(readingBoxes(sheet, readings))).toEqual([]);
    typeReading(typed, ticks[0]!, '');
    expect(typed.get().draft!.readings).toEqual({});
  });

  it('leave the job alone, and come back after they were cleared', () => {
    const typed = store();
    const [first] = readingBoxes(sheet, {});
    typeReading(typed, first!, '12');
    clearReadings(typed);
    expect(typed.get().draft!.readings).toEqual({});
    undo(typed);
    expect(Object.values(typed.get().draft!.readings!)).toEqual(['12']);
    expect(typed.get().draft!.job).toBe(demoJobs[1]!.job);
  });
});
