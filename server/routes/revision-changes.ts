import { z } from 'zod';
import { readJob, sizing } from '../../src/index.ts';
import { keptId, type Revision, revisionChanges } from '../contract/kept-jobs.ts';
import type { Schedule } from '../contract/questions.ts';
import { changesSince } from '../papers/changes.ts';
import { type Compared, comparisonOf } from '../papers/comparison.ts';
import { keptOr, ProblemError } from '../problem.ts';
import { responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { listRevisions, openRevision } from '../store/revisions.ts';
import type { Workshop } from '../store/workshop.ts';

const withSchedules = z.looseObject({ schedules: sizing.shape.schedules });

const withFindings = z.looseObject({ findings: sizing.shape.findings });

/** What of a revision can be compared: an earlier engine may have written its findings otherwise. */
export function comparedOf(revision: Revision): Compared {
  const [job, found] = [readJob(revision.job), withFindings.safeParse(revision.sizing)];
  return {
    schedules: schedulesOf(revision),
    ...(job.ok ? { job: job.value } : {}),
    ...(found.success ? { findings: found.data.findings } : {}),
  };
}

function schedulesOf({ revision, engine, sizing }: Revision): Schedule[] {
  const read = withSchedules.safeParse(sizing);
  if (read.success) return read.data.schedules;
  throw new ProblemError(
    'conflict',
    `The schedules of revision ${revision} were written by engine ${engine}, and this version cannot compare them: compare the packs on paper.`,
  );
}

/** The revision issued just before, or undefined for the first. */
async function revisionBefore(workshop: Workshop, id: string, revision: string) {
  const listed = keptOr(await listRevisions(workshop, id));
  const before = listed[listed.findIndex((entry) => entry.id === revision) - 1];
  return before && keptOr(await openRevision(workshop, id, before.id));
}

/** GET /api/jobs/{id}/revisions/{revision}/changes: every row that changed since the revision before. */
export function revisionChangeRoutes(app: App, { workshop }: Service): void {
  app.get(
    '/api/jobs/:id/revisions/:revision/changes',
    {
      schema: {
        tags: ['revisions'],
        summary:
          'What the maker changed since the revision before, what became of it, and every row that is otherwise',
        params: z.object({ id: keptId, revision: keptId }),
        response: responses({ 200: revisionChanges }, [400, 404, 409, 507]),
      },
    },
    async ({ params: { id, revision } }) => {
      const issued = keptOr(await openRevision(workshop, id, revision));
      const before = await revisionBefore(workshop, id, revision);
      if (!before) return { since: null, made: [], became: [], shifts: '', changes: [] };
      const [was, is] = [comparedOf(before), comparedOf(issued)];
      return {
        since: before.revision,
        ...comparisonOf(was, is),
        changes: changesSince(was.schedules, is.schedules),
      };
    },
  );
}
