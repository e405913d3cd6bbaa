import { describe, expect, it } from 'vitest';
import type { WrittenRow } from '../../../src/answer/asked.ts';
import { readWritten } from '../../../src/readings/written.ts';
import { sheet } from './sheet.ts';

const issuesOf = (...written: WrittenRow[]) => {
  const outcome = readWritten(sheet, written);
  return outcome.ok ? [] : outcome.issues;
};

describe('what was written on a test sheet', () => {
  it('is read row by row, with nothing where a box was left empty', () => {
    const outcome = readWritten(sheet, [
      { row: 'S01-F1', loop_ohm: 0.21, loaded_V: 23.7, current_A: null },
      { row: 'D1.1', noLoad_V: 24.1, current_A: 2.1 },
    ]);
    expect(outcome.ok && [...outcome.value]).toEqual([
      ['S01-F1', { loop: 0.21, noLoad: null, loaded: 23.7, current: null }],
      ['D1.1', { loop: null, noLoad: 24.1, loaded: null, current: 2.1 }],
    ]);
  });

  it('is nothing where nothing was', () => {
    const outcome = readWritten(sheet, []);
    expect(outcome.ok && outcome.value.size).toBe(0);
  });

  it('is refused for a row the sheet does not have, with one that it has', () => {
    const [issue, ...others] = issuesOf({ row: 'D1.1' }, { row: 'S09', loop_ohm: -1 });
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ code: 'no-such-row', place: { field: 'readings.1.row' }, quantities: {} });
    expect(issue!.sentence).toMatch(/no row "S09": .* such as "D1\.1"\.$/);
  });

  it('is refused for a row given twice, the second time and after', () => {
    const twice = issuesOf({ row: 'D1.1' }, { row: 'S01-F1' }, { row: 'D1.1' }, { row: 'D1.1' });
    expect(twice.map(({ code, place }) => [code, place.field])).toEqual([
      ['row-repeated', 'readings.2.row'],
      ['row-repeated', 'readings.3.row'],
    ]);
  });

  it('is refused in a box that does not apply', () => {
    expect(issuesOf({ row: 'D1.1', loop_ohm: null })).toEqual([]);
    const [output, end] = issuesOf({ row: 'D1.1', loop_ohm: 0.2 }, { row: 'S01 finish', current_A: 500 });
    expect(output).toMatchObject({
      ...{ code: 'not-measured-there', place: { field: 'readings.0.loop_ohm' }, quantities: {} },
    });
    expect(output!.sentence).toContain('Row D1.1 of the test sheet has no box for a loop: move 0.2 Ω');
    expect(end).toMatchObject({ code: 'not-measured-there', place: { field: 'readings.1.current_A' } });
  });

  it.each([
    ['loop_ohm', 10_000, 10_001],
    ['noLoad_V', 120, 120.1],
    ['loaded_V', 120, 120.1],
    ['current_A', 100, 100.1],
  ] as const)('of %s is taken from 0 to %d', (key, most, beyond) => {
    const of = (value: number) => issuesOf({ row: 'S01-F1', [key]: value });
    expect(of(0)).toEqual([]);
    expect(of(most)).toEqual([]);
    for (const value of [beyond, -0.01]) {
      expect(of(value)).toMatchObject([
        {
          code: 'reading-impossible',
          place: { field: `readings.0.${key}` },
          quantities: { value, from: 0, to: most },
        },
      ]);
      expect(of(value)[0]!.sentence).toContain(`${value} `);
    }
  });

  it('is OL where an ohmmeter was beyond its range, and such a reading has its row too', () => {
    const outcome = readWritten(sheet, [{ row: 'S01-F1', loop_ohm: 'OL' }]);
    expect(outcome.ok && outcome.value.get('S01-F1')!.loop).toBe('OL');
    const [issue] = issuesOf({ row: 'D1.1', loop_ohm: 'OL' });
    expect(issue!.sentence).toContain('has no box for a loop: move OL to the row');
  });

  it('is refused for every box that is wrong', () => {
    expect(
      issuesOf({ row: 'S01-F1', loop_ohm: -1, noLoad_V: 230, loaded_V: 23, current_A: -1 }),
    ).toHaveLength(3);
  });
});
