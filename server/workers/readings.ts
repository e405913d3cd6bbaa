import { judgeReadings } from '../../src/index.ts';
import { judged, type ReadingsOfJob } from '../contract/readings.ts';
import type { EngineAnswer } from './engine.ts';

/** Judges what was measured on a job as text checked against its schema, in the thread. */
export default function answer({ job, readings }: ReadingsOfJob): EngineAnswer {
  const outcome = judgeReadings(job, readings);
  if (!outcome.ok) return { ok: false, issues: outcome.issues };
  return { ok: true, text: JSON.stringify(judged.parse(outcome.value)) };
}
