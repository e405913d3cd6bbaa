import type { Schedule } from '../answer/schedules.ts';

/** Rows of the test sheet that are read together: one place, or two of the same run, such as its feed and its far end. */
export type TestLine = readonly [first: number] | readonly [first: number, second: number];

/** The test sheet as it is worked through. */
export interface TestLines {
  /** Rows with nothing to measure against a band. */
  readonly steps: readonly number[];
  readonly outputs: readonly number[];
  /** Of all runs, in the order of the sheet. */
  readonly lines: readonly TestLine[];
}

/** The run a row of the test sheet is about: "S07" of "S07-F1" and of "S07 finish". */
const runOf = (ref: string): string => ref.replace(/(-F\d+| start| finish)$/, '');

function paired(rows: readonly number[]): TestLine[] {
  const lines: TestLine[] = [];
  for (let i = 0; i < rows.length; i += 2) {
    const [first, second] = [rows[i]!, rows[i + 1]];
    lines.push(second === undefined ? [first] : [first, second]);
  }
  return lines;
}

/**
 * The rows of the test sheet as lines: a run is one line with both its ends, and two where it has three or four places.
 * Every row stands in exactly one of the three lists. Check: `tests/hand-over/test-lines.test.ts`.
 */
export function testLines(schedule: Schedule): TestLines {
  const at = schedule.columns.findIndex(({ key }) => key === 'loaded');
  const [steps, outputs]: [number[], number[]] = [[], []];
  const runs = new Map<string, number[]>();
  for (const [number, row] of schedule.rows.entries()) {
    const ref = String(row[0]);
    const run = runOf(ref);
    const isMeasured = row.some((cell, i) => i >= at && typeof cell === 'number');
    if (run !== ref) runs.set(run, [...(runs.get(run) ?? []), number]);
    else (isMeasured ? outputs : steps).push(number);
  }
  return { steps, outputs, lines: [...runs.values()].flatMap(paired) };
}
