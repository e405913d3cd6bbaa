import type { EngineTask } from '../../../server/workers/engine.ts';
import slow from './slow.ts';

/** An engine that fails, at once with a panel of 50 mm, with a wide one after most of an hour. */
export default function engine(task: EngineTask): never {
  slow({ busy_ms: task.kind === 'strip' ? 0 : 100 * (task.job.panel.width_mm - 50) });
  throw new Error('a secret of the thread');
}
