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
import { liveTooEarly } from '../../web/state/test-order.ts';

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

  it('say when something live stands in them before every dead test and every link is ticked off', () => {
    const ticks = tickBoxes(sheet, {});
    const isDead = (row: string) => ['V1', 'V2', 'V3', 'V4', 'V5'].includes(row);
    const done = ticks.filter(({ written, row }) => written === 'linkOut' || isDead(row));
    const all = Object.fromEntries(done.map(({ row, written }) => [`${row} ${written}`, '1']));
    const said = (readings: Record<string, string>) =>
      liveTooEarly(sheet, readingBoxes(sheet, readings), readings);
    const live = { 'D1.1 noLoad_V': '24' };
    const loop = readingBoxes(sheet, {}).find(({ written }) => written === 'loop_ohm')!;
    // Dead readings alone need no ticks, and live ones none once all that is dead is ticked off: V6 and on are live steps.
    expect(said({ [`${loop.row} loop_ohm`]: '0.4' })).toBeUndefined();
    expect(said({ ...live, ...all })).toBeUndefined();
    const links = done.filter(({ written }) => written === 'linkOut');
    const { [`${links[0]!.row} linkOut`]: _, ...oneIn } = all;
    expect(said({ ...live, ...oneIn })).toContain(
      `1 link is not ticked out (${links[0]!.row}). A link left in`,
    );
    const { 'V2 done': __, 'V5 done': ___, ...undone } = all;
    expect(said({ ...live, ...undone })).toMatch(/while of the dead tests V2, V5 are not ticked off\./);
    expect(said(live)).toMatch(
      new RegExp(`^Volts or amps .* ${links.length} links are not ticked out .* V1, V2, V3, V4, V5 are`),
    );
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
