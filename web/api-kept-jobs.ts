import type { Comparison, TwoSides } from '../server/contract/comparison.ts';
import type { IssuedReadings, ReadingsKept, ReadingToKeep } from '../server/contract/issued-readings.ts';
import type {
  BinnedJob,
  KeptJob,
  ListedJob,
  ListedRevision,
  Revision,
  RevisionChanges,
  RevisionEntry,
} from '../server/contract/kept-jobs.ts';
import type * as contract from '../server/contract/person.ts';
import type { Job } from '../src/job/job.ts';
import { asJson, ask, posted, type Reply } from './api.ts';

/** A kept job as it was opened: its document and the version to send back when it is kept again. */
export interface OpenedJob {
  readonly job: Job;
  readonly etag: string;
  readonly saved: string;
  /** Who saved it; empty where nobody said. */
  readonly savedBy: string;
}

/** Who saved what is answered, as the service calls it. */
const savedByHeader: typeof contract.savedByHeader = 'slotwatt-saved-by';

const pathOf = (id: string): string => `/api/jobs/${encodeURIComponent(id)}`;
const ofVersion = (init: RequestInit, etag: string): RequestInit => ({
  ...init,
  headers: { ...init.headers, 'if-match': etag },
});

async function opened(response: Response): Promise<OpenedJob> {
  const saved = new Date(response.headers.get('last-modified') ?? 0).toISOString();
  const savedBy = decodeURIComponent(response.headers.get(savedByHeader) ?? '');
  return { job: (await response.json()) as Job, etag: response.headers.get('etag') ?? '', saved, savedBy };
}

export const askKeptJobs = (): Promise<Reply<readonly ListedJob[]>> =>
  ask('/api/jobs', {}, asJson<ListedJob[]>);

export const askKeptJob = (id: string): Promise<Reply<OpenedJob>> => ask(pathOf(id), {}, opened);

export const askLastGoodCopy = (id: string): Promise<Reply<OpenedJob>> =>
  ask(`${pathOf(id)}/last-good-copy`, {}, opened);

export const keepNewJob = (job: Job): Promise<Reply<KeptJob>> =>
  ask('/api/jobs', posted(job), asJson<KeptJob>);

/** Keeps a job in place of the version named; refused with 412 when that is no longer the latest. */
export const keepJob = (id: string, etag: string, job: Job): Promise<Reply<KeptJob>> =>
  ask(pathOf(id), ofVersion({ ...posted(job), method: 'PUT' }, etag), asJson<KeptJob>);

export const renameKeptJob = (id: string, etag: string, name: string): Promise<Reply<KeptJob>> =>
  ask(`${pathOf(id)}/rename`, ofVersion(posted({ name }), etag), asJson<KeptJob>);

export const duplicateKeptJob = (id: string, name: string): Promise<Reply<KeptJob>> =>
  ask(`${pathOf(id)}/duplicate`, posted({ name }), asJson<KeptJob>);

export const deleteKeptJob = (id: string, etag: string): Promise<Reply<BinnedJob>> =>
  ask(pathOf(id), ofVersion({ method: 'DELETE' }, etag), asJson<BinnedJob>);

export const askBin = (): Promise<Reply<readonly BinnedJob[]>> => ask('/api/bin', {}, asJson<BinnedJob[]>);

export const restoreFromBin = (id: string): Promise<Reply<KeptJob>> =>
  ask(`/api/bin/${encodeURIComponent(id)}/restore`, { method: 'POST' }, asJson<KeptJob>);

export const askRevisions = (id: string): Promise<Reply<readonly ListedRevision[]>> =>
  ask(`${pathOf(id)}/revisions`, {}, asJson<ListedRevision[]>);

export const issueRevision = (id: string, etag: string, note: string): Promise<Reply<RevisionEntry>> =>
  ask(`${pathOf(id)}/revisions`, ofVersion(posted({ note }), etag), asJson<RevisionEntry>);

export const askRevision = (id: string, revision: string): Promise<Reply<Revision>> =>
  ask(`${pathOf(id)}/revisions/${encodeURIComponent(revision)}`, {}, asJson<Revision>);

export const askRevisionChanges = (id: string, revision: string): Promise<Reply<RevisionChanges>> =>
  ask(`${pathOf(id)}/revisions/${encodeURIComponent(revision)}/changes`, {}, asJson<RevisionChanges>);

const readingsOf = (id: string, revision: string): string =>
  `${pathOf(id)}/revisions/${encodeURIComponent(revision)}/readings`;

export const askReadings = (id: string, revision: string): Promise<Reply<IssuedReadings>> =>
  ask(readingsOf(id, revision), {}, asJson<IssuedReadings>);

/** Keeps readings box by box; the answer names those that somebody else wrote meanwhile. */
export const keepReadings = (
  id: string,
  revision: string,
  readings: readonly ReadingToKeep[],
): Promise<Reply<ReadingsKept>> =>
  ask(readingsOf(id, revision), { ...posted({ readings }), method: 'PATCH' }, asJson<ReadingsKept>);

/** What the second of two is otherwise in than the first. */
export const askComparison = (sides: TwoSides, signal: AbortSignal): Promise<Reply<Comparison>> =>
  ask('/api/comparison', { ...posted(sides), signal }, asJson<Comparison>);
