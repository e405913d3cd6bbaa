import { type Comparison, comparison, type Side, twoSides } from '../contract/comparison.ts';
import { sizeCarefully } from '../engine.ts';
import { changesSince } from '../papers/changes.ts';
import { type Compared, comparisonOf } from '../papers/comparison.ts';
import { keptOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { openJob } from '../store/kept-jobs.ts';
import { openRevision } from '../store/revisions.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import { comparedOf } from './revision-changes.ts';

/** A side with its figures: those of a revision are the ones it was issued with, others are calculated with care. */
async function sized(service: Service, side: Side, withdrawn: AbortSignal): Promise<Compared> {
  if ('kept' in side && side.revision !== undefined)
    return comparedOf(keptOr(await openRevision(service.workshop, side.kept, side.revision)));
  const job = 'job' in side ? side.job : keptOr(await openJob(service.workshop, side.kept)).job;
  const { findings, schedules } = await sizeCarefully(service, job, withdrawn);
  return { job, findings, schedules };
}

/** POST /api/comparison: what the second of two is otherwise in than the first; both may be documents, kept or issued. */
export function comparisonRoutes(app: App, service: Service): void {
  app.post(
    '/api/comparison',
    {
      schema: {
        tags: ['sizing'],
        summary: 'Any two of documents, kept jobs and issued revisions held side by side, with care',
        body: twoSides,
        response: responses({ 200: comparison }, [...bodyStatuses, 404, 409, 422, 503, 507]),
      },
    },
    async ({ body: { before, after } }, reply): Promise<Comparison> => {
      const withdrawn = withdrawnSignal(reply);
      const was = await sized(service, before, withdrawn);
      const is = await sized(service, after, withdrawn);
      return { ...comparisonOf(was, is), changes: changesSince(was.schedules, is.schedules) } as Comparison;
    },
  );
}
