import { fileURLToPath } from 'node:url';
import { MessageChannel, type MessagePort } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { createGate } from './gate.ts';
import { ProblemError } from './problem.ts';

/** Where the files of the workers are. */
export interface WorkerFiles {
  /** Their folder as a URL that ends in a slash. */
  readonly folder: URL;
  /** `.ts` while developing and testing, `.js` once built. */
  readonly ending: '.ts' | '.js';
}

/** What a thread is started with, so that it can read sources as well as what was built. */
export function threadArguments(ending: WorkerFiles['ending']): string[] {
  return ending === '.ts' ? ['--import', 'tsx'] : [];
}

/** How much a pool takes on. */
export interface Lane {
  readonly threadCount: number;
  /** How many may wait while all threads are busy. */
  readonly queueLimit: number;
  readonly timeLimit_ms: number;
  /**
   * Whether calculations take seconds. Such ones give way to all others of this computer, and one that nobody waits for
   * any more is stopped in the middle where it does not end soon; short ones are only dropped while they wait.
   */
  readonly isLong: boolean;
}

/** A task of which it is said how far it has come. */
export interface Followed {
  readonly task: unknown;
  readonly withdrawn: AbortSignal;
  readonly onProgress: (text: string) => void;
}

/** Threads for whatever takes longer than a few milliseconds, so that the service answers everybody meanwhile. */
export interface Pool {
  /**
   * Runs the default export of a worker file, named without its ending. The signal says that nobody waits for the
   * answer any more. Throws a problem when too many wait or it takes too long.
   */
  run<Result>(worker: string, task: unknown, withdrawn: AbortSignal): Promise<Result>;
  /** The same for a worker that says how far it has come, to a port that comes beside the task. */
  follow<Result>(worker: string, followed: Followed): Promise<Result>;
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

/**
 * By how much threads give way: nine tenths of a core go to others that want it (weights 1024 to 110, sched(7)).
 * macOS knows priorities of whole processes only.
 */
const yielding = process.platform === 'darwin' ? 0 : 10;

/**
 * How long a calculation that nobody waits for any more may go on, ms. To stop it costs the thread, and a new one has to
 * load the engine and to warm to it, with nothing remembered: about as long as this. So what is left to end and what is
 * stopped cost no more than twice the better of the two, and where somebody changes a job while its careful answer is
 * under way, the thread stays warm.
 */
const grace_ms = 1500;

/** Says what a signal says, but later. */
function delayed(signal: AbortSignal, delay_ms: number): AbortSignal {
  const controller = new AbortController();
  signal.addEventListener('abort', () => setTimeout(() => controller.abort(), delay_ms).unref(), {
    once: true,
  });
  return controller.signal;
}

/** Opens a pool of threads; close it when the service stops. */
export function openPool({ folder, ending }: WorkerFiles, lane: Lane): Pool {
  const { threadCount, queueLimit, timeLimit_ms, isLong } = lane;
  const gate = createGate(threadCount, queueLimit, tooBusy);
  const piscina = new Piscina({
    minThreads: 1,
    maxThreads: threadCount,
    idleTimeout: 60_000,
    niceIncrement: isLong ? yielding : 0,
    execArgv: threadArguments(ending),
  });
  async function run<Result>(
    worker: string,
    task: unknown,
    withdrawn: AbortSignal,
    transferList: MessagePort[] = [],
  ): Promise<Result> {
    const filename = fileURLToPath(new URL(worker + ending, folder));
    await gate.enter(AbortSignal.any([withdrawn, AbortSignal.timeout(timeLimit_ms)]));
    try {
      const limit = AbortSignal.timeout(timeLimit_ms);
      const signal = isLong ? AbortSignal.any([delayed(withdrawn, grace_ms), limit]) : limit;
      return await piscina.run(task, { filename, signal, transferList });
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') throw tookTooLong(timeLimit_ms);
      throw error;
    } finally {
      gate.leave();
    }
  }
  return {
    run: (worker, task, withdrawn) => run(worker, task, withdrawn),
    async follow(worker, { task, withdrawn, onProgress }) {
      const { port1, port2 } = new MessageChannel();
      port1.on('message', onProgress);
      try {
        return await run(worker, { task, port: port2 }, withdrawn, [port2]);
      } finally {
        port1.close();
      }
    },
    close: () => piscina.destroy(),
  };
}
