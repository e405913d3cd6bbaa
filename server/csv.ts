import { stringify } from 'csv-stringify/sync';
import type { Schedule, ScheduleCell } from '../src/answer/schedules.ts';

const heading = ({ label, unit }: Schedule['columns'][number]): string =>
  unit === '' ? label : `${label} (${unit})`;

function shown(cell: ScheduleCell, digits: number): string | number | null {
  if (typeof cell === 'number') return Number(cell.toFixed(digits));
  // The library guards the other characters a formula may begin with; some programs skip a leading line feed.
  return cell?.startsWith('\n') ? `'${cell}` : cell;
}

/**
 * Writes a schedule as CSV after RFC 4180: a mark for UTF-8 in front, CRLF between records, text in quotation
 * marks, numbers bare and to the digits the schedule shows. Text that a spreadsheet would run as a formula gets
 * an apostrophe in front. What the schedule rests on stands below it, in the first field of a record of its own.
 */
export function scheduleCsv(schedule: Schedule): string {
  const rows = schedule.rows.map((row) =>
    row.map((cell, index) => shown(cell, schedule.columns[index]!.digits)),
  );
  const notes = schedule.notes.map((note) => schedule.columns.map((_, i) => (i === 0 ? note : null)));
  return stringify([schedule.columns.map(heading), ...rows, ...notes], {
    bom: true,
    record_delimiter: 'windows',
    quoted_string: true,
    escape_formulas: true,
  });
}
