import type { Schedule } from '../../src/answer/schedules.ts';
import { shownCell } from './shown.ts';

/** A row of a schedule that is not what it was in the revision before. */
export interface Change {
  readonly schedule: Schedule['id'];
  readonly title: string;
  /** First cell of the row. */
  readonly ref: string;
  /** Number of the row in the new schedule, or null for a row that is gone. */
  readonly row: number | null;
  readonly what: string;
}

/** Rows by their first cell; a reference that comes more than once is told apart by its turn. */
export function byReference(schedule: Schedule): Map<string, { row: number; cells: Map<string, string> }> {
  const turns = new Map<string, number>();
  return new Map(
    schedule.rows.map((row, number) => {
      const ref = String(row[0]);
      const turn = turns.get(ref) ?? 0;
      turns.set(ref, turn + 1);
      const cells = new Map(
        schedule.columns.map((column, i) => [column.key, shownCell(row[i] ?? null, column.digits)]),
      );
      return [`${ref}\n${turn}`, { row: number, cells }];
    }),
  );
}

/** The first cell of a row by its key. */
export const refOf = (key: string): string => key.split('\n')[0]!;

function differences(now: Schedule, before: ReadonlyMap<string, string>, cells: ReadonlyMap<string, string>) {
  return now.columns
    .filter((column) => before.get(column.key) !== cells.get(column.key))
    .map(({ key, label, unit }) => {
      const [old, fresh] = [before.get(key) ?? '', cells.get(key) ?? ''];
      return `${label}: ${old === '' ? 'nothing' : old} → ${fresh === '' ? 'nothing' : fresh}${unit === '' ? '' : ` ${unit}`}`;
    });
}

function changesOf(now: Schedule, before: Schedule | undefined): Change[] {
  const head = { schedule: now.id, title: now.title };
  const [fresh, old] = [byReference(now), before ? byReference(before) : new Map()];
  const changed = [...fresh].flatMap(([key, { row, cells }]): Change[] => {
    const was = old.get(key);
    if (!was) return [{ ...head, ref: refOf(key), row, what: 'new' }];
    const what = differences(now, was.cells, cells);
    return what.length === 0 ? [] : [{ ...head, ref: refOf(key), row, what: what.join('; ') }];
  });
  const gone = [...old.keys()]
    .filter((key) => !fresh.has(key))
    .map((key): Change => ({ ...head, ref: refOf(key), row: null, what: 'no longer there' }));
  return [...changed, ...gone];
}

/** What stands otherwise on paper than in the revision before, row by row; what rounds to the same is the same. */
export function changesSince(before: readonly Schedule[], now: readonly Schedule[]): Change[] {
  return now.flatMap((schedule) =>
    changesOf(
      schedule,
      before.find((each) => each.id === schedule.id),
    ),
  );
}
