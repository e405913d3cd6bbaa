import type { z } from 'zod';
import { found, type Outcome, refused } from '../outcome.ts';
import { fieldName, type Path } from './field-name.ts';
import { fromFormat1 } from './format-1.ts';
import type { JobIssue } from './issues.ts';
import { type Job, job, jobFormat } from './job.ts';
import { withZoneIds } from './zone.ts';

/** Where a problem lies; JSON has no keys but words and numbers. */
const fieldOf = (path: readonly PropertyKey[]): string => fieldName(path as Path);

const issue = (code: JobIssue['code'], field: string, sentence: string): JobIssue => ({
  code,
  place: field === '' ? {} : { field },
  quantities: {},
  sentence,
});

function unknownKeys(problem: z.core.$ZodIssueUnrecognizedKeys): JobIssue[] {
  return problem.keys.map((key) => {
    const field = fieldOf([...problem.path, key]);
    return issue('unknown-key', field, `"${field}" is not part of a job: remove it, or check its spelling.`);
  });
}

const stem = (field: string): string => (field === '' ? 'The document' : field);

function fromZod(problem: z.core.$ZodIssue): JobIssue[] {
  if (problem.code === 'unrecognized_keys') return unknownKeys(problem);
  const field = fieldOf(problem.path);
  const missing = problem.code === 'invalid_type' && problem.input === undefined;
  const sentence = missing
    ? `${stem(field)} is missing: add it. ${problem.message}`
    : `${stem(field)}: ${problem.message}`;
  return [issue('wrong-value', field, sentence)];
}

const isRecord = (x: unknown): x is Record<string, unknown> =>
  typeof x === 'object' && x !== null && !Array.isArray(x);

function formatIssue(document: unknown): JobIssue | undefined {
  if (!isRecord(document)) {
    return issue('not-a-job', '', 'This is not a Slotwatt job: the document must be a JSON object.');
  }
  const format = document.format;
  if (!isRecord(format) || format.name !== jobFormat.name) {
    return issue(
      'not-a-job',
      'format.name',
      `This is not a Slotwatt job: format.name must be "${jobFormat.name}".`,
    );
  }
  if (typeof format.version === 'number' && format.version > jobFormat.version) {
    return issue(
      'later-format',
      'format.version',
      `This job was written by a later Slotwatt (format ${format.version}; this one reads ${jobFormat.version}). Open it there, or update this one. Nothing was changed.`,
    );
  }
  return undefined;
}

/** Whether a document is of the format before this one, whose files mean what they meant. */
const isFormat1 = (document: unknown): document is Record<string, unknown> =>
  isRecord(document) && isRecord(document.format) && document.format.version === 1;

/** A document of format 1 as one of this format, before what it holds is looked at. */
const renumbered = (document: Record<string, unknown>): unknown => ({
  ...document,
  format: { ...(document.format as object), version: jobFormat.version },
});

const whole = (read: Job): Job => ({
  ...read,
  dimming: { ...read.dimming, zones: withZoneIds(read.dimming.zones) },
});

/**
 * Reads an unknown value as a job, a document of format 1 as what it means in this one, with every problem at once: its
 * field and a sentence with the remedy. Refuses what is no job, a later format, unknown keys and values out of bounds.
 */
export function readJob(document: unknown): Outcome<Job, JobIssue> {
  const wrongFormat = formatIssue(document);
  if (wrongFormat) return refused(wrongFormat);
  const isEarlier = isFormat1(document);
  const result = job.safeParse(isEarlier ? renumbered(document) : document, { reportInput: true });
  if (!result.success) return refused(...result.error.issues.flatMap(fromZod));
  return found(whole(isEarlier ? fromFormat1(result.data) : result.data));
}

/** Reads the text of a job file; a file cut in half gets a sentence, not an exception. */
export function readJobText(text: string): Outcome<Job, JobIssue> {
  try {
    return readJob(JSON.parse(text));
  } catch {
    return refused(
      issue(
        'not-json',
        '',
        'The file is not complete JSON: it may have been cut short. Open an earlier copy.',
      ),
    );
  }
}
