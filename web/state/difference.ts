import type { Path } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import { type JobDifference, jobDifferences } from '../../src/job/job-differences.ts';
import { inThousands } from '../format.ts';
import { choiceText } from '../words.ts';
import { type FieldSpec, fieldSpec, inCents, numberText } from './field-spec.ts';

function specOf(path: Path): FieldSpec | undefined {
  try {
    return fieldSpec(path);
  } catch {
    return undefined;
  }
}

function written(value: string | number, path: Path): string {
  const spec = specOf(path);
  if (typeof value === 'number')
    return `${inThousands(numberText(value, spec?.kind ?? 'number'))} ${spec?.unit ?? ''}`.trim();
  return choiceText(spec?.key ?? '', value, '');
}

/** Every field in which two versions of a job differ, in the order of the document. */
export const differences = (before: Job, after: Job): JobDifference[] =>
  jobDifferences(before, after, written).map((one) => ({ ...one, label: one.label.replace(inCents, '') }));

/** `Panel width: 1620 mm became 1500 mm`. */
export const differenceText = ({ label, before, after }: JobDifference): string =>
  `${label}: ${before} became ${after}`;
