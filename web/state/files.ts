import type { Job } from '../../src/job/job.ts';
import { askDemoJob, type Reply } from '../api.ts';
import { change } from './history.ts';
import type { Draft, KeptBase, Store } from './store.ts';

/** Hands a file to the browser to save. */
export function saveFile(name: string, content: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** What a file of a job is called, without its ending: document, revision and name in plain letters. */
export function plainName(job: Job): string {
  const words = [job.title.documentNumber, job.title.revision, job.title.job].filter((word) => word !== '');
  const plain = words
    .join(' ')
    .normalize('NFKD')
    .replaceAll(/[^\w -]+/g, '')
    .trim()
    .replaceAll(/\s+/g, '-');
  return plain === '' ? 'job' : plain.toLowerCase();
}

/** What stays of a draft that goes on from the same kept job: its readings. */
function readingsFor(kept: KeptBase, draft: Draft | undefined): Partial<Draft> {
  if (kept.id !== draft?.kept?.id) return {};
  const { readings, taken } = draft;
  return { ...(readings ? { readings } : {}), ...(taken ? { taken } : {}) };
}

/**
 * Puts another job in place of this one; undo brings this one back. Readings stay with the kept job they were
 * taken for, or come with the file that is opened.
 */
export function begin(
  store: Store,
  job: Job,
  { kept, ...brought }: Pick<Partial<Draft>, 'kept' | 'readings' | 'taken'> = {},
): void {
  const fresh = { job, entries: {}, parked: {}, begun: Date.now() };
  const goesOn = kept ? { kept, ...readingsFor(kept, store.get().draft) } : brought;
  change(store, { ...fresh, ...goesOn });
  store.set({
    chosenRun: undefined,
    marked: undefined,
    notice: undefined,
    conflict: undefined,
    frozen: undefined,
  });
}

/** Puts the job of an answer on the page, or says why there is none. */
export function takeJob(store: Store, reply: Reply<Job>, what: string): void {
  if (reply.kind === 'answer') begin(store, reply.value);
  else if (reply.kind !== 'withdrawn') {
    const sentences =
      reply.kind === 'refused' && reply.issues.length > 0
        ? reply.issues.map((i) => i.sentence)
        : [reply.detail];
    store.set({ notice: { title: `${what} was not opened. The job on the page is as it was.`, sentences } });
  }
}

export async function openDemo(store: Store, id: string): Promise<void> {
  takeJob(store, await askDemoJob(id), 'The demo job');
}
