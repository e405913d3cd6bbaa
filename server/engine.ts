import type { Job } from '../src/job/job.ts';
import type { Sizing } from '../src/sizing.ts';
import type { Question } from './contract/questions.ts';
import type { Pool } from './pool.ts';
import { problemOf } from './problem.ts';
import type { EngineAnswer, EngineTask } from './workers/engine.ts';

/** Asks the engine in a thread of its own; the answer is JSON text. Throws the problem when it refuses. */
export async function askEngine(pool: Pool, question: Question, job: Job): Promise<string> {
  const task: EngineTask = { question, job };
  const answer = await pool.run<EngineAnswer>('engine', task);
  if (!answer.ok) throw problemOf('refused', answer.issues);
  return answer.text;
}

/** Sizes a whole job in a thread of its own. Throws the problem when the engine refuses. */
export async function sizeInThread(pool: Pool, job: Job): Promise<Sizing> {
  return JSON.parse(await askEngine(pool, 'sizing', job));
}
