import { askStrip } from '../../src/index.ts';
import { type StripSheet, stripQuestion } from '../contract/asked.ts';
import type { EngineAnswer } from './engine.ts';

/** Works a strip out from its data sheet as text checked against its schema, in the thread. */
export default function answer(sheet: StripSheet): EngineAnswer {
  const outcome = askStrip(sheet);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  return { ok: true, text: JSON.stringify(stripQuestion.answer.parse(outcome.value)) };
}
