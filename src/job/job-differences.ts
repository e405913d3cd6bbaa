import { fieldName, type Path } from './field-name.ts';
import type { Job } from './job.ts';
import { branches, type FieldSchema, schemaAt } from './schema-path.ts';

/** A field of the job that holds something else in another version. */
export interface JobDifference {
  readonly field: string;
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

/** How a value of a field is written for people. */
export type WriteValue = (value: string | number, path: Path) => string;

const isHolder = (x: unknown): x is Record<string, unknown> =>
  typeof x === 'object' && x !== null && !Array.isArray(x);

/** The same value with the keys of its objects in order, so that equal documents are equal texts. */
function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (!isHolder(value)) return value;
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((key) => [key, ordered(value[key])]),
  );
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(ordered(a)) === JSON.stringify(ordered(b));

/** Whether two documents say the same, in whatever order. */
export const isSameJob = (a: Job, b: Job): boolean => isSame(a, b);

function written(value: unknown, path: Path, write: WriteValue): string {
  if (value === undefined || value === null || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.length === 1 ? '1 entry' : `${value.length} entries`;
  return typeof value === 'object' ? 'given' : write(value as string | number, path);
}

/** The heading of a list or a part that differs as a whole: `drivers.places` is “drivers, places”. */
const plainName = (path: Path): string =>
  path
    .map((step) => (typeof step === 'number' ? String(step + 1) : step.replace(/_\w+$/, '')))
    .join(', ')
    .replaceAll(/([a-z])([A-Z])/g, (_, low: string, high: string) => `${low} ${high.toLowerCase()}`);

/** What a field is called, also one that may be left empty. */
function titleAt(path: Path): string | undefined {
  const end = schemaAt(path);
  return end && [end, ...branches(end)].find(({ title }) => title !== undefined)?.title;
}

/** Whether a number is a ratio, which people read in percent. */
export const isRatio = (schema: FieldSchema): boolean =>
  schema.type === 'number' && (schema.unit === '' || schema.unit === '1/K') && !schema.isWrittenPlain;

function compared(before: unknown, after: unknown, path: Path, write: WriteValue): JobDifference[] {
  if (isSame(before, after)) return [];
  if (isHolder(before) && isHolder(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    return keys.flatMap((key) => compared(before[key], after[key], [...path, key], write));
  }
  const isRows = Array.isArray(before) && Array.isArray(after) && before.length === after.length;
  if (isRows && before.every(isHolder)) {
    return before.flatMap((item, i) => compared(item, after[i], [...path, i], write));
  }
  const label = titleAt(path) ?? plainName(path);
  const [was, is] = [written(before, path, write), written(after, path, write)];
  return [{ field: fieldName(path), label, before: was, after: was === is ? 'other values' : is }];
}

/**
 * Every field in which two versions of a job differ, in the order of the document, as texts.
 *
 * @param write a text or a number of a field in words and with its unit
 */
export const jobDifferences = (before: Job, after: Job, write: WriteValue): JobDifference[] =>
  compared(before, after, [], write);
