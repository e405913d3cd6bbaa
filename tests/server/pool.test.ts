import { afterEach, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { openPool, type Pool, type PoolSettings } from '../../server/pool.ts';
import { ProblemError } from '../../server/problem.ts';
import { someJob, temporaryFolder, testOptions } from './support.ts';

const settings = (changed: Partial<PoolSettings>): PoolSettings => ({
  folder: new URL('./workers/', import.meta.url),
  ending: '.ts',
  threadCount: 1,
  queueLimit: 2,
  timeLimit_ms: 30_000,
  ...changed,
});

let pool: Pool | undefined;
afterEach(async () => {
  await pool?.close();
  pool = undefined;
});

const problemOf = (promise: Promise<unknown>): Promise<unknown> =>
  promise.then(
    () => 'no problem',
    (error) => (error instanceof ProblemError ? error.kind : error),
  );

describe('the pool of threads', () => {
  it('runs what it is given', async () => {
    pool = openPool(settings({}));
    expect(await pool.run('slow', { busy_ms: 1 })).toBe('done');
  });

  it('stops a calculation that takes too long, and goes on with the next', async () => {
    pool = openPool(settings({ timeLimit_ms: 3000 }));
    await pool.run('slow', { busy_ms: 1 });
    expect(await problemOf(pool.run('slow', { busy_ms: 3_600_000 }))).toBe('took-too-long');
    expect(await pool.run('slow', { busy_ms: 1 })).toBe('done');
  });

  it('lets only so many wait', async () => {
    pool = openPool(settings({}));
    await pool.run('slow', { busy_ms: 1 });
    const kinds = await Promise.all(
      Array.from({ length: 6 }, () => problemOf(pool!.run('slow', { busy_ms: 200 }))),
    );
    expect(kinds.filter((kind) => kind === 'no problem')).toHaveLength(3);
    expect(kinds.filter((kind) => kind === 'too-busy')).toHaveLength(3);
  });
});

describe('the service with a slow engine', () => {
  it('answers others meanwhile, and says in a sentence that it took too long or failed', async () => {
    const { folder, remove } = await temporaryFolder();
    const app = await buildApp({ ...testOptions(folder), pool: settings({ timeLimit_ms: 4000 }) });
    const order: string[] = [];
    const sizing = app.inject({ method: 'POST', url: '/api/sizing', payload: someJob() }).then((reply) => {
      order.push('sizing');
      return reply;
    });
    for (let k = 0; k < 5; k++) {
      expect((await app.inject('/api/health')).statusCode).toBe(200);
      order.push('health');
    }
    const reply = await sizing;
    expect(order).toEqual([...Array.from({ length: 5 }, () => 'health'), 'sizing']);
    expect(reply.statusCode).toBe(503);
    expect(reply.headers['retry-after']).toBe('5');
    expect(reply.json().detail).toContain('stopped after 4 s');
    await app.close();

    const failing = await buildApp({ ...testOptions(folder), pool: settings({}) });
    const failed = await failing.inject({ method: 'POST', url: '/api/sizing', payload: someJob() });
    expect(failed.statusCode).toBe(500);
    expect(failed.body).not.toContain('secret');
    expect(failed.json().detail).toContain('not in your job');
    await failing.close();
    await remove();
  });
});
