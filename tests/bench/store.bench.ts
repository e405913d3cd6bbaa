import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as wait } from 'node:timers/promises';
import { request } from 'undici';
import { demoJobs } from '../../src/index.ts';
import { startService } from './service.ts';
import { timed } from './times.ts';

const jobCount = 5000;
const fileHandles = 256;

/** A folder of many jobs as the service would have kept them; every tenth has two files among its revisions. */
async function keptJobs(folder: string): Promise<void> {
  for (let k = 0; k < jobCount; k++) {
    const job = structuredClone(demoJobs[k % demoJobs.length]!.job);
    const text = `${JSON.stringify({ ...job, title: { ...job.title, job: `Wall ${k}` } }, null, 2)}\n`;
    const place = join(folder, `wall-${k}`);
    await mkdir(k % 10 === 0 ? join(place, 'revisions') : place, { recursive: true });
    for (const name of ['job.json', 'last-good-copy.json']) await writeFile(join(place, name), text);
    if (k % 10 === 0)
      for (const id of ['a', 'b']) await writeFile(join(place, 'revisions', `${id}.json`), '{}');
  }
}

async function ask(address: string): Promise<number> {
  const reply = await request(address);
  const text = await reply.body.text();
  if (reply.statusCode !== 200) throw new Error(`${address} answered ${reply.statusCode}: ${text}`);
  return text.length;
}

/** The slowest answer about the health of the service while something goes on. */
async function slowestHealth(origin: string, work: Promise<unknown>): Promise<number> {
  let [isOver, slowest] = [false, 0];
  void work.finally(() => {
    isOver = true;
  });
  while (!isOver) {
    slowest = Math.max(slowest, await timed(() => ask(`${origin}/api/health`)));
    await wait(5);
  }
  return slowest;
}

/** A service over a folder with 256 file handles, as its callers meet it. */
async function withService(
  folder: string,
  task: (
    list: () => Promise<number>,
    listed: (what: string, task: () => Promise<unknown>) => Promise<void>,
  ) => Promise<void>,
): Promise<void> {
  const begun = performance.now();
  const { origin, stop } = await startService(folder, { fileHandles });
  const start_ms = performance.now() - begun;
  const show = (what: string, ms: number, health?: number): void =>
    console.log(
      `${what}: ${ms.toFixed(0)} ms${health === undefined ? '' : `, health meanwhile ${health.toFixed(0)} ms at most`}`,
    );
  try {
    await ask(`${origin}/api/health`);
    show(`start with ${jobCount} jobs`, start_ms);
    await task(
      () => ask(`${origin}/api/jobs`),
      async (what, asked) => {
        const work = timed(asked);
        const health = await slowestHealth(origin, work);
        show(what, await work, health);
      },
    );
  } finally {
    await stop();
  }
}

/**
 * Measures the list of a full workshop's folder: the first time there is, again, after one save, for twenty callers at once,
 * and the first time of the next start; and how long the health of the service takes beside it.
 */
export async function benchStore(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'slotwatt-bench-'));
  try {
    await keptJobs(folder);
    // What changed within the last seconds is read again each time.
    await wait(4000);
    await withService(folder, async (list, listed) => {
      await listed('first list there is, with tidying', list);
      for (let k = 0; k < 3; k++) await listed('list again', list);
      await writeFile(join(folder, 'wall-7', 'job.json'), JSON.stringify(demoJobs[0]!.job));
      await listed('list after one change', list);
      await listed('twenty lists at once', () => Promise.all(Array.from({ length: 20 }, list)));
    });
    await withService(folder, (list, listed) => listed('first list of the next start, with tidying', list));
  } finally {
    await rm(folder, { recursive: true });
  }
}
