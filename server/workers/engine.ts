import type { Sizing } from '../../src/answer/sizing.ts';
import { sizeAt } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import type { Issue } from '../../src/outcome.ts';
import { type Accuracy, type Question, questions } from '../contract/questions.ts';

/** What the engine is asked. */
export interface EngineTask {
  readonly question: Question;
  readonly accuracy: Accuracy;
  readonly job: Job;
}

/** The answer as JSON text already checked against its schema, or the reasons why there is none. */
export type EngineAnswer =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly issues: readonly Issue[] };

function part(question: Question, sizing: Sizing): unknown {
  if (question === 'sizing') return sizing;
  return question === 'set-out' ? sizing.setOut : sizing[question];
}

/**
 * Answers one question about a job. It checks the answer against its schema and writes it as text here, in the
 * thread, so that the service only has to pass it on. Throws when the engine gives what its schema does not allow.
 */
export default function answer({ question, accuracy, job }: EngineTask): EngineAnswer {
  const outcome = sizeAt(job, accuracy);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  const value = part(question, outcome.value);
  return { ok: true, text: JSON.stringify(questions[question].answer.parse(value)) };
}
