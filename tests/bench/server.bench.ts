import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Agent, request } from 'undici';
import { buildApp } from '../../server/app.ts';
import { ownComputer } from '../../server/callers.ts';
import { openPool } from '../../server/pool.ts';
import type { Threads } from '../../server/service.ts';
import { demoJobs } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { line, timed, timesDuring } from './times.ts';

const rounds = 40;
const together = 8;

/** Times requests over a real connection: `together` callers at once, until `rounds` have been answered. */
async function sizings(ask: (job: Job) => Promise<void>, job: Job): Promise<number[]> {
  const times: number[] = [];
  let left = rounds;
  const caller = async (): Promise<void> => {
    while (left-- > 0) times.push(await timed(() => ask(job)));
  };
  await Promise.all(Array.from({ length: together }, caller));
  return times;
}

const workers = { folder: new URL('../../server/workers/', import.meta.url), ending: '.js' } as const;

function openThreads(): Threads {
  const most = { queueLimit: 64, timeLimit_ms: 120_000 };
  return {
    quick: openPool(workers, { ...most, threadCount: 2, isLong: false }),
    slow: openPool(workers, { ...most, threadCount: 1, isLong: true }),
    heavy: openPool(workers, { ...most, threadCount: 1, isLong: true }),
  };
}

/**
 * Measures the service as callers meet it: each demo job alone, then eight callers at once, and beside them how
 * long the health of the service takes, which shows whether its event loop stays free.
 */
export async function benchServer(): Promise<void> {
  const jobsFolder = await mkdtemp(join(tmpdir(), 'slotwatt-bench-'));
  const app = await buildApp({
    jobsFolder,
    pageFolder: null,
    callers: ownComputer,
    workers,
    openThreads,
    patience_ms: 60_000,
    logger: false,
  });
  const origin = await app.listen({ host: '127.0.0.1', port: 0 });
  const dispatcher = new Agent({ connections: together + 1 });
  const ask = async (path: string, job?: Job): Promise<void> => {
    const posted = {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(job),
    } as const;
    const reply = await request(origin + path, { dispatcher, ...(job ? posted : {}) });
    await reply.body.arrayBuffer();
    if (reply.statusCode !== 200) throw new Error(`${path} answered ${reply.statusCode}`);
  };
  const askSizing = (job: Job): Promise<void> => ask('/api/sizing', job);
  try {
    // Threads start and the engine is compiled before anything is measured.
    await sizings(askSizing, demoJobs[0]!.job);
    for (const { id, job } of demoJobs) {
      const alone: number[] = [];
      for (let count = 0; count < 10; count++) alone.push(await timed(() => askSizing(job)));
      line(`${id}, one caller`, alone);
      const work = sizings(askSizing, job);
      const health = await timesDuring(work, () => ask('/api/health'));
      line(`${id}, ${together} callers at once`, await work);
      line('  health meanwhile', health);
      const careful = timed(() => ask('/api/sizing?accuracy=careful', job));
      const quickMeanwhile = await timesDuring(careful, () => askSizing(job));
      line(`${id}, with care`, [await careful]);
      line('  quick answers meanwhile', quickMeanwhile);
    }
  } finally {
    await dispatcher.close();
    await app.close();
    await rm(jobsFolder, { recursive: true });
  }
}
