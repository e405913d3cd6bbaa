import type { MessagePort } from 'node:worker_threads';
import { proposals } from '../../src/answer/proposals.ts';
import { type Openable, openByDefault, propose } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import type { EngineAnswer } from './engine.ts';

/** A job and its open choices; without, those a maker usually leaves open. */
export interface ProposalsTask {
  readonly job: Job;
  readonly open: readonly Openable[] | null;
}

/** Progress is said no more often than this, ms. */
const apart_ms = 200;

/** Looks for designs, and says on the port how far it has come, as JSON text. */
export default function answer({
  task: { job, open },
  port,
}: {
  readonly task: ProposalsTask;
  readonly port: MessagePort;
}): EngineAnswer {
  const going = propose(job, open ?? openByDefault(job));
  let said_ms = Number.NEGATIVE_INFINITY;
  for (let step = going.next(); ; step = going.next()) {
    if (step.done) {
      const outcome = step.value;
      if (!outcome.ok) return { ok: false, issues: outcome.issues };
      return { ok: true, text: JSON.stringify(proposals.parse(outcome.value)) };
    }
    const now_ms = performance.now();
    if (now_ms - said_ms < apart_ms) continue;
    said_ms = now_ms;
    port.postMessage(JSON.stringify(step.value));
  }
}
