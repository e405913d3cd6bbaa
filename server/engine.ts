import type { Sizing } from '../src/answer/sizing.ts';
import type { Job } from './contract/job.ts';
import { problemOf } from './problem.ts';
import type { Service } from './service.ts';
import type { EngineAnswer, EngineTask } from './workers/engine.ts';

type Pools = Pick<Service, 'quick' | 'slow'>;

/**
 * Asks the engine in a thread of its own; the answer is JSON text. Careful answers take seconds and have threads
 * apart, so that they do not hold up quick ones. Throws the problem when the engine refuses.
 */
export async function askEngine(pools: Pools, task: EngineTask, withdrawn: AbortSignal): Promise<string> {
  const pool = task.accuracy === 'careful' ? pools.slow : pools.quick;
  const answer = await pool.run<EngineAnswer>('engine', task, withdrawn);
  if (!answer.ok) throw problemOf('refused', answer.issues);
  return answer.text;
}

/** Sizes a whole job with care, as papers and revisions need it. Throws the problem when the engine refuses. */
export async function sizeCarefully(pools: Pools, job: Job, withdrawn: AbortSignal): Promise<Sizing> {
  return JSON.parse(await askEngine(pools, { question: 'sizing', accuracy: 'careful', job }, withdrawn));
}
