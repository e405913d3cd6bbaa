import type { z } from 'zod';
import type { WrittenRow } from '../../src/answer/asked.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import {
  askJobCircuit,
  askJobDrivers,
  askJobHeat,
  askJobLayouts,
  askJobLight,
  askStrip,
  judgeReadings,
  type Outcome,
  sizeAt,
} from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { found, type Issue } from '../../src/outcome.ts';
import { type AskedQuestion, askedQuestions, type StripSheet, stripQuestion } from '../contract/asked.ts';
import { type Accuracy, type Question, questions } from '../contract/questions.ts';
import { judged } from '../contract/readings.ts';

/** What the engine is asked: a part of the answer to a job, a question the other way round, or one of readings. */
export type EngineTask =
  | {
      readonly kind: 'sizing';
      readonly question: Question;
      readonly accuracy: Accuracy;
      readonly job: Job;
      /** The whole answer where there is one already, as text. */
      readonly kept?: string;
    }
  | { readonly kind: 'asked'; readonly question: AskedQuestion; readonly job: Job }
  | { readonly kind: 'strip'; readonly sheet: StripSheet }
  | { readonly kind: 'readings'; readonly job: Job; readonly readings: readonly WrittenRow[] };

/** The answer as JSON text already checked against its schema, or the reasons why there is none. */
export type EngineAnswer =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly issues: readonly Issue[] };

interface Answered {
  readonly outcome: Outcome<unknown>;
  readonly schema: z.ZodType;
}

const ask: Readonly<Record<AskedQuestion, (job: Job) => Outcome<unknown>>> = {
  circuit: askJobCircuit,
  heat: askJobHeat,
  light: askJobLight,
  drivers: askJobDrivers,
  layouts: askJobLayouts,
};

function part(question: Question, sizing: Sizing): unknown {
  if (question === 'sizing') return sizing;
  return question === 'set-out' ? sizing.setOut : sizing[question];
}

function sizedPart({ question, accuracy, job, kept }: EngineTask & { kind: 'sizing' }): Outcome<unknown> {
  if (kept !== undefined) return found(part(question, JSON.parse(kept)));
  const outcome = sizeAt(job, accuracy);
  return outcome.ok ? found(part(question, outcome.value)) : outcome;
}

function answered(task: EngineTask): Answered {
  switch (task.kind) {
    case 'sizing':
      return { outcome: sizedPart(task), schema: questions[task.question].answer };
    case 'asked':
      return { outcome: ask[task.question](task.job), schema: askedQuestions[task.question].answer };
    case 'strip':
      return { outcome: askStrip(task.sheet), schema: stripQuestion.answer };
    case 'readings':
      return { outcome: judgeReadings(task.job, task.readings), schema: judged };
  }
}

/**
 * Answers one question. It checks the answer against its schema and writes it as text here, in the thread, so that
 * the service only has to pass it on. Throws when the engine gives what its schema does not allow.
 */
export default function answer(task: EngineTask): EngineAnswer {
  const { outcome, schema } = answered(task);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  return { ok: true, text: JSON.stringify(schema.parse(outcome.value)) };
}
