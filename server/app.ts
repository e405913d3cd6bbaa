import { randomUUID } from 'node:crypto';
import fastify, { type FastifyError, type FastifyServerOptions } from 'fastify';
import { serializerCompiler } from 'fastify-type-provider-zod';
import { type Callers, guardCallers } from './callers.ts';
import { answerFault, mostBytes } from './faults.ts';
import { type JobListing, openJobListing } from './job-listing.ts';
import { parseJsonBody } from './json-body.ts';
import { keepAnswers } from './kept-answers.ts';
import { describeService, openApiRoutes } from './open-api.ts';
import { guardPage, keepAnswersUnstored, servePage } from './page.ts';
import type { WorkerFiles } from './pool.ts';
import { ProblemError } from './problem.ts';
import { askRoutes } from './routes/ask.ts';
import { binRoutes } from './routes/bin.ts';
import { catalogueRoutes } from './routes/catalogue.ts';
import { comparisonRoutes } from './routes/comparison.ts';
import { demoJobRoutes } from './routes/demo-jobs.ts';
import { healthRoutes } from './routes/health.ts';
import { issuedReadingRoutes } from './routes/issued-readings.ts';
import { jobFileRoutes } from './routes/job-file.ts';
import { keptJobRoutes } from './routes/kept-jobs.ts';
import { papersRoutes } from './routes/papers.ts';
import { drawingInRoutes } from './routes/papers-drawing-in.ts';
import { issuedPaperRoutes } from './routes/papers-issued.ts';
import { printedCharactersRoute } from './routes/printed-characters.ts';
import { productRoutes } from './routes/products.ts';
import { proposalRoutes } from './routes/proposals.ts';
import { questionRoutes } from './routes/questions.ts';
import { readingsRoutes } from './routes/readings.ts';
import { revisionChangeRoutes } from './routes/revision-changes.ts';
import { revisionRoutes } from './routes/revisions.ts';
import { scheduleCsvRoutes } from './routes/schedule-csv.ts';
import type { App, Service, Threads } from './service.ts';
import { openWorkshop, type Workshop } from './store/workshop.ts';
import { answerUnknownRoutes } from './unknown-routes.ts';
import { validatorCompiler } from './validation.ts';

/** What the service is built from. */
export interface AppOptions {
  /** The workshop's folder of jobs; made when it is not there. */
  readonly jobsFolder: string;
  /** The built page, or null to answer only under /api. */
  readonly pageFolder: string | null;
  readonly callers: Callers;
  readonly workers: WorkerFiles;
  /** Opens the threads that calculate, which the service closes when it stops. */
  readonly openThreads: () => Threads;
  /** How long a caller may take to send a request, ms; a quarter of it for its headers. */
  readonly patience_ms: number;
  readonly logger: NonNullable<FastifyServerOptions['logger']>;
}

/** The longest address of the service is below a tenth of it. */
const longestAddress = 2_000;

function refuseLongAddresses(app: App): void {
  app.addHook('onRequest', async ({ url }) => {
    if (url.length <= longestAddress) return;
    throw new ProblemError(
      'address-too-long',
      `The address has ${url.length} characters and may have ${longestAddress}: send what it holds as the body.`,
    );
  });
}

function bareApp({ logger, patience_ms }: AppOptions): App {
  const app: App = fastify({
    logger,
    bodyLimit: mostBytes,
    requestTimeout: patience_ms,
    http: { headersTimeout: patience_ms / 4, connectionsCheckingInterval: patience_ms / 20 },
    genReqId: () => randomUUID(),
    frameworkErrors: (error, request, reply) => void answerFault(error, request, reply),
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler<FastifyError>(answerFault);
  app.removeContentTypeParser('application/json');
  app.addContentTypeParser('application/json', { parseAs: 'string' }, parseJsonBody);
  return app;
}

/** Ends kept-alive connections with the answer under way, so that stopping does not wait for callers to hang up. */
function letGoWhenStopping(app: App): void {
  let isStopping = false;
  app.addHook('preClose', async () => {
    isStopping = true;
  });
  app.addHook('onSend', async (_request, reply) => {
    if (isStopping) reply.header('connection', 'close');
  });
}

function addRoutes(app: App, service: Service): void {
  healthRoutes(app);
  demoJobRoutes(app);
  catalogueRoutes(app);
  questionRoutes(app, service);
  askRoutes(app, service);
  proposalRoutes(app, service);
  readingsRoutes(app, service);
  scheduleCsvRoutes(app, service);
  jobFileRoutes(app);
  keptJobRoutes(app, service);
  binRoutes(app, service);
  productRoutes(app, service);
  revisionRoutes(app, service);
  revisionChangeRoutes(app, service);
  comparisonRoutes(app, service);
  issuedReadingRoutes(app, service);
  papersRoutes(app, service);
  printedCharactersRoute(app);
  issuedPaperRoutes(app, service);
  drawingInRoutes(app, service);
  openApiRoutes(app);
}

/**
 * Builds the whole service apart from listening. Close it when done: that stops its threads and lets go of its
 * folder too. Throws `folder-in-use` when another service holds the folder of jobs, and what the file system throws
 * when that cannot be made or read.
 */
export async function buildApp(options: AppOptions): Promise<App> {
  const workshop = await openWorkshop(options.jobsFolder);
  try {
    return await appOver(workshop, options);
  } catch (error) {
    await workshop.close();
    throw error;
  }
}

/**
 * Has the folder tidied once the port is held too; whoever asks for something in it waits until that is done. Then its
 * jobs are read, so that the first who asks for the list waits only for what has changed since.
 */
function tidyFirst(app: App, workshop: Workshop, listing: JobListing): void {
  const begin = async (): Promise<void> => {
    await workshop.tidied();
    await listing.list();
  };
  // Whoever asks for the list is told what is wrong with it.
  app.addHook('onListen', async () => void begin().catch(() => undefined));
  app.addHook('onRequest', async ({ routeOptions: { url = '' } }) => {
    if (/^\/api\/(jobs|bin|products)/.test(url)) await workshop.tidied();
  });
}

async function appOver(workshop: Workshop, options: AppOptions): Promise<App> {
  const app = bareApp(options);
  const { quick, slow, heavy } = options.openThreads();
  const listing = openJobListing(options.workers, workshop);
  const threads = [quick, slow, heavy, listing];
  app.addHook('onClose', async () => {
    // The listing may still be writing into the folder.
    await Promise.all(threads.map((part) => part.close())).finally(() => workshop.close());
  });
  letGoWhenStopping(app);
  refuseLongAddresses(app);
  await guardCallers(app, options.callers);
  tidyFirst(app, workshop, listing);
  answerUnknownRoutes(app);
  await describeService(app);
  await guardPage(app);
  keepAnswersUnstored(app);
  addRoutes(app, { quick, slow, heavy, answers: keepAnswers(), listing, workshop });
  if (options.pageFolder !== null) await servePage(app, options.pageFolder);
  return app;
}
