import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import { ProblemError } from './problem.ts';

/** Where the workers are and how much may wait for them. */
export interface PoolSettings {
  /** Folder of the worker files as a URL that ends in a slash. */
  readonly folder: URL;
  /** `.ts` while developing and testing, `.js` once built. */
  readonly ending: '.ts' | '.js';
  readonly threadCount: number;
  readonly queueLimit: number;
  readonly timeLimit_ms: number;
}

/** Threads for whatever takes longer than a few milliseconds, so that the service answers everybody meanwhile. */
export interface Pool {
  /** Runs the default export of a worker file, named without its ending. Throws a problem when it cannot. */
  run<Result>(worker: string, task: unknown): Promise<Result>;
  close(): Promise<void>;
}

const tooBusy = (): ProblemError =>
  new ProblemError(
    'too-busy',
    'Too many calculations are waiting: try again in a few seconds. Nothing was changed.',
    { headers: { 'retry-after': '2' } },
  );

const tookTooLong = (limit_ms: number): ProblemError =>
  new ProblemError(
    'took-too-long',
    `The calculation was stopped after ${limit_ms / 1000} s: try again when the service is less busy, or split the wall into several jobs.`,
    { headers: { 'retry-after': '5' } },
  );

/** Opens a pool of threads; close it when the service stops. */
export function openPool(settings: PoolSettings): Pool {
  const piscina = new Piscina({
    minThreads: 1,
    maxThreads: settings.threadCount,
    idleTimeout: 60_000,
    execArgv: settings.ending === '.ts' ? ['--import', 'tsx'] : [],
  });
  return {
    async run(worker, task) {
      // The library's own limit does not count tasks that carry a time limit.
      if (piscina.queueSize >= settings.queueLimit) throw tooBusy();
      const filename = fileURLToPath(new URL(worker + settings.ending, settings.folder));
      try {
        return await piscina.run(task, { filename, signal: AbortSignal.timeout(settings.timeLimit_ms) });
      } catch (error) {
        if (error instanceof Error && error.name === 'AbortError') throw tookTooLong(settings.timeLimit_ms);
        throw error;
      }
    },
    close: () => piscina.destroy(),
  };
}
