import { buildApp } from './app.ts';
import { openPool, type WorkerFiles } from './pool.ts';
import type { App, Threads } from './service.ts';
import { readSettings, type Settings } from './settings.ts';
import { startedSentences } from './started.ts';
import { StoreTrouble } from './store/trouble.ts';

/** Workers lie beside this file, as source while developing and built otherwise. */
const workers: WorkerFiles = {
  folder: new URL('./workers/', import.meta.url),
  ending: import.meta.url.endsWith('.ts') ? '.ts' : '.js',
};

/** What the system says when the service cannot start, and what to do about it. */
function startSentence(error: unknown, { host, port, jobsFolder }: Settings): string {
  if (error instanceof StoreTrouble) return error.message;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const another = `choose another with PORT=${port + 1}`;
  const sentences: Readonly<Record<string, string>> = {
    EADDRINUSE: `Port ${port} is taken, perhaps by another Slotwatt: stop that one, or ${another}.`,
    EADDRNOTAVAIL: `This computer has no address ${host}: leave SLOTWATT_HOST out, or give an address of this computer.`,
    EACCES: `The system does not allow port ${port} or the folder ${jobsFolder}: ${another}, or another folder with SLOTWATT_JOBS.`,
    ENOTDIR: `${jobsFolder} cannot be a folder of jobs, because a file is in the way: choose another with SLOTWATT_JOBS.`,
    EEXIST: `${jobsFolder} cannot be a folder of jobs, because a file is in the way: choose another with SLOTWATT_JOBS.`,
    EROFS: `${jobsFolder} is on a disk that may only be read: choose another folder with SLOTWATT_JOBS.`,
  };
  return sentences[code] ?? `The service could not start: ${error instanceof Error ? error.message : error}`;
}

function fail(sentence: string): void {
  console.error(sentence);
  process.exitCode = 1;
}

/** Lets running requests finish; a second signal does not wait. */
function stopOnSignals(app: App): void {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      process.once(signal, () => process.exit(1));
      void app.close();
    });
  }
}

const openThreads = (threadCount: number): Threads => ({
  quick: openPool(workers, { threadCount, queueLimit: 64, timeLimit_ms: 20_000, isLong: false }),
  slow: openPool(workers, { threadCount, queueLimit: 64, timeLimit_ms: 120_000, isLong: true }),
  heavy: openPool(workers, { threadCount: 1, queueLimit: 8, timeLimit_ms: 600_000, isLong: true }),
});

async function start(settings: Settings): Promise<void> {
  const { host, port, jobsFolder, pageFolder, threadCount, callers } = settings;
  let app: App | undefined;
  try {
    app = await buildApp({
      jobsFolder,
      pageFolder,
      callers,
      workers,
      openThreads: () => openThreads(threadCount),
      patience_ms: 60_000,
      logger: { level: 'warn' },
    });
    const address = await app.listen({ host, port });
    stopOnSignals(app);
    for (const sentence of startedSentences(address, jobsFolder, callers)) console.log(sentence);
  } catch (error) {
    await app?.close();
    fail(startSentence(error, settings));
  }
}

const settings = readSettings(process.env);
if (settings.ok) await start(settings.value);
else fail(settings.issues.map((issue) => issue.sentence).join(' '));
