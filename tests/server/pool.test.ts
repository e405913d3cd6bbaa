import { getPriority } from 'node:os';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { type Lane, openPool, type Pool, type WorkerFiles } from '../../server/pool.ts';
import { ProblemError } from '../../server/problem.ts';
import type { App } from '../../server/service.ts';
import type { Job } from '../../src/job/job.ts';
import { hang_ms } from '../hang.ts';
import { someJob, temporaryFolder, testOptions } from './support.ts';

const workers: WorkerFiles = { folder: new URL('./workers/', import.meta.url), ending: '.ts' };

const lane = (changed: Partial<Lane>): Lane => ({
  threadCount: 1,
  queueLimit: 2,
  timeLimit_ms: hang_ms,
  isLong: false,
  ...changed,
});

const nobodyLeaves = new AbortController().signal;

let pool: Pool | undefined;
afterEach(async () => {
  await pool?.close();
  pool = undefined;
  vi.useRealTimers();
  vi.restoreAllMocks();
});

/** A limit of time that is reached when the test says so: of the thread's work, after that of its turn. */
function limitInHand(): { reached: () => Promise<void> } {
  const limits: AbortController[] = [];
  vi.spyOn(AbortSignal, 'timeout').mockImplementation(() => {
    limits.push(new AbortController());
    return limits.at(-1)!.signal;
  });
  return {
    async reached() {
      await expect.poll(() => limits.length).toBe(2);
      for (const limit of limits) limit.abort(new DOMException('too long', 'TimeoutError'));
    },
  };
}

const problemOf = (promise: Promise<unknown>): Promise<unknown> =>
  promise.then(
    () => 'no problem',
    (error) => (error instanceof ProblemError ? error.kind : error),
  );

describe('the pool of threads', () => {
  it('runs what it is given', async () => {
    pool = openPool(workers, lane({}));
    expect(await pool.run('slow', { busy_ms: 1 }, nobodyLeaves)).toBe('done');
  });

  it('stops a calculation that takes too long, and goes on with the next', async () => {
    pool = openPool(workers, lane({}));
    await pool.run('slow', { busy_ms: 1 }, nobodyLeaves);
    const limit = limitInHand();
    const long = problemOf(pool.run('slow', { busy_ms: 3_600_000 }, nobodyLeaves));
    await limit.reached();
    expect(await long).toBe('took-too-long');
    expect(await pool.run('slow', { busy_ms: 1 }, nobodyLeaves)).toBe('done');
  });

  // Other systems have no priorities of single threads, or count them otherwise.
  it.runIf(process.platform === 'linux')('lets long calculations give way, and nothing else', async () => {
    const own = getPriority();
    const priorityIn = async (isLong: boolean): Promise<number> => {
      await pool?.close();
      pool = openPool(workers, lane({ isLong }));
      return pool.run('priority', {}, nobodyLeaves);
    };
    expect(await priorityIn(false)).toBe(own);
    expect(await priorityIn(true)).toBe(Math.min(19, own + 10));
    expect(getPriority()).toBe(own);
  });

  it('lets only so many wait', async () => {
    pool = openPool(workers, lane({}));
    await pool.run('slow', { busy_ms: 1 }, nobodyLeaves);
    const kinds = await Promise.all(
      Array.from({ length: 6 }, () => problemOf(pool!.run('slow', { busy_ms: 200 }, nobodyLeaves))),
    );
    expect(kinds.filter((kind) => kind === 'no problem')).toHaveLength(3);
    expect(kinds.filter((kind) => kind === 'too-busy')).toHaveLength(3);
  });
});

describe('a calculation nobody waits for any more', () => {
  it('is dropped while it waits, and its place in the queue is free', async () => {
    pool = openPool(workers, lane({ queueLimit: 1 }));
    const caller = new AbortController();
    const first = pool.run('slow', { busy_ms: 500 }, nobodyLeaves);
    const second = problemOf(pool.run('slow', { busy_ms: 3_600_000 }, caller.signal));
    expect(await problemOf(pool.run('slow', { busy_ms: 1 }, nobodyLeaves))).toBe('too-busy');
    caller.abort();
    expect(await second).toBe('too-busy');
    const third = pool.run('slow', { busy_ms: 1 }, nobodyLeaves);
    expect(await Promise.all([first, third])).toEqual(['done', 'done']);
    expect(await problemOf(pool.run('slow', { busy_ms: 1 }, AbortSignal.abort()))).toBe('too-busy');
  });

  /** Asks for so long a calculation, and nobody waits for it any more as soon as it runs. */
  async function left(busy_ms: number): Promise<{ readonly outcome: Promise<unknown> }> {
    pool = openPool(workers, lane({ isLong: true }));
    await pool.run('slow', { busy_ms: 1 }, nobodyLeaves);
    vi.useFakeTimers({ toFake: ['setTimeout'] });
    const caller = new AbortController();
    const outcome = pool.run('slow', { busy_ms }, caller.signal);
    await new Promise(setImmediate);
    caller.abort();
    return { outcome };
  }

  it('comes to its end where that is near, and the thread stays', async () => {
    // The clock of the pool stands: however slow the computer is, a second and a half does not go by.
    const { outcome } = await left(50);
    expect(await outcome).toBe('done');
  });

  it('is stopped in the middle where it goes on, and the next one runs', async () => {
    const { outcome } = await left(3_600_000);
    const problem = problemOf(outcome);
    vi.advanceTimersByTime(1500);
    expect(await problem).toBe('took-too-long');
    expect(await pool!.run('slow', { busy_ms: 1 }, nobodyLeaves)).toBe('done');
  });
});

describe('the service with a slow engine', () => {
  const job = (width_mm: number): Job => ({ ...someJob(), panel: { width_mm, height_mm: 2000 } });

  async function serviceWith(quick: Lane): Promise<{ app: App; close: () => Promise<void> }> {
    const { folder, remove } = await temporaryFolder();
    const openThreads = () => ({
      quick: openPool(workers, quick),
      slow: openPool(workers, lane({})),
      heavy: openPool(workers, lane({})),
    });
    const app = await buildApp({ ...testOptions(folder), workers, openThreads });
    return { app, close: () => app.close().then(remove) };
  }

  it('answers others meanwhile, and says in a sentence that it took too long', async () => {
    const limit = limitInHand();
    const { app, close } = await serviceWith(lane({ timeLimit_ms: 4000 }));
    const order: string[] = [];
    const sizing = app.inject({ method: 'POST', url: '/api/sizing', payload: job(30_000) }).then((reply) => {
      order.push('sizing');
      return reply;
    });
    for (let k = 0; k < 5; k++) {
      expect((await app.inject('/api/health')).statusCode).toBe(200);
      order.push('health');
    }
    await limit.reached();
    const reply = await sizing;
    expect(order).toEqual([...Array.from({ length: 5 }, () => 'health'), 'sizing']);
    expect(reply.statusCode).toBe(503);
    expect(reply.headers['retry-after']).toBe('5');
    expect(reply.json().detail).toContain('stopped after 4 s');
    await close();
  });

  it('says in a sentence that the disk failed under the list', async () => {
    const { app, close } = await serviceWith(lane({}));
    const failed = await app.inject('/api/jobs');
    expect(failed.statusCode).toBe(507);
    expect(failed.json().detail).toContain('The disk failed');
    await close();
  });

  it('keeps the secrets of an engine that fails', async () => {
    const { app, close } = await serviceWith(lane({}));
    const failed = await app.inject({ method: 'POST', url: '/api/sizing', payload: job(50) });
    expect(failed.statusCode).toBe(500);
    expect(failed.body).not.toContain('secret');
    expect(failed.json().detail).toContain('not in your job');
    await close();
  });

  it('forgets callers who hang up, running and waiting', async () => {
    const { app, close } = await serviceWith(lane({ queueLimit: 1, isLong: true }));
    let arrivedCount = 0;
    app.addHook('preHandler', async () => void arrivedCount++);
    const origin = await app.listen({ host: '127.0.0.1', port: 0 });
    const ask = (width_mm: number, signal?: AbortSignal) =>
      fetch(`${origin}/api/sizing`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(job(width_mm)),
        ...(signal ? { signal } : {}),
      });
    const caller = new AbortController();
    const gone = Promise.allSettled([ask(30_000, caller.signal), ask(30_000, caller.signal)]);
    // Full: one runs and one waits behind it.
    await expect.poll(() => arrivedCount).toBe(2);
    expect((await ask(50)).status).toBe(503);
    caller.abort();
    await gone;
    // Nobody waits for the two any more, and the place is free again.
    let { status } = await ask(50);
    while (status === 503) ({ status } = await ask(50));
    expect(status).toBe(500);
    await close();
  });
});
