import * as z from 'zod';
import type { IssuedReading } from '../../server/contract/issued-readings.ts';
import { overRange } from '../../src/answer/values.ts';
import type { Job } from '../../src/job/job.ts';
import { recordFormat as format } from '../../src/job/record-file.ts';
import { readingIn } from './reading-text.ts';
import { keyOf } from './readings.ts';
import type { Brought, Draft, Measured, TakenReading } from './store.ts';

const quantities = [
  'loop_ohm',
  'noLoad_V',
  'loaded_V',
  'current_A',
  'done',
  'linkOut',
] as const satisfies readonly IssuedReading['quantity'][];

const reading = z.strictObject({
  row: z.string().min(1).max(60),
  quantity: z.enum(quantities),
  value: z.union([z.number().min(0).max(1e6), overRange]),
  by: z.string().max(40),
  at: z.iso.datetime(),
});

const record = z.strictObject({
  format: z.strictObject({ name: z.literal(format.name), version: z.literal(format.version) }),
  job: z.looseObject({}),
  revision: z
    .strictObject({ jobId: z.string(), id: z.string(), revision: z.string(), issued: z.string() })
    .nullable(),
  readings: z.array(reading).max(5000),
  typed: z.record(z.string(), z.string()),
});

const ours = z.looseObject({ format: z.looseObject({ name: z.literal(format.name), version: z.number() }) });

/** A job with what was measured on it, as it is saved as a file. */
export interface RecordFile extends Brought {
  readonly job: unknown;
  readonly revision: z.infer<typeof record>['revision'];
}

/** The text of a saved file as a record; undefined where it is something else, a sentence where it cannot be read. */
export function readRecord(text: string): RecordFile | string | undefined {
  try {
    const document: unknown = JSON.parse(text);
    const named = ours.safeParse(document);
    if (!named.success) return undefined;
    if (named.data.format.version > format.version)
      return 'It was saved by a later Slotwatt: open it with that version.';
    const read = record.safeParse(document);
    return read.success
      ? read.data
      : 'It was changed or damaged after it was saved: save it again where it came from.';
  } catch {
    return undefined;
  }
}

const filledIn = (boxes: Measured['boxes']): TakenReading[] =>
  Object.values(boxes).flatMap(({ row, quantity, value, by, at }) =>
    value === null ? [] : [{ row, quantity, value, by, at }],
  );

const keyOfTaken = ({ row, quantity }: TakenReading): string => keyOf(row, quantity);

const bearing = (texts: Draft['readings'], { row, quantity, value }: TakenReading): boolean =>
  readingIn(texts?.[keyOf(row, quantity)] ?? '', quantity) === value;

/** What a file holds beside the job: readings that are kept, and whatever else was typed. */
export interface Recorded {
  readonly job: Job;
  readonly revision: RecordFile['revision'];
  readonly boxes: Measured['boxes'];
  readonly texts: Draft['readings'];
  /** Who took what stands in the texts, where that is known. */
  readonly taken: readonly TakenReading[];
}

/** The file of a job: the job alone where nothing was measured, else a record with the readings. */
export function recordText({ job, revision, boxes, texts = {}, taken }: Recorded): string {
  const kept = filledIn(boxes);
  const own = taken.filter(
    (one) => bearing(texts, one) && !kept.some((each) => keyOfTaken(each) === keyOfTaken(one)),
  );
  const readings = [...kept, ...own];
  const isSaid = (key: string): boolean =>
    readings.some((one) => keyOfTaken(one) === key && bearing(texts, one));
  const typed = Object.fromEntries(
    Object.entries(texts).filter(([key, text]) => text.trim() !== '' && !isSaid(key)),
  );
  const isBare = readings.length === 0 && Object.keys(typed).length === 0;
  const content = isBare ? job : { format, job, revision, readings, typed };
  return `${JSON.stringify(content, undefined, 2)}\n`;
}

/** Readings and texts of a file put over what is here: what is here stays, and boxes that differ are named. */
export function mergedReadings(
  here: NonNullable<Draft['readings']>,
  { readings, typed }: Brought,
): { readonly texts: NonNullable<Draft['readings']>; readonly theirs: NonNullable<Draft['readings']> } {
  const brought = {
    ...typed,
    ...Object.fromEntries(readings.map((one) => [keyOfTaken(one), String(one.value)])),
  };
  const isHere = (key: string): boolean => (here[key] ?? '').trim() !== '';
  const value = (key: string, text: string) =>
    readingIn(text, key.slice(key.lastIndexOf(' ') + 1) as TakenReading['quantity']) ?? text.trim();
  const differing = Object.entries(brought).filter(
    ([key, text]) => isHere(key) && value(key, text) !== value(key, here[key]!),
  );
  return { texts: { ...brought, ...here }, theirs: Object.fromEntries(differing) };
}
