import { createHash } from 'node:crypto';
import { engineVersion } from '../src/index.ts';
import type { Job } from '../src/job/job.ts';

/** Most careful answers kept, and most characters of all of them together (two bytes each at worst). */
const mostAnswers = 16;
const mostCharacters = 32 * 1024 * 1024;

/** The last careful answers as JSON text, by a digest of the job and of the engine that answered. */
export interface KeptAnswers {
  get(job: Job): string | undefined;
  keep(job: Job, text: string): void;
}

/** Digest of a job as the engine of this version sees it: SHA-256 of its text. */
function digestOf(job: Job): string {
  return createHash('sha256').update(engineVersion).update('\n').update(JSON.stringify(job)).digest('hex');
}

/**
 * Keeps the last careful answers, so that papers and files are written from the answer the page already has and not
 * from another calculation. The same job gives the same answer, so an answer never grows old; the one not asked
 * for longest goes first.
 */
export function keepAnswers(): KeptAnswers {
  const kept = new Map<string, string>();
  let characterCount = 0;
  const drop = (digest: string): void => {
    characterCount -= kept.get(digest)?.length ?? 0;
    kept.delete(digest);
  };
  const put = (digest: string, text: string): void => {
    drop(digest);
    kept.set(digest, text);
    characterCount += text.length;
    for (const oldest of kept.keys()) {
      if (kept.size <= mostAnswers && characterCount <= mostCharacters) return;
      drop(oldest);
    }
  };
  return {
    get(job) {
      const digest = digestOf(job);
      const text = kept.get(digest);
      if (text !== undefined) put(digest, text);
      return text;
    },
    keep: (job, text) => put(digestOf(job), text),
  };
}
