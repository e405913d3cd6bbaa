import { z } from 'zod';
import { readJobText } from '../../src/index.ts';
import { jobDocument } from '../contract/job.ts';
import { valueOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App } from '../service.ts';
import { withoutMark } from '../store/stored-file.ts';

const text = z
  .string({ error: 'send the text of the file as text/plain.' })
  .meta({ title: 'Text of a job file' });

/** POST /api/job-file: reads the text of a saved file as a job, or says what is wrong with it. */
export function jobFileRoutes(app: App): void {
  app.post(
    '/api/job-file',
    {
      schema: {
        tags: ['jobs'],
        summary: 'Read the text of a saved job',
        consumes: ['text/plain'],
        body: text,
        response: responses({ 200: jobDocument }, bodyStatuses),
      },
    },
    async (request) => valueOr('malformed-job', readJobText(withoutMark(request.body))),
  );
}
