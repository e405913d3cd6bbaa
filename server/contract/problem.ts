import * as z from 'zod';
import { place } from '../../src/answer/findings.ts';

/** One reason, as data: what is wrong, where, and the sentence that says what to change. */
const issue = z.strictObject({
  code: z.string().describe('stable word for programs'),
  place: place.describe('where in the piece or in the job document'),
  quantities: z.record(z.string(), z.number()).describe('the numbers involved; names carry units'),
  sentence: z.string().describe('what to change, in words'),
});

/** Problem details after RFC 9457, with the issues as an extension member. */
export const problem = z
  .strictObject({
    type: z.string().describe('identifies the kind of problem'),
    title: z.string().describe('the kind of problem in a few words'),
    status: z.int().min(400).max(599).describe('HTTP status'),
    detail: z.string().describe('what happened and what to do about it'),
    issues: z.array(issue).describe('every reason, each with its place and its remedy'),
    reference: z.string().optional().describe('number of this request in the log of the service'),
    lastGoodCopy: z
      .string()
      .optional()
      .describe('where the last good copy of an unreadable job can be opened'),
  })
  .meta({ id: 'Problem', title: 'Problem', description: 'Problem details after RFC 9457.' });

export type Problem = z.infer<typeof problem>;
