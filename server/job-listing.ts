import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import { threadArguments, type WorkerFiles } from './pool.ts';
import { writeMemory } from './store/list-memory.ts';
import { sharedRun } from './store/shared-run.ts';
import { StoreTrouble } from './store/trouble.ts';
import type { Workshop } from './store/workshop.ts';
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
 * question and stays. Whoever asks while a list is being made shares the next one. What was read is written down beside
 * the answer, for the next start.
 */
export function openJobListing({ folder, ending }: WorkerFiles, workshop: Workshop): JobListing {
  const piscina = new Piscina({
    filename: fileURLToPath(new URL(`job-list${ending}`, folder)),
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: Number.POSITIVE_INFINITY,
    execArgv: threadArguments(ending),
  });
  let writing = Promise.resolve();
  return {
    list: sharedRun(async () => {
      const answer: ListAnswer = await piscina.run(workshop.root);
      if (!answer.ok) throw errorOf(answer);
      const { text, memory } = answer;
      if (memory !== null) writing = writing.then(() => writeMemory(workshop, memory));
      return text;
    }),
    close: async () => {
      await piscina.destroy();
      await writing;
    },
  };
}
