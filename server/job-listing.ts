import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import { threadArguments, type WorkerFiles } from './pool.ts';
import { sharedRun } from './store/shared-run.ts';
import { StoreTrouble } from './store/trouble.ts';
import type { ListAnswer, ListFailure } from './workers/job-list.ts';

/** The list of the workshop's jobs, made in a thread of its own. */
export interface JobListing {
  /** The list as JSON text. Throws `folder-lost` when the folder is gone, and what the file system throws. */
  list(): Promise<string>;
  close(): Promise<void>;
}

const errorOf = ({ by, code, message }: ListFailure): Error =>
  by === 'store' ? new StoreTrouble(code, message) : Object.assign(new Error(message), { code });

/**
 * Lists the jobs in a folder, in a thread that waits for the disk and remembers what it read; it begins with the first
 * question and stays. Whoever asks while a list is being made shares the next one.
 */
export function openJobListing({ folder, ending }: WorkerFiles, root: string): JobListing {
  const piscina = new Piscina({
    filename: fileURLToPath(new URL(`job-list${ending}`, folder)),
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: Number.POSITIVE_INFINITY,
    execArgv: threadArguments(ending),
  });
  return {
    list: sharedRun(async () => {
      const answer: ListAnswer = await piscina.run(root);
      if (!answer.ok) throw errorOf(answer);
      return answer.text;
    }),
    close: () => piscina.destroy(),
  };
}
