import { askJobCircuit, askJobHeat, askJobLight, type Outcome } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { type AskedQuestion, askedQuestions } from '../contract/asked.ts';
import type { EngineAnswer } from './engine.ts';

export interface AskedTask {
  readonly question: AskedQuestion;
  readonly job: Job;
}

const ask: Readonly<Record<AskedQuestion, (job: Job) => Outcome<unknown>>> = {
  circuit: askJobCircuit,
  heat: askJobHeat,
  light: askJobLight,
};

/** Answers a question asked the other way round as text checked against its schema, in the thread. */
export default function answer({ question, job }: AskedTask): EngineAnswer {
  const outcome = ask[question](job);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  return { ok: true, text: JSON.stringify(askedQuestions[question].answer.parse(outcome.value)) };
}
