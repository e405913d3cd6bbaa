import * as z from 'zod';
import { openable, proposalProgress, proposals } from '../../src/answer/proposals.ts';
import { openables } from '../../src/job/open-choices.ts';
import { jobDocument } from './job.ts';
import { problem } from './problem.ts';

/** What is asked: a job, and which of its choices may be made otherwise. */
export const proposalsAsked = z
  .strictObject({
    job: jobDocument,
    open: z
      .array(openable)
      .max(openables.length, { error: 'Name each choice that is open once.' })
      .optional()
      .describe('choices that are open; left out, those a maker usually leaves open'),
  })
  .meta({ id: 'ProposalsAsked', title: 'A job and its open choices' });

/** A line of the answer. */
export const proposalLine = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('waiting'), sentence: z.string() }),
    z.strictObject({ kind: z.literal('progress'), progress: proposalProgress }),
    z.strictObject({ kind: z.literal('answer'), answer: proposals }),
    z.strictObject({ kind: z.literal('problem'), problem }),
  ])
  .meta({
    id: 'ProposalLine',
    title: 'A line of the answer',
    description:
      'Lines of JSON, one object each, parted by line feeds. The last is the answer or a problem; whoever hangs up ends the work.',
  });

export type ProposalLine = z.infer<typeof proposalLine>;
