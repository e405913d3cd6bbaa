import type { FastifyError, FastifyReply } from 'fastify';
import { z } from 'zod';
import type { Outcome } from '../../src/outcome.ts';
import { dxfQuery, slotsRead } from '../contract/papers.ts';
import type { SlotsRead } from '../drawing-in/slots-read.ts';
import { ProblemError, valueOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { DrawingInTask } from '../workers/drawing-in.ts';

/** The most a drawing may have, in bytes: some 100,000 lines. A table of all slots is far below a tenth of it. */
const mostDrawingBytes = 8 * 1024 * 1024;

const text = z
  .string({ error: 'send the text of the file as text/plain.' })
  .meta({ title: 'Text of a drawing or a table' });

/** The service speaks of jobs when a request is too large or of the wrong type; here it is a drawing. */
async function answerDrawingFault(error: FastifyError): Promise<never> {
  if (error.code === 'FST_ERR_CTP_BODY_TOO_LARGE') {
    const sentence =
      'A drawing may have at most 8 MB: save only the layer with the slots as a drawing of its own.';
    throw new ProblemError('too-large', sentence);
  }
  if (error.code === 'FST_ERR_CTP_INVALID_MEDIA_TYPE')
    throw new ProblemError('wrong-content-type', 'Send the drawing or the table as text/plain.');
  throw error;
}

const common = {
  tags: ['papers'],
  consumes: ['text/plain'],
  body: text,
  response: responses({ 200: slotsRead }, [...bodyStatuses, 503]),
};

const limits = { bodyLimit: mostDrawingBytes, errorHandler: answerDrawingFault };

/** POST /api/drawing-in/dxf and /table: slots from a drawing or a pasted table, for the maker to look at first. */
export function drawingInRoutes(app: App, { quick }: Service): void {
  async function read(task: DrawingInTask, reply: FastifyReply): Promise<z.infer<typeof slotsRead>> {
    const outcome = await quick.run<Outcome<SlotsRead>>('drawing-in', task, withdrawnSignal(reply));
    return slotsRead.parse(valueOr('malformed-request', outcome));
  }
  app.post(
    '/api/drawing-in/dxf',
    {
      ...limits,
      schema: {
        ...common,
        summary: 'Slots from a DXF: lines, polylines and rectangles on a layer',
        querystring: dxfQuery,
      },
    },
    async ({ body, query }, reply) => {
      const corner_mm = { x: query.cornerX_mm, y: query.cornerY_mm };
      const reading = { text: body, layer: query.layer ?? null, unit: query.unit ?? null, corner_mm };
      return read({ kind: 'dxf', reading }, reply);
    },
  );
  app.post(
    '/api/drawing-in/table',
    { ...limits, schema: { ...common, summary: 'Slots from a pasted table: x0 y0 x1 y1 in mm' } },
    async ({ body }, reply) => read({ kind: 'table', text: body }, reply),
  );
}
