import * as z from 'zod';
import { job } from '../job/job.ts';
import { openables } from '../job/open-choices.ts';
import { sizing } from './sizing.ts';
import { num, text } from './values.ts';

export const openable = z.enum(openables);

const measures = z
  .strictObject({
    price_cents: num.nullable().describe('of everything on the bill; null where a price is not known'),
    input_W: num.describe('from the mains, fully on'),
    depth_mm: num.describe('of the build-up, without its tolerance'),
    driverCount: num,
    jointCount: num.describe('made by hand: feed points, strip joints and taps'),
    hottest_degC: num
      .nullable()
      .describe('warm end of the hottest place of the build-up; null where the model does not hold'),
    unevenness: num.describe('the greater of the drop-off along a slot and the difference to the one beside'),
    cable_m: num,
    strip_m: num,
    warningCount: num,
  })
  .describe('what designs are compared by: less is better in each');

const billRow = z.strictObject({ item: text, description: text, quantity: num, unit: text });

const change = z
  .strictObject({ of: openable, label: text, before: text, after: text })
  .describe('one choice that is made otherwise');

const design = z.strictObject({
  id: text,
  job,
  sizing,
  measures,
  bestIn: z.array(text).describe('in words: what no other design here does better'),
  beats: text.describe('what it has over the first design, and what it costs; empty for the first'),
  changes: z.array(change).describe('against the job as it stands'),
  changesFromFirst: z.array(change).describe('against the first design; empty for it'),
  warnings: z.array(z.strictObject({ title: text, sentence: text })),
  bill: z.array(billRow).describe('to order, spares included'),
});

const fell = z
  .strictObject({
    check: text.describe('key of the check or of the refusal'),
    title: text,
    count: num.describe('designs that fell by it'),
    sentence: text.describe('of one of them'),
  })
  .describe('a check by which designs fell');

const proof = z.strictObject({
  allowedCount: num.describe('designs that the open choices allow'),
  sizedCount: num.describe('of them sized one by one'),
  fellCount: num.describe('of them known not to pass'),
  dearerCount: num.describe('of them left aside because none of them can be cheaper'),
  openCount: num.describe('of them not looked at; 0 where the answer is proved'),
  proved: z.boolean(),
  sentence: text,
});

const nearestMiss = z.strictObject({
  sentence: text.describe('what stands in the way, and the least change that would make it pass'),
  fails: z.array(z.strictObject({ title: text, sentence: text })),
  opened: z.array(openable).describe('what would have to be opened as well; empty where that is not known'),
  design: design.nullable().describe('with that change; null where none was found'),
});

/** Whole designs that pass, what was ruled out and by which check, and how far that is proved. */
export const proposals = z.strictObject({
  engine: text,
  open: z.array(openable),
  rankedBy: text.describe('what cheaper means here, in words'),
  designs: z.array(design).describe('the first is the one with the fewest warnings, then the cheapest'),
  present: z
    .strictObject({ measures: measures.nullable(), fails: z.array(text) })
    .describe('the job as it stands; without measures where it is refused'),
  fell: z.array(fell).describe('most designs first'),
  proof,
  nearestMiss: nearestMiss.nullable().describe('null where a design passes'),
});

/** How far a search has come. */
export const proposalProgress = z.strictObject({
  stage: text,
  allowedCount: num,
  decidedCount: num.describe('of them fallen, sized or known to be dearer'),
  sizedCount: num,
  best: z
    .strictObject({ measures, changes: z.array(change) })
    .nullable()
    .describe('the best design found yet'),
});

export type Proposals = z.infer<typeof proposals>;
export type Proposal = z.infer<typeof design>;
export type ProposalChange = z.infer<typeof change>;
export type ProposalMeasures = z.infer<typeof measures>;
export type ProposalProgress = z.infer<typeof proposalProgress>;
