import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { scheduleCsv } from '../../server/csv.ts';
import { shownRows } from '../../server/papers/shown.ts';
import { demos } from './jobs.ts';

/** A cell of paper as a spreadsheet has it: a plain minus, and what is too small for its decimals as nought. */
const plain = (text: string): string => {
  const bare = text.replace(/^−(?=\d)/, '-');
  if (/^<0\.0*1$/.test(bare)) return '0';
  return /^-?\d+(\.\d+)?$/.test(bare) ? String(Number(bare)) : bare;
};

describe.each(demos)('schedules as CSV and as the tables on paper: $name', ({ sizing }) => {
  it.each(sizing.schedules)('have the same rows: $id', (schedule) => {
    const records: string[][] = parse(scheduleCsv(schedule), { bom: true });
    const rows = records.slice(1, records.length - schedule.notes.length);
    expect(rows.map((row) => row.map(plain))).toEqual(shownRows(schedule).map((row) => row.map(plain)));
  });
});
