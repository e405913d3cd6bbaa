import type { ListAnswer } from '../../../server/workers/job-list.ts';

/** A disk that fails while the list is made. */
export default function answer(): ListAnswer {
  return { ok: false, by: 'system', code: 'EIO', message: 'the disk failed' };
}
