import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';
import type { Sizing } from '../../src/answer/sizing.ts';

/** A label for one end of a cable. */
export interface CableLabel {
  readonly cable: string;
  /** What this end is made off to, and what the other end is. */
  readonly here: string;
  readonly there: string;
  readonly type: string;
}

/** Two labels for each cable, the one that goes on its supply end first, as the cable schedule names its ends. */
export function cableLabels({ schedules }: Sizing): CableLabel[] {
  const { columns, rows } = schedules.find(({ id }) => id === 'cables')!;
  const at = (key: string): number => columns.findIndex((column) => column.key === key);
  const [from, to, type] = [at('from'), at('to'), at('type')];
  const text = (row: readonly ScheduleCell[], i: number): string => String(row[i] ?? '');
  return rows.flatMap((row) => {
    const cable = text(row, 0);
    const ends = [text(row, from), text(row, to)] as const;
    return [ends, ends.toReversed()].map(([here, there]) => ({
      ...{ cable, here: here!, there: there!, type: text(row, type) },
    }));
  });
}

/** The labels as a table for the program of a label printer: a line of the label in each column. */
export function cableLabelSchedule(sizing: Sizing): Schedule {
  const column = (key: string, label: string) => ({ key, label, unit: '', digits: 0 });
  return {
    ...{ id: 'cables', title: 'Cable labels', notes: [] },
    columns: [
      column('cable', 'Cable'),
      column('here', 'This end'),
      column('there', 'Other end'),
      column('type', 'Type'),
    ],
    rows: cableLabels(sizing).map(({ cable, here, there, type }) => [cable, here, there, type]),
  };
}
