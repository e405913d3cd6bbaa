import { z } from 'zod';
import { sizing } from '../../src/index.ts';
import {
  issuedReadings,
  type ReadingToKeep,
  readingsKept,
  readingsWritten,
} from '../contract/issued-readings.ts';
import { keptId, type Revision } from '../contract/kept-jobs.ts';
import { person, personHeader } from '../contract/person.ts';
import { personOf } from '../person.ts';
import { keptOr, ProblemError } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { keepReadings, readingsOf } from '../store/readings.ts';
import { openRevision } from '../store/revisions.ts';

const tags = ['revisions'];
const params = z.object({ id: keptId, revision: keptId });
const path = '/api/jobs/:id/revisions/:revision/readings';
const withSchedules = z.looseObject({ schedules: sizing.shape.schedules });

/** Rows of the test sheet as issued; undefined where an earlier engine wrote them otherwise. */
function rowsOf(revision: Revision): Set<string> | undefined {
  const sheet = withSchedules
    .safeParse(revision.sizing)
    .data?.schedules.find(({ id }) => id === 'test-sheet');
  return sheet && new Set(sheet.rows.map(([ref]) => String(ref)));
}

function expectRows(revision: Revision, readings: readonly ReadingToKeep[]): void {
  const rows = rowsOf(revision);
  const stranger = rows && readings.find(({ row }) => !rows.has(row));
  if (!stranger) return;
  throw new ProblemError(
    'refused',
    `The test sheet of revision ${revision.revision} has no row "${stranger.row}": take the rows from that sheet.`,
  );
}

/** /api/jobs/{id}/revisions/{revision}/readings: what was measured on what was issued. */
export function issuedReadingRoutes(app: App, { workshop }: Service): void {
  app.get(
    path,
    {
      schema: {
        tags,
        summary: 'Readings taken on an issued revision, with who and when',
        params,
        response: responses({ 200: issuedReadings }, [400, 404, 409, 507]),
      },
    },
    async ({ params: { id, revision } }) => ({ readings: keptOr(await readingsOf(workshop, id, revision)) }),
  );
  app.patch(
    path,
    {
      schema: {
        tags,
        summary: 'Keep readings box by box; a box somebody else wrote meanwhile is named and left alone',
        params,
        headers: z.looseObject({ [personHeader]: person }),
        body: readingsWritten,
        response: responses({ 200: readingsKept }, [...bodyStatuses, 404, 409, 422, 507]),
      },
    },
    async ({ params: { id, revision }, headers, body: { readings } }) => {
      const by = personOf(headers);
      expectRows(keptOr(await openRevision(workshop, id, revision)), readings);
      return keptOr(await keepReadings(workshop, { id, revision, by }, readings));
    },
  );
}
