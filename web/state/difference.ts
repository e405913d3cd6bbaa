import { fieldName, type Path } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import { counted, entryText } from '../format.ts';
import { choiceText } from '../words.ts';
import { type FieldSpec, fieldSpec } from './field-spec.ts';

/** A field of the job that holds something else in another version. */
export interface Difference {
  readonly field: string;
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

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

function specOf(path: Path): FieldSpec | undefined {
  try {
    return fieldSpec(path);
  } catch {
    return undefined;
  }
}

function written(value: unknown, spec: FieldSpec | undefined): string {
  if (value === undefined || value === null || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return counted(value.length, 'entry', 'entries');
  if (typeof value === 'number') {
    return `${entryText(value, spec?.kind === 'ratio')} ${spec?.unit ?? ''}`.trim();
  }
  if (typeof value === 'object') return 'given';
  return choiceText(spec?.key ?? '', String(value), '');
}

/** The heading of a list or a part that differs as a whole: `drivers.places` is “drivers, places”. */
const plainName = (path: Path): string =>
  path
    .map((step) => (typeof step === 'number' ? String(step + 1) : step.replace(/_\w+$/, '')))
    .join(', ')
    .replaceAll(/([a-z])([A-Z])/g, (_, low: string, high: string) => `${low} ${high.toLowerCase()}`);

function compared(before: unknown, after: unknown, path: Path): Difference[] {
  if (isSame(before, after)) return [];
  if (isHolder(before) && isHolder(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    return keys.flatMap((key) => compared(before[key], after[key], [...path, key]));
  }
  const isRows = Array.isArray(before) && Array.isArray(after) && before.length === after.length;
  if (isRows && before.every(isHolder)) {
    return before.flatMap((item, i) => compared(item, after[i], [...path, i]));
  }
  const spec = specOf(path);
  const named = spec && spec.label !== String(path.at(-1)) ? spec.label : plainName(path);
  const texts = { before: written(before, spec), after: written(after, spec) };
  const isListed = texts.before === texts.after;
  return [{ field: fieldName(path), label: named, ...texts, ...(isListed ? { after: 'other values' } : {}) }];
}

/** Every field in which two versions of a job differ, in the order of the document. */
export function differences(before: Job, after: Job): Difference[] {
  return compared(before, after, []);
}

/** `Panel width: 1620 mm became 1500 mm`. */
export const differenceText = ({ label, before, after }: Difference): string =>
  `${label}: ${before} became ${after}`;
