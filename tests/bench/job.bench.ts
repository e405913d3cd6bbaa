import { demoJobs, type Job, sizeJob } from '../../src/index.ts';
import { processor_ms } from './times.ts';

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

const time_ms = (job: Job): number =>
  processor_ms(() => {
    if (!sizeJob(job).ok) throw new Error('the demo job was refused');
  });

/** The whole job in the engine, processor time: first call of a cold process, then warm calls with one input changed. */
export async function benchJob(): Promise<void> {
  for (const { id, job } of demoJobs) {
    const first_ms = time_ms(job);
    const warm = Array.from({ length: 100 }, (_, i) =>
      time_ms({ ...job, cables: { ...job.cables, tail_mm: job.cables.tail_mm + (i % 25) } }),
    );
    console.log(
      `${id}: first ${first_ms.toFixed(1)} ms, then least ${Math.min(...warm).toFixed(1)} ms, median ${median(warm).toFixed(1)} ms, worst ${Math.max(...warm).toFixed(1)} ms`,
    );
  }
}
