import type { WrittenRow } from '../answer/asked.ts';
import type { TestRow } from '../hand-over/test-sheet.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { ReadingIssue } from './issues.ts';
import type { Written } from './readings.ts';

/** What each box is called, and the most a meter can show there that makes sense. */
const boxes = [
  { key: 'loop_ohm', quantity: 'loop', what: 'a loop', unit: 'Ω', most: 10_000 },
  { key: 'noLoad_V', quantity: 'noLoad', what: 'volts without load', unit: 'V', most: 120 },
  { key: 'loaded_V', quantity: 'loaded', what: 'volts with all lit', unit: 'V', most: 120 },
  { key: 'current_A', quantity: 'current', what: 'amps', unit: 'A', most: 100 },
] as const;

/** A value as it is said in a sentence. */
const said = (value: number | 'OL', unit: string): string => (value === 'OL' ? value : `${value} ${unit}`);

function boxIssues(written: WrittenRow, row: TestRow, field: string): ReadingIssue[] {
  return boxes.flatMap(({ key, quantity, what, unit, most }): ReadingIssue[] => {
    const value = written[key] ?? null;
    if (value === null) return [];
    const place = { field: `${field}.${key}` };
    if (!row[quantity]) {
      const sentence = `Row ${row.id} of the test sheet has no box for ${what}: move ${said(value, unit)} to the row it was measured at, or leave it out.`;
      return [{ code: 'not-measured-there', place, quantities: {}, sentence }];
    }
    if (value === 'OL' || (value >= 0 && value <= most)) return [];
    const sentence = `${value} ${unit} at ${row.id} cannot be what the meter showed: enter ${what} from 0 to ${most} ${unit} without a sign, and leave the box empty where the meter showed none.${quantity === 'loop' ? ' Where it showed OL, enter OL.' : ''}`;
    return [{ code: 'reading-impossible', place, quantities: { value, from: 0, to: most }, sentence }];
  });
}

function rowIssues(rows: readonly TestRow[], all: readonly WrittenRow[]): ReadingIssue[] {
  return all.flatMap((written, i): ReadingIssue[] => {
    const field = `readings.${i}`;
    const place = { field: `${field}.row` };
    const row = rows.find(({ id }) => id === written.row);
    if (!row) {
      const sentence = `The test sheet of this job has no row "${written.row}": take the reference from its first column, such as "${rows[0]!.id}".`;
      return [{ code: 'no-such-row', place, quantities: {}, sentence }];
    }
    if (all.findIndex((other) => other.row === written.row) < i) {
      const sentence = `Row ${row.id} is given twice: put all its values into one.`;
      return [{ code: 'row-repeated', place, quantities: {}, sentence }];
    }
    return boxIssues(written, row, field);
  });
}

/**
 * What was written on a test sheet, by row. Refuses rows the sheet does not have, rows given twice, values in boxes
 * that do not apply, and values no meter shows (a loop over 10 kΩ, volts over 120, amps over 100, anything below 0).
 */
export function readWritten(
  rows: readonly TestRow[],
  written: readonly WrittenRow[],
): Outcome<ReadonlyMap<string, Written>, ReadingIssue> {
  const issues = rowIssues(rows, written);
  if (issues.length > 0) return refused(...issues);
  return found(
    new Map(
      written.map((one) => [
        one.row,
        Object.fromEntries(boxes.map(({ key, quantity }) => [quantity, one[key] ?? null])),
      ]),
    ),
  );
}
