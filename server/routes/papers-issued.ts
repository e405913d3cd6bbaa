import { z } from 'zod';
import { readJob, sizing } from '../../src/index.ts';
import { keptId, type Revision } from '../contract/kept-jobs.ts';
import { paperSize } from '../contract/papers.ts';
import { scheduleCsv } from '../csv.ts';
import { paperFileName } from '../papers/file-name.ts';
import type { PackInput } from '../papers/pack.ts';
import type { Format } from '../papers/sheets/sheet.ts';
import { writtenIn } from '../papers/written-in.ts';
import { keptOr, ProblemError } from '../problem.ts';
import { responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { readingsOf } from '../store/readings.ts';
import { listRevisions, openRevision } from '../store/revisions.ts';
import type { Workshop } from '../store/workshop.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { PapersTask } from '../workers/papers.ts';

const params = z.object({ id: keptId, revision: keptId });
type At = z.infer<typeof params>;

/** Whether the boxes of the test sheet are left to be written in by hand, or hold what was measured. */
const boxes = z
  .enum(['empty', 'measured'])
  .default('empty')
  .describe('boxes of the test sheet: empty to be written in, or with what was measured on the revision');

const pdf = z.string().meta({ title: 'PDF', format: 'binary' });
const page = z.string().meta({ title: 'HTML in one file' });
const csv = z.string().meta({ title: 'CSV', description: 'RFC 4180, UTF-8 with a mark in front, CRLF.' });

/** What was frozen, as today's papers need it; an earlier engine may have written it otherwise. */
function frozen(revision: Revision): Pick<PackInput, 'job' | 'sizing'> {
  const [jobRead, sizingRead] = [readJob(revision.job), sizing.safeParse(revision.sizing)];
  if (jobRead.ok && sizingRead.success) return { job: jobRead.value, sizing: sizingRead.data };
  throw new ProblemError(
    'conflict',
    `Revision ${revision.revision} was issued by engine ${revision.engine}, whose answers this version cannot lay out: print it with Slotwatt ${revision.engine.split('+')[0]}, or issue a new revision. Its figures are at hand as JSON.`,
  );
}

/** An earlier revision to compare with; undefined where it is not as it was issued, or from too early an engine. */
async function laidOut(workshop: Workshop, id: string, revision: string) {
  const opened = await openRevision(workshop, id, revision);
  if (!opened.ok) return undefined;
  try {
    return frozen(opened.value);
  } catch (error) {
    if (error instanceof ProblemError) return undefined;
    throw error;
  }
}

/** A note that says why no row is marked. */
const withoutChanges = (note: string, before: string): string =>
  [note, `(changes since ${before} are not marked: ${before} cannot be read)`].join(' ').trim();

/** The revision with those before it for the table on the cover, and the one just before to compare with. */
async function packInput({ workshop }: Service, at: At, format: Format): Promise<PackInput> {
  const revision = keptOr(await openRevision(workshop, at.id, at.revision));
  const listed = keptOr(await listRevisions(workshop, at.id));
  const upTo = listed.slice(0, listed.findIndex(({ id }) => id === revision.id) + 1);
  const previous = upTo.at(-2);
  const before = previous && (await laidOut(workshop, at.id, previous.id));
  const isUncompared = previous !== undefined && before === undefined;
  return {
    ...frozen(revision),
    format,
    issued: {
      date: revision.issued.slice(0, 10),
      as: { jobId: at.id, id: revision.id, revision: revision.revision, issued: revision.issued },
    },
    revisions: upTo.map(({ id, revision, issued, note }) => ({
      revision,
      date: issued.slice(0, 10),
      note: id === at.revision && isUncompared ? withoutChanges(note, previous.revision) : note,
    })),
    before: previous && before ? { revision: previous.revision, ...before } : null,
  };
}

function testSheetRoute(app: App, service: Service): void {
  app.get(
    '/api/jobs/:id/revisions/:revision/test-sheet.csv',
    {
      schema: {
        tags: ['papers'],
        summary: 'The test sheet of an issued revision with what was measured in its boxes',
        params,
        response: responses(
          { 200: { description: 'The test sheet', content: { 'text/csv': { schema: csv } } } },
          [400, 404, 409, 507],
        ),
      },
    },
    async ({ params }, reply) => {
      const revision = keptOr(await openRevision(service.workshop, params.id, params.revision));
      const sheet = frozen(revision).sizing.schedules.find(({ id }) => id === 'test-sheet')!;
      const readings = keptOr(await readingsOf(service.workshop, params.id, params.revision));
      const file = `${params.id}-${params.revision}-test-sheet.csv`;
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="${file}"`)
        .send(scheduleCsv(writtenIn(sheet, readings)));
    },
  );
}

function onSiteRoute(app: App, service: Service): void {
  app.get(
    '/api/jobs/:id/revisions/:revision/hand-over.html',
    {
      schema: {
        tags: ['papers'],
        summary: 'An issued revision as one page for the site, which needs no network',
        params,
        response: responses(
          { 200: { description: 'The page', content: { 'text/html': { schema: page } } } },
          [400, 404, 409, 503, 507],
        ),
      },
    },
    async ({ params }, reply) => {
      const input = await packInput(service, params, 'A4');
      const task: PapersTask = { name: 'hand-over.html', input };
      const text = await service.slow.run<string>('papers', task, withdrawnSignal(reply));
      return reply
        .type('text/html; charset=utf-8')
        .header(
          'content-disposition',
          `attachment; filename="${params.id}-${params.revision}-hand-over.html"`,
        )
        .send(text);
    },
  );
}

/** GET /api/jobs/{id}/revisions/{revision}/pack.pdf, hand-over.html and test-sheet.csv: the pack as issued, with the rows that changed marked. */
export function issuedPaperRoutes(app: App, service: Service): void {
  testSheetRoute(app, service);
  onSiteRoute(app, service);
  app.get(
    '/api/jobs/:id/revisions/:revision/pack.pdf',
    {
      schema: {
        tags: ['papers'],
        summary:
          'The hand-over of an issued revision, with the rows marked that changed since the one before',
        params,
        querystring: z.strictObject({ paper: paperSize, boxes }),
        response: responses(
          { 200: { description: 'The pack', content: { 'application/pdf': { schema: pdf } } } },
          [400, 404, 409, 503, 507],
        ),
      },
    },
    async ({ params, query }, reply) => {
      const plain = await packInput(service, params, query.paper);
      const readings =
        query.boxes === 'empty' ? [] : keptOr(await readingsOf(service.workshop, params.id, params.revision));
      const input = { ...plain, readings };
      const task: PapersTask = { name: 'pack.pdf', input };
      const bytes = await service.slow.run<Uint8Array>('papers', task, withdrawnSignal(reply));
      const name = query.boxes === 'empty' ? 'pack.pdf' : 'pack-measured.pdf';
      const file = paperFileName(`${params.id}-${params.revision}`, name, query.paper);
      return reply
        .type('application/pdf')
        .header('content-disposition', `attachment; filename="${file}"`)
        .send(Buffer.from(bytes));
    },
  );
}
