import type { Job } from '../../src/job/job.ts';
import { attachedName, recordFormat } from '../../src/job/record-file.ts';
import type { Attached } from './ink/pdf.ts';

/** Which revision papers were issued from, as a record names it. */
export interface IssuedRevision {
  readonly jobId: string;
  readonly id: string;
  readonly revision: string;
  /** Date and time, UTC, ISO 8601. */
  readonly issued: string;
}

/** The job of some papers as the file they carry; of an issued revision a record that names it, as the page saves one. */
export function attachedJob(job: Job, revision: IssuedRevision | null): Attached {
  const content = revision ? { format: recordFormat, job, revision, readings: [], typed: {} } : job;
  return {
    name: attachedName,
    type: 'application/json',
    description: 'The job these papers were made from: open the PDF in Slotwatt to go on with it.',
    content: Buffer.from(`${JSON.stringify(content, undefined, 2)}\n`),
  };
}
