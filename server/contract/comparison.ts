import * as z from 'zod';
import { jobDocument } from './job.ts';
import { changes, keptId } from './kept-jobs.ts';

/** One of two that are compared: a document, a kept job as it is now, or a revision as it was issued. */
const side = z.union([
  z.strictObject({ job: jobDocument }),
  z.strictObject({ kept: keptId.describe('id of a kept job'), revision: keptId.optional() }),
]);

export const twoSides = z
  .strictObject({ before: side, after: side })
  .meta({ id: 'TwoSides', title: 'Two to compare' });

export const comparison = z
  .strictObject(changes)
  .meta({ id: 'Comparison', title: 'What the second is otherwise in than the first' });

export type Side = z.infer<typeof side>;
export type TwoSides = z.infer<typeof twoSides>;
export type Comparison = z.infer<typeof comparison>;
