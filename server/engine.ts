import type { Sizing } from '../src/answer/sizing.ts';
import type { Job } from './contract/job.ts';
import type { Accuracy } from './contract/questions.ts';
import { problemOf } from './problem.ts';
import type { Service } from './service.ts';
import type { EngineAnswer, EngineTask } from './workers/engine.ts';

type Engine = Pick<Service, 'quick' | 'slow' | 'answers'>;

/** A strip takes milliseconds; whatever else is not sized quickly takes seconds and has threads apart. */
function laneOf({ quick, slow }: Engine, task: EngineTask) {
  const isQuick = task.kind === 'strip' || (task.kind === 'sizing' && task.accuracy === 'quick');
  return isQuick ? quick : slow;
}

async function calculated(engine: Engine, task: EngineTask, withdrawn: AbortSignal): Promise<string> {
  const answer = await laneOf(engine, task).run<EngineAnswer>('engine', task, withdrawn);
  if (!answer.ok) throw problemOf('refused', answer.issues);
  return answer.text;
}

/** The whole answer to a job as JSON text; a careful one is calculated once. Throws the problem when refused. */
export async function sizedText(
  engine: Engine,
  { job, accuracy }: { readonly job: Job; readonly accuracy: Accuracy },
  withdrawn: AbortSignal,
): Promise<string> {
  const kept = accuracy === 'careful' ? engine.answers.get(job) : undefined;
  if (kept !== undefined) return kept;
  const text = await calculated(engine, { kind: 'sizing', question: 'sizing', accuracy, job }, withdrawn);
  if (accuracy === 'careful') engine.answers.keep(job, text);
  return text;
}

/**
 * Asks the engine in a thread of its own; the answer is JSON text. A part of a careful answer is taken from the whole,
 * which is kept for the next part. Throws the problem when the engine refuses.
 */
export async function askEngine(engine: Engine, task: EngineTask, withdrawn: AbortSignal): Promise<string> {
  if (task.kind !== 'sizing' || (task.accuracy === 'quick' && task.question !== 'sizing'))
    return calculated(engine, task, withdrawn);
  const kept = await sizedText(engine, task, withdrawn);
  return task.question === 'sizing' ? kept : calculated(engine, { ...task, kept }, withdrawn);
}

/** Sizes a whole job with care, as revisions need it. Throws the problem when the engine refuses. */
export async function sizeCarefully(engine: Engine, job: Job, withdrawn: AbortSignal): Promise<Sizing> {
  return JSON.parse(await sizedText(engine, { job, accuracy: 'careful' }, withdrawn));
}
