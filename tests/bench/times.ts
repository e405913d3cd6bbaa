import { performance } from 'node:perf_hooks';

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;

/** Prints median, 95 and 99 % and the slowest of some times. */
export function line(what: string, times_ms: readonly number[]): void {
  const sorted = times_ms.toSorted((a, b) => a - b);
  const shown = [0.5, 0.95, 0.99, 1].map((share) => `${quantile(sorted, share).toFixed(1)} ms`);
  console.log(
    `${what}: median ${shown[0]}, 95 % below ${shown[1]}, 99 % below ${shown[2]}, slowest ${shown[3]} (${sorted.length} asked)`,
  );
}

/** Processor time of a task, ms: on a machine that others use too, the clock on the wall counts their work as well. */
export function processor_ms(task: () => void): number {
  const before = process.cpuUsage();
  task();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** How long a task takes, ms. */
export async function timed(task: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await task();
  return performance.now() - start;
}

/** Times one request after another, for as long as the work goes on. */
export async function timesDuring(work: Promise<unknown>, ask: () => Promise<void>): Promise<number[]> {
  const times: number[] = [];
  let isOver = false;
  void work.finally(() => {
    isOver = true;
  });
  while (!isOver) {
    times.push(await timed(ask));
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  return times;
}
