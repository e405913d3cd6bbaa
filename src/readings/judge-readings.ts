import type { JudgedReadings, WrittenRow } from '../answer/asked.ts';
import type { Sizing } from '../answer/sizing.ts';
import { type TestRow, testRows } from '../hand-over/test-sheet.ts';
import type { Job } from '../job/job.ts';
import { found, type Outcome, type Place } from '../outcome.ts';
import type { Settled } from '../sizing/settle.ts';
import { type SizingIssue, settledSizing } from '../sizing/size-job.ts';
import type { FaultFinding } from './fault-finding.ts';
import { findFaultOnSite } from './fault-on-site.ts';
import type { ReadingIssue } from './issues.ts';
import { type JobReadings, jobReadings } from './reading-model.ts';
import { isOpen, judgeReading, measuredValues, type Reading, readingsOf } from './readings.ts';
import { readWritten } from './written.ts';

/** A job with its test sheet, ready to be measured. */
export interface MeasuredJob {
  readonly sizing: Sizing;
  readonly settled: Settled;
  readonly rows: readonly TestRow[];
}

/**
 * Settles a job and writes its test sheet. Quickly: what care adds moves a reading in its sixth figure, far below what a
 * meter shows. Refuses as `sizeAt`.
 */
export function measuredJob(job: Job): Outcome<MeasuredJob, SizingIssue> {
  const at = settledSizing(job, 'quick');
  if (!at.ok) return at;
  const { sizing, settled } = at.value;
  return found({ sizing, settled, rows: testRows({ ...sizing, job }) });
}

/** The network of a job as a model of the readings given, in their order. */
export function modelOfReadings({ settled, rows }: MeasuredJob, readings: readonly Reading[]): JobReadings {
  const { spread } = measuredValues(readings, []);
  const pathOf = new Map(rows.map(({ id, path }) => [id, path]));
  const boxes = readings.map(({ row, quantity }, i) => ({
    row,
    quantity,
    path: pathOf.get(row) ?? null,
    spread: spread[i]!,
    isOpen: isOpen(readings[i]!),
  }));
  return jobReadings(settled, boxes);
}

type Suspect = FaultFinding['suspects'][number];

function suspectOf(
  { fault, posterior, ohmSpread }: Suspect,
  placeOf: (name: string) => Place,
): JudgedReadings['suspects'][number] {
  const common = { kind: fault.kind, posterior };
  if (fault.kind === 'none') return { ...common, name: '', place: {}, ohm: null, ohmSpread: null };
  const named = { ...common, name: fault.place, place: { ...placeOf(fault.place) } };
  return fault.kind === 'resistance'
    ? { ...named, ohm: fault.ohm, ohmSpread }
    : { ...named, ohm: null, ohmSpread: null };
}

/** What an open loop leaves to be said of the finding. */
function openRemarks(measured: readonly Reading[], told: readonly Reading[]): string[] {
  if (!measured.some(isOpen)) return [];
  const left = 'The volts and amps are left out, since nothing is energised before every loop is closed.';
  return [
    'A link that was not in, or strip broken on the way, reads as open too: mend it and measure the loop again.',
    ...(told.length < measured.length ? [left] : []),
  ];
}

/**
 * Judges what was measured on a job: each value against the band of the test sheet, and all together against the
 * network, sound and with every single fault, to name the place and the size of what is wrong or to say that the
 * readings do not tell. An open loop (OL, or over 200 Ω) is held against the loops alone, as a conductance of nothing.
 *
 * Refuses as `sizeJob`, and rows or values that cannot be (`readWritten`). Check: `tests/readings/reading-model.test.ts`.
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
  const told = measured.some(isOpen) ? measured.filter(({ quantity }) => quantity === 'loop') : measured;
  const model = modelOfReadings(at.value, told);
  const { verdict, sentence, suspects, readingCount, chiSquare, goodFit } = findFaultOnSite(model.at, told);
  return found({
    rows: readings.map((reading) => ({ ...reading, judgement: judgeReading(reading) })),
    verdict,
    sentence: [sentence, ...openRemarks(measured, told)].join(' '),
    suspects: suspects.map((suspect) => suspectOf(suspect, model.placeOf)),
    readingCount,
    chiSquare,
    goodFit,
  });
}
