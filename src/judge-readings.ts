import type { JudgedReadings, WrittenRow } from './asked.ts';
import type { FaultFinding } from './hand-over/fault-finding.ts';
import { findFaultOnSite } from './hand-over/fault-on-site.ts';
import type { HandOverInput } from './hand-over/input.ts';
import type { ReadingIssue } from './hand-over/issues.ts';
import { judgeReading, measuredValues, type Reading, readingsOf } from './hand-over/readings.ts';
import { type TestRow, testRows } from './hand-over/test-sheet.ts';
import { readWritten } from './hand-over/written.ts';
import type { Job } from './job/job.ts';
import { build } from './joining/build.ts';
import { type JobReadings, jobReadings } from './joining/reading-model.ts';
import { type Settled, settle } from './joining/settle.ts';
import { found, type Outcome, type Place } from './outcome.ts';
import { type SizingIssue, sizeJob } from './size-job.ts';

/** A job with its test sheet, ready to be measured. */
export interface MeasuredJob {
  readonly settled: Settled;
  readonly rows: readonly TestRow[];
}

/** Settles a job and writes its test sheet. Refuses as `sizeJob`. */
export function measuredJob(job: Job): Outcome<MeasuredJob, SizingIssue> {
  const sizing = sizeJob(job);
  if (!sizing.ok) return sizing;
  const built = build(job);
  if (!built.ok) return built;
  const settled = settle(built.value);
  if (!settled.ok) return settled;
  const input: HandOverInput = { ...sizing.value, job, products: built.value.products };
  return found({ settled: settled.value, rows: testRows(input) });
}

/** The network of a job as a model of the readings given, in their order. */
export function modelOfReadings({ settled, rows }: MeasuredJob, readings: readonly Reading[]): JobReadings {
  const { spread } = measuredValues(readings, []);
  const wayOf = new Map(rows.map(({ id, way }) => [id, way]));
  const boxes = readings.map(({ row, quantity }, i) => ({
    row,
    quantity,
    way: wayOf.get(row) ?? null,
    spread: spread[i]!,
  }));
  return jobReadings(settled, boxes);
}

type Suspect = FaultFinding['suspects'][number];

function suspectOf(
  { fault, likelihood, ohmSpread }: Suspect,
  placeOf: (name: string) => Place,
): JudgedReadings['suspects'][number] {
  const common = { kind: fault.kind, likelihood };
  if (fault.kind === 'none') return { ...common, name: '', place: {}, ohm: null, ohmSpread: null };
  const named = { ...common, name: fault.place, place: { ...placeOf(fault.place) } };
  return fault.kind === 'resistance'
    ? { ...named, ohm: fault.ohm, ohmSpread }
    : { ...named, ohm: null, ohmSpread: null };
}

/**
 * Judges what was measured on a job: each value against the band of the test sheet, and all together against the
 * network, sound and with every single fault, to name the place and the size of what is wrong or to say that the
 * readings do not tell.
 *
 * Refuses as `sizeJob`, and rows or values that cannot be (`readWritten`). Check: `tests/joining/reading-model.test.ts`.
 */
export function judgeReadings(
  job: Job,
  written: readonly WrittenRow[],
): Outcome<JudgedReadings, SizingIssue | ReadingIssue> {
  const at = measuredJob(job);
  if (!at.ok) return at;
  const values = readWritten(at.value.rows, written);
  if (!values.ok) return values;
  const readings = readingsOf(at.value.rows, values.value);
  const measured = readings.filter((reading) => reading.measured !== null);
  const model = modelOfReadings(at.value, measured);
  const { verdict, sentence, suspects, readingCount, misfit, goodFit } = findFaultOnSite(model.at, measured);
  return found({
    rows: readings.map((reading) => ({ ...reading, judgement: judgeReading(reading) })),
    verdict,
    sentence,
    suspects: suspects.map((suspect) => suspectOf(suspect, model.placeOf)),
    readingCount,
    misfit,
    goodFit,
  });
}
