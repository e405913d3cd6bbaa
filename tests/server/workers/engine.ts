import type { EngineTask } from '../../../server/workers/engine.ts';
import slow from './slow.ts';

/** An engine that thinks for one millisecond per millimetre of the panel's width, and then fails. */
export default function engine(task: EngineTask): never {
  slow({ busy_ms: task.kind === 'strip' ? 0 : task.job.panel.width_mm });
  throw new Error('a secret of the thread');
}
