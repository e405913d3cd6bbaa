import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';
import type { IssuedReading } from '../contract/issued-readings.ts';

/** Columns of the test sheet that are filled in, by what is written into them. */
const columns: Readonly<Record<IssuedReading['quantity'], string>> = {
  loop_ohm: 'loopMeasured',
  noLoad_V: 'noLoadMeasured',
  loaded_V: 'loadedMeasured',
  current_A: 'currentMeasured',
  done: 'result',
  linkOut: 'linkOut',
};

/** Ticks as words, all else as the meter showed it, with no digit more or less. */
function textOf({ quantity, value }: IssuedReading): string {
  if (quantity === 'done') return 'done';
  return quantity === 'linkOut' ? 'out' : String(value);
}

/** Who wrote the readings of a row, and on which days. */
function signed(readings: readonly IssuedReading[], key: string): string {
  const all = key === 'name' ? readings.map(({ by }) => by) : readings.map(({ at }) => at.slice(0, 10));
  return [...new Set(all)].filter((text) => text !== '').join(', ');
}

/** A test sheet with what was measured in its boxes, OL where a loop was open; a box that was emptied is empty. */
export function writtenIn(schedule: Schedule, readings: readonly IssuedReading[]): Schedule {
  const held = readings.filter(({ value }) => value !== null);
  const filled = (row: readonly ScheduleCell[]): ScheduleCell[] => {
    const own = held.filter((reading) => reading.row === row[0]);
    return row.map((cell, i) => {
      const key = schedule.columns[i]?.key ?? '';
      if (cell !== null || own.length === 0) return cell;
      if (key === 'name' || key === 'date') return signed(own, key) || null;
      const here = own.find(({ quantity }) => columns[quantity] === key);
      return here ? textOf(here) : null;
    });
  };
  return { ...schedule, rows: schedule.rows.map(filled) };
}
