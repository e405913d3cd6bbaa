import { z } from 'zod';
import { jobDocument } from '../contract/job.ts';
import { paperQuery } from '../contract/papers.ts';
import { sizedText } from '../engine.ts';
import { paperFileName } from '../papers/file-name.ts';
import type { Paper, PaperName } from '../papers/papers.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { slugOf } from '../store/slug.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { PapersTask } from '../workers/papers.ts';

const kinds = {
  pdf: { type: 'application/pdf', schema: z.string().meta({ title: 'PDF', format: 'binary' }) },
  svg: { type: 'image/svg+xml', schema: z.string().meta({ title: 'SVG at true size' }) },
  csv: { type: 'text/csv', schema: z.string().meta({ title: 'CSV after RFC 4180' }) },
  dxf: { type: 'image/vnd.dxf', schema: z.string().meta({ title: 'DXF AC1021 in millimetres' }) },
} as const;

interface PaperRoute {
  readonly name: PaperName;
  readonly kind: keyof typeof kinds;
  readonly summary: string;
}

const routes: readonly PaperRoute[] = [
  { name: 'pack.pdf', kind: 'pdf', summary: 'The whole hand-over as one PDF' },
  { name: 'labels.pdf', kind: 'pdf', summary: 'Two labels for each cable, to be cut out' },
  { name: 'labels.csv', kind: 'csv', summary: 'Two labels for each cable, for a label printer' },
  { name: 'elevation.svg', kind: 'svg', summary: 'The elevation on a sheet, to scale' },
  { name: 'elevation.dxf', kind: 'dxf', summary: 'The elevation at full size, layers by content' },
  { name: 'section.svg', kind: 'svg', summary: 'The section on a sheet, to scale' },
  { name: 'section.dxf', kind: 'dxf', summary: 'The section at full size, layers by content' },
];

function paperRoute(app: App, service: Service, { name, kind, summary }: PaperRoute): void {
  const { type, schema } = kinds[kind];
  app.post(
    `/api/papers/${name}`,
    {
      schema: {
        tags: ['papers'],
        summary,
        querystring: paperQuery,
        body: jobDocument,
        response: responses({ 200: { description: summary, content: { [type]: { schema } } } }, [
          ...bodyStatuses,
          422,
          503,
        ]),
      },
    },
    async (request, reply) => {
      const { paper: format, accuracy } = request.query;
      const job = request.body;
      const withdrawn = withdrawnSignal(reply);
      const sizing = await sizedText(service, { job, accuracy }, withdrawn);
      const task: PapersTask = {
        name,
        input: { job, sizing, format, issued: null, revisions: [], before: null },
      };
      const pool = accuracy === 'careful' ? service.slow : service.quick;
      const paper = await pool.run<Paper>('papers', task, withdrawn);
      const file = paperFileName(slugOf(job.title.job, 'job'), name, format);
      return reply
        .type(kind === 'pdf' ? type : `${type}; charset=utf-8`)
        .header('content-disposition', `attachment; filename="${file}"`)
        .send(typeof paper === 'string' ? paper : Buffer.from(paper));
    },
  );
}

/** POST /api/papers/...: the papers of a job as files, from the answer the page already has where it is kept still. */
export function papersRoutes(app: App, service: Service): void {
  for (const route of routes) paperRoute(app, service, route);
}
