import { z } from 'zod';
import { jobDocument } from '../contract/job.ts';
import { accuracyQuery, type Schedule, scheduleId } from '../contract/questions.ts';
import { scheduleCsv } from '../csv.ts';
import { askEngine } from '../engine.ts';
import { ProblemError } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { slugOf } from '../store/slug.ts';
import { withdrawnSignal } from '../withdrawn.ts';

const csv = z.string().meta({ title: 'CSV', description: 'RFC 4180, UTF-8 with a mark in front, CRLF.' });

/** POST /api/schedules/{id}.csv: one schedule of a job for a spreadsheet. */
export function scheduleCsvRoutes(app: App, service: Service): void {
  app.post(
    '/api/schedules/:id.csv',
    {
      schema: {
        tags: ['sizing'],
        summary: 'One schedule as CSV, with nothing in it that a spreadsheet would run',
        params: z.object({ id: scheduleId }),
        querystring: accuracyQuery('careful'),
        body: jobDocument,
        response: responses(
          { 200: { description: 'The schedule', content: { 'text/csv': { schema: csv } } } },
          [...bodyStatuses, 404, 422, 503],
        ),
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const task = {
        kind: 'sizing',
        question: 'schedules',
        accuracy: request.query.accuracy,
        job: request.body,
      } as const;
      const schedules: Schedule[] = JSON.parse(await askEngine(service, task, withdrawnSignal(reply)));
      const schedule = schedules.find((candidate) => candidate.id === id);
      if (!schedule) {
        throw new ProblemError(
          'not-found',
          `This job has no ${id} schedule: see /api/schedules for those it has.`,
        );
      }
      const name = `${slugOf(request.body.title.job, 'job')}-${id}.csv`;
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="${name}"`)
        .send(scheduleCsv(schedule));
    },
  );
}
