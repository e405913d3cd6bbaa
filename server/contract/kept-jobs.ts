import * as z from 'zod';

const when = z.string().describe('date and time, UTC, ISO 8601');

/** Ids are made by the service: words of small letters and digits joined by hyphens. */
export const keptId = z
  .string()
  .max(80)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, {
    error: 'An id is made of small letters, digits and single hyphens: take it from the list of jobs.',
  })
  .meta({ title: 'Id' });

/** A job in the workshop's folder, without its document. */
export const keptJob = z
  .strictObject({
    id: keptId,
    name: z.string().describe('name of the job in its title block'),
    client: z.string(),
    documentNumber: z.string().describe('as it stands in the title block, as is the revision'),
    revision: z.string(),
    saved: when,
    savedBy: z.string().describe('who saved it; empty where nobody said'),
    etag: z.string().describe('version of the document, to be sent back as If-Match'),
    revisions: z.array(z.string()).describe('ids of the revisions issued, by name'),
    trouble: z.string().nullable().describe('why the file cannot be read; null when it can'),
  })
  .meta({ id: 'KeptJob', title: 'Kept job' });

/** What the list shows: a job, or whatever else stands in the folder, so that nobody misses it in silence. */
const listedJob = keptJob
  .extend({
    id: keptId.nullable().describe('null for what is no job that can be worked with; its trouble says why'),
    name: z.string().describe('name of the job in its title block; without an id, the name on the disk'),
  })
  .meta({ id: 'ListedJob', title: 'Entry of the workshop’s folder' });

export const keptJobs = z.array(listedJob).meta({ id: 'KeptJobs', title: 'Kept jobs' });

/** A job that was deleted and can be brought back. */
export const binnedJob = z
  .strictObject({ id: keptId, name: z.string(), deleted: when })
  .meta({ id: 'BinnedJob', title: 'Deleted job' });

export const bin = z.array(binnedJob).meta({ id: 'Bin', title: 'Bin' });

const name = z
  .string({ error: 'name must be text: give the job a name.' })
  .trim()
  .min(1, { error: 'name is empty: give the job a name.' })
  .max(60, { error: 'name must not be longer than 60 characters, to fit its box on paper.' })
  .meta({ title: 'Job name' });

/** New name of a job, or the name of its duplicate. */
export const naming = z.strictObject({ name }).meta({ id: 'Naming', title: 'Name' });

/** What is written beside the letter in the revision table. */
export const issuing = z
  .strictObject({
    note: z
      .string({ error: 'note must be text: say in a line what changed.' })
      .max(200, { error: 'note must not be longer than 200 characters, to fit its box on paper.' })
      .meta({ title: 'What changed' }),
  })
  .meta({ id: 'Issuing', title: 'Issue of a revision' });

/** A revision in the list: which, when, by which engine. */
export const revisionEntry = z
  .strictObject({
    id: keptId,
    revision: z.string().describe('as it stands in the title block'),
    issued: when,
    engine: z.string().describe('name and version of the engine that computed it'),
    note: z.string(),
    sequence: z
      .int()
      .min(1)
      .nullable()
      .describe('counts what was issued of the job, from 1; null for what was issued before it was counted'),
    by: z.string().describe('who issued it; empty where nobody said'),
  })
  .meta({ id: 'RevisionEntry', title: 'Revision in the list' });

export const revisionEntries = z
  .array(
    revisionEntry.extend({
      trouble: z
        .string()
        .nullable()
        .describe('what is wrong with it and what to do; null when it can be opened'),
      isAsKept: z.boolean().describe('whether the job as it is kept now is the one that was issued'),
    }),
  )
  .meta({ id: 'RevisionEntries', title: 'Revisions' });

/**
 * An issued revision: job and sizing as they were on the day. Both are given as they were written, which may be
 * by an earlier engine, so their insides are not checked against today's schemas.
 */
export const revision = z
  .strictObject({
    ...revisionEntry.shape,
    jobId: z.string().nullable().describe('id of the job when it was issued; null where sequence is'),
    predecessor: z
      .string()
      .nullable()
      .describe('SHA-256 of the file of the revision issued before; null for the first'),
    job: z.looseObject({}).describe('the job document as issued'),
    sizing: z
      .looseObject({ engine: z.string() })
      .describe('the whole answer as issued, with the products it was calculated with'),
  })
  .meta({ id: 'Revision', title: 'Issued revision' });

/** What stands otherwise than in another: the maker's own changes, what came of them, row by row of the schedules. */
export const changes = {
  made: z
    .array(z.strictObject({ label: z.string(), before: z.string(), after: z.string() }))
    .describe('fields of the job that hold something else, but for revision and date'),
  became: z.array(z.string()).describe('findings and rows that came of it, verdicts first'),
  shifts: z.string().describe('what moved by 5 % or less, in one line; empty for nothing'),
  changes: z.array(
    z.strictObject({
      schedule: z.string(),
      title: z.string().describe('title of the schedule'),
      ref: z.string().describe('first cell of the row'),
      row: z.int().nullable().describe('number of the row from 0; null for a row that is gone'),
      what: z.string(),
    }),
  ),
};

/** What stands otherwise on the papers than in the revision before. */
export const revisionChanges = z
  .strictObject({
    since: z.string().nullable().describe('the revision before, as in its title block; null for the first'),
    ...changes,
  })
  .meta({ id: 'RevisionChanges', title: 'Changes since the revision before' });

export type KeptJob = z.infer<typeof keptJob>;
export type ListedJob = z.infer<typeof listedJob>;
export type BinnedJob = z.infer<typeof binnedJob>;
export type RevisionEntry = z.infer<typeof revisionEntry>;
export type ListedRevision = z.infer<typeof revisionEntries>[number];
export type Revision = z.infer<typeof revision>;
export type RevisionChanges = z.infer<typeof revisionChanges>;
