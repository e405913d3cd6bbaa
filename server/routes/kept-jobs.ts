import { z } from 'zod';
import { jobDocument } from '../contract/job.ts';
import { binnedJob, keptId, keptJob, keptJobs, naming } from '../contract/kept-jobs.ts';
import { person, personHeader, savedByHeader } from '../contract/person.ts';
import { personOf } from '../person.ts';
import { keptOr, ProblemError, problemOf } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { removeJob } from '../store/bin.ts';
import {
  createJob,
  duplicateJob,
  type OpenedJob,
  openJob,
  openLastGoodCopy,
  renameJob,
  saveJob,
  versionOf,
} from '../store/kept-jobs.ts';
import type { Workshop } from '../store/workshop.ts';

const params = z.object({ id: keptId });

/** The header that says which version of a job was opened; the store says what to do when it is missing. */
export const ifMatch = z.looseObject({
  'if-match': z.string().optional().describe('ETag of the version that was opened; required'),
  [personHeader]: person,
});

/** Who asks, on requests that need no version. */
const byPerson = z.looseObject({ [personHeader]: person });

/** When an opened job was saved, and by whom. */
const savedHeaders = ({ etag, saved, savedBy }: OpenedJob): Record<string, string> => ({
  etag,
  'last-modified': new Date(saved).toUTCString(),
  ...(savedBy === '' ? {} : { [savedByHeader]: encodeURIComponent(savedBy) }),
});

const tags = ['kept jobs'];

function listAndCreate(app: App, { listing, workshop }: Service): void {
  app.get(
    '/api/jobs',
    { schema: { tags, summary: 'The workshop’s jobs', response: responses({ 200: keptJobs }, [507]) } },
    async (_request, reply) => reply.type('application/json; charset=utf-8').send(await listing.list()),
  );
  app.post(
    '/api/jobs',
    {
      schema: {
        tags,
        summary: 'Keep a new job',
        headers: byPerson,
        body: jobDocument,
        response: responses({ 201: keptJob }, [...bodyStatuses, 507]),
      },
    },
    async (request, reply) => {
      const entry = await createJob(workshop, request.body, personOf(request.headers));
      return reply
        .code(201)
        .headers({ location: `/api/jobs/${entry.id}`, etag: entry.etag })
        .send(entry);
    },
  );
}

/** A file that cannot be read is answered with its version and the way to its copy, so that it can be replaced. */
async function unreadable(workshop: Workshop, id: string, problem: ProblemError): Promise<ProblemError> {
  const copy = await openLastGoodCopy(workshop, id);
  const etag = await versionOf(workshop, id);
  return new ProblemError(problem.kind, problem.message, {
    issues: problem.issues,
    ...(etag === undefined ? {} : { headers: { etag } }),
    ...(copy.ok ? { lastGoodCopy: `/api/jobs/${id}/last-good-copy` } : {}),
  });
}

function open(app: App, { workshop }: Service): void {
  app.get(
    '/api/jobs/:id',
    {
      schema: {
        tags,
        summary: 'Open a job; its ETag is its version, Slotwatt-Saved-By (percent-encoded) who saved it',
        params,
        response: responses({ 200: jobDocument }, [400, 404, 409]),
      },
    },
    async (request, reply) => {
      const outcome = await openJob(workshop, request.params.id);
      if (!outcome.ok && outcome.issues[0]?.code === 'unreadable-job') {
        throw await unreadable(workshop, request.params.id, problemOf('conflict', outcome.issues));
      }
      const opened = keptOr(outcome);
      return reply.headers(savedHeaders(opened)).send(opened.job);
    },
  );
}

function openCopy(app: App, { workshop }: Service): void {
  app.get(
    '/api/jobs/:id/last-good-copy',
    {
      schema: {
        tags,
        summary: 'Open the last good copy; the ETag is that of the file it may replace',
        params,
        response: responses({ 200: jobDocument }, [400, 404]),
      },
    },
    async (request, reply) => {
      const opened = keptOr(await openLastGoodCopy(workshop, request.params.id));
      return reply.headers(savedHeaders(opened)).send(opened.job);
    },
  );
}

const changeStatuses = [...bodyStatuses, 404, 409, 412, 428, 507] as const;

function save(app: App, { workshop }: Service): void {
  app.put(
    '/api/jobs/:id',
    {
      schema: {
        tags,
        summary: 'Save over the version that was opened',
        params,
        headers: ifMatch,
        body: jobDocument,
        response: responses({ 200: keptJob }, changeStatuses),
      },
    },
    async (request, reply) => {
      const at = { id: request.params.id, version: request.headers['if-match'] };
      const entry = keptOr(await saveJob(workshop, at, request.body, personOf(request.headers)));
      return reply.header('etag', entry.etag).send(entry);
    },
  );
}

function rename(app: App, { workshop }: Service): void {
  app.post(
    '/api/jobs/:id/rename',
    {
      schema: {
        tags,
        summary: 'Give a job another name; its id stays',
        params,
        headers: ifMatch,
        body: naming,
        response: responses({ 200: keptJob }, changeStatuses),
      },
    },
    async (request, reply) => {
      const at = { id: request.params.id, version: request.headers['if-match'] };
      const entry = keptOr(await renameJob(workshop, at, request.body.name, personOf(request.headers)));
      return reply.header('etag', entry.etag).send(entry);
    },
  );
}

function remove(app: App, { workshop }: Service): void {
  app.delete(
    '/api/jobs/:id',
    {
      schema: {
        tags,
        summary: 'Move a job and its revisions to the bin',
        params,
        headers: ifMatch,
        response: responses({ 200: binnedJob }, changeStatuses),
      },
    },
    async (request) =>
      keptOr(await removeJob(workshop, { id: request.params.id, version: request.headers['if-match'] })),
  );
}

function duplicate(app: App, { workshop }: Service): void {
  app.post(
    '/api/jobs/:id/duplicate',
    {
      schema: {
        tags,
        summary: 'Copy a job under another name, without its revisions',
        params,
        headers: byPerson,
        body: naming,
        response: responses({ 201: keptJob }, [...bodyStatuses, 404, 409, 507]),
      },
    },
    async (request, reply) => {
      const { params, body, headers } = request;
      const entry = keptOr(await duplicateJob(workshop, params.id, body.name, personOf(headers)));
      return reply
        .code(201)
        .headers({ location: `/api/jobs/${entry.id}`, etag: entry.etag })
        .send(entry);
    },
  );
}

/** /api/jobs: the workshop’s jobs on disk. */
export function keptJobRoutes(app: App, service: Service): void {
  for (const add of [listAndCreate, open, openCopy, save, rename, remove, duplicate]) add(app, service);
}
