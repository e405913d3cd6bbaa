import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scheduleCsv } from '../../server/csv.ts';
import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';
import { readCsv } from './csv-reader.ts';

const seed = 20260331;

function schedule(rows: ScheduleCell[][], digits = 3): Schedule {
  const columns = (rows[0] ?? []).map((_, index) => ({
    key: `k${index}`,
    label: `Column ${index}`,
    unit: index === 0 ? '' : 'mm',
    digits,
  }));
  return { id: 'cables', title: 'Cables', columns, rows, notes: [] };
}

const written = (rows: ScheduleCell[][], digits?: number): string[][] => {
  const text = scheduleCsv(schedule(rows, digits));
  expect(text.codePointAt(0)).toBe(0xfeff);
  return readCsv(text.slice(1));
};

/** What a spreadsheet may take for the beginning of a formula (OWASP, CSV injection; read). */
const formulaBegins = /^[=+\-@\t\r\n＝＋－＠]/;

describe('the CSV reader of these tests', () => {
  it('reads the examples of RFC 4180 section 2', () => {
    expect(readCsv('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(readCsv('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(readCsv('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  it('refuses what the grammar does not allow', () => {
    expect(() => readCsv('a"b,c\r\n')).toThrow(SyntaxError);
    expect(() => readCsv('a\nb')).toThrow(SyntaxError);
    expect(() => readCsv('"a"b')).toThrow(SyntaxError);
  });
});

describe('a schedule as CSV', () => {
  it('puts the unit into the heading and leaves empty what is empty', () => {
    expect(written([['C1', null, 1.25]])).toEqual([
      ['Column 0', 'Column 1 (mm)', 'Column 2 (mm)'],
      ['C1', '', '1.25'],
    ]);
  });

  it('says below the rows what the figures rest on, with as many fields as every record', () => {
    const text = scheduleCsv({ ...schedule([['C1', 2]]), notes: ['Only with the dimmer limited.'] });
    expect(readCsv(text.slice(1)).at(-1)).toEqual(['Only with the dimmer limited.', '']);
  });

  it('writes numbers bare, rounded to the digits of the schedule, negative ones too', () => {
    const text = scheduleCsv(schedule([['x', -12.3456, 0.1 + 0.2]], 2));
    expect(text.split('\r\n')[1]).toBe('"x",-12.35,0.3');
  });

  it('brings every text back, guarded where a spreadsheet would run it', () => {
    const cell = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({
        unit: fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', '"', ',', ';', "'", '＝', 'a', ' '),
      }),
    );
    const rows = fc
      .integer({ min: 1, max: 6 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    fc.assert(
      fc.property(rows, (table) => {
        const [, ...back] = written(table);
        const guarded = table.map((row) => row.map((text) => (formulaBegins.test(text) ? `'${text}` : text)));
        expect(back).toEqual(guarded);
        for (const text of back.flat()) expect(text).not.toMatch(formulaBegins);
      }),
      { seed, numRuns: 2000 },
    );
  });

  it('keeps a hostile text in one field for programs that split at semicolons', () => {
    const text = scheduleCsv(schedule([['x;=HYPERLINK("http://a")', 1]]));
    expect(text.split('\r\n')[1]).toBe('"x;=HYPERLINK(""http://a"")",1');
  });

  it('brings every number back to the digits asked for', () => {
    const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(value, fc.integer({ min: 0, max: 6 }), (number, digits) => {
        const [, [text]] = written([[number]], digits) as [string[], string[]];
        expect(Math.abs(Number(text) - number)).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9) + 1e-9);
      }),
      { seed, numRuns: 1000 },
    );
  });
});
