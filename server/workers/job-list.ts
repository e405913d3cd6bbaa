import { keptJobs } from '../contract/kept-jobs.ts';
import { waitingDisk } from '../store/disk.ts';
import { jobList } from '../store/kept-jobs.ts';
import { isWorthWriting, memoryText, readMemory } from '../store/list-memory.ts';
import { StoreTrouble } from '../store/trouble.ts';

/** What kept the list from being made: the store's own trouble, or a code of the system. */
export type ListFailure =
  | {
      readonly ok: false;
      readonly by: 'store';
      readonly code: StoreTrouble['code'];
      readonly message: string;
    }
  | { readonly ok: false; readonly by: 'system'; readonly code: string; readonly message: string };

/**
 * The list as JSON text already checked against its schema, and what is remembered of it as the text of a file where that
 * is worth writing down; or what kept it from being made.
 */
export type ListAnswer =
  | { readonly ok: true; readonly text: string; readonly memory: string | null }
  | ListFailure;

/** As data, since an error loses its code on the way out of the thread. */
function failureOf(error: unknown): ListFailure {
  if (error instanceof StoreTrouble)
    return { ok: false, by: 'store', code: error.code, message: error.message };
  if (error instanceof Error && 'code' in error)
    return { ok: false, by: 'system', code: String(error.code), message: error.message };
  throw error;
}

/** A thread lists one folder, and remembers what it read of it. */
async function openList(root: string): Promise<() => Promise<ListAnswer>> {
  const past = { memory: await readMemory(waitingDisk, root) };
  let written = past.memory;
  const list = jobList({ root, disk: waitingDisk }, past);
  return async () => {
    const text = JSON.stringify(keptJobs.parse(await list()));
    if (!isWorthWriting(past.memory, written)) return { ok: true, text, memory: null };
    written = past.memory;
    return { ok: true, text, memory: memoryText(written) };
  };
}

let opened: ReturnType<typeof openList> | undefined;

/** Lists the jobs of the workshop's folder, in the thread. */
export default async function answer(root: string): Promise<ListAnswer> {
  opened ??= openList(root);
  try {
    const list = await opened;
    return await list();
  } catch (error) {
    return failureOf(error);
  }
}
