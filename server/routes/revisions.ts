import { z } from 'zod';
import type { Job } from '../contract/job.ts';
import { issuing, keptId, revision, revisionEntries, revisionEntry } from '../contract/kept-jobs.ts';
import { sizeCarefully } from '../engine.ts';
import { personOf } from '../person.ts';
import { keptOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { issueRevision, listRevisions, openRevision } from '../store/revisions.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import { ifMatch } from './kept-jobs.ts';

const tags = ['revisions'];
const params = z.object({ id: keptId });

function issue(app: App, service: Service): void {
  app.post(
    '/api/jobs/:id/revisions',
    {
      schema: {
        tags,
        summary: 'Issue the revision in the title block: frozen from then on',
        params,
        headers: ifMatch,
        body: issuing,
        response: responses({ 201: revisionEntry }, [...bodyStatuses, 404, 409, 412, 422, 428, 503, 507]),
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const at = { id, version: request.headers['if-match'] };
      const size = (job: Job) => sizeCarefully(service, job, withdrawnSignal(reply));
      const { note } = request.body;
      const by = personOf(request.headers);
      const entry = keptOr(await issueRevision(service.workshop, at, { size, note, by }));
      return reply.code(201).header('location', `/api/jobs/${id}/revisions/${entry.id}`).send(entry);
    },
  );
}

function look(app: App, { workshop }: Service): void {
  app.get(
    '/api/jobs/:id/revisions',
    {
      schema: {
        tags,
        summary: 'Revisions issued, in the order of issue; what is wrong with one is its trouble',
        params,
        response: responses({ 200: revisionEntries }, [400, 404, 507]),
      },
    },
    async (request) => keptOr(await listRevisions(workshop, request.params.id)),
  );
  app.get(
    '/api/jobs/:id/revisions/:revision',
    {
      schema: {
        tags,
        summary: 'One revision as it was issued',
        params: z.object({ id: keptId, revision: keptId }),
        response: responses({ 200: revision }, [400, 404, 409, 507]),
      },
    },
    async (request) => keptOr(await openRevision(workshop, request.params.id, request.params.revision)),
  );
}

/** /api/jobs/{id}/revisions: what was issued, and issuing the next. */
export function revisionRoutes(app: App, service: Service): void {
  issue(app, service);
  look(app, service);
}
