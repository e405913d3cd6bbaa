import { demoJobs, type Job, sizeJob } from '../../src/index.ts';

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

function time_ms(job: Job): number {
  const start = performance.now();
  if (!sizeJob(job).ok) throw new Error('the demo job was refused');
  return performance.now() - start;
}

/** The whole job in the engine: first call of a cold process, then the median of warm calls with one input changed. */
export async function benchJob(): Promise<void> {
  for (const { id, job } of demoJobs) {
    const first_ms = time_ms(job);
    const warm = Array.from({ length: 25 }, (_, i) =>
      time_ms({ ...job, cables: { ...job.cables, tail_mm: job.cables.tail_mm + i } }),
    );
    console.log(
      `${id}: first ${first_ms.toFixed(1)} ms, then median ${median(warm).toFixed(1)} ms, worst ${Math.max(...warm).toFixed(1)} ms`,
    );
  }
}
