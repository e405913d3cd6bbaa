import type { FastifySchemaCompiler } from 'fastify';
import type { z } from 'zod';
import { readJob } from '../src/index.ts';
import type { Issue } from '../src/outcome.ts';
import { jobDocument } from './contract/job.ts';
import { problemOf } from './problem.ts';

function issueOf(part: string, problem: z.core.$ZodIssue): Issue {
  const field = problem.path.map(String).join('.');
  const stem = field === '' ? `The ${part}` : field;
  const sentence =
    problem.code === 'unrecognized_keys'
      ? `${problem.keys.map((key) => `"${key}"`).join(', ')} is not expected here: remove it, or check its spelling.`
      : `${stem}: ${problem.message}`;
  return { code: problem.code, place: field === '' ? {} : { field }, quantities: {}, sentence };
}

const partNames: Readonly<Record<string, string>> = {
  body: 'body',
  params: 'address',
  querystring: 'query',
  headers: 'headers',
};

/**
 * Checks what comes in. A job goes through the engine's own reader, so that the service says the same sentences
 * as a file opened in the page; everything else is checked against its schema.
 */
export const validatorCompiler: FastifySchemaCompiler<z.ZodType> = ({ schema, httpPart }) => {
  if (schema === jobDocument) {
    return (value) => {
      const read = readJob(value);
      return read.ok ? { value: read.value } : { error: problemOf('malformed-job', read.issues) };
    };
  }
  return (value) => {
    const read = schema.safeParse(value);
    if (read.success) return { value: read.data };
    const part = partNames[httpPart ?? 'body'] ?? 'request';
    return {
      error: problemOf(
        'malformed-request',
        read.error.issues.map((problem) => issueOf(part, problem)),
      ),
    };
  };
};
