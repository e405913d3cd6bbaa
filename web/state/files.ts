import type { Job } from '../../src/job/job.ts';
import { askDemoJob, askJobOfFile, type Reply } from '../api.ts';
import { counted } from '../format.ts';
import { problemsOf } from './edit.ts';
import { change } from './history.ts';
import type { KeptBase, Store } from './store.ts';

/** The largest file that can be a job; the service takes no more. */
const largest_bytes = 2_000_000;

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

/** Saves the job as a file. Entries that are not understood cannot be in it, and the page says so. */
export function saveJob(store: Store): void {
  const { draft } = store.get();
  if (!draft) return;
  const json = JSON.stringify(draft.job, undefined, 2);
  saveFile(`${plainName(draft.job)}.slotwatt.json`, new Blob([`${json}\n`], { type: 'application/json' }));
  const wrong = problemsOf(draft).size;
  if (wrong === 0) return;
  const title = `Saved without ${counted(wrong, 'entry that needs', 'entries that need')} correcting.`;
  store.set({
    notice: { title, sentences: ['The file holds the last values that made sense in those fields.'] },
  });
}

/**
 * Puts another job in place of this one; undo brings this one back. Readings stay with the kept job they were
 * taken for.
 */
export function begin(store: Store, job: Job, kept?: KeptBase): void {
  const { draft } = store.get();
  const readings = kept && kept.id === draft?.kept?.id ? draft.readings : undefined;
  const fresh = { job, entries: {}, parked: {}, begun: Date.now() };
  change(store, { ...fresh, ...(kept ? { kept } : {}), ...(readings ? { readings } : {}) });
  store.set({
    chosenRun: undefined,
    marked: undefined,
    notice: undefined,
    conflict: undefined,
    frozen: undefined,
  });
}

function takeJob(store: Store, reply: Reply<Job>, what: string): void {
  if (reply.kind === 'answer') begin(store, reply.value);
  else if (reply.kind !== 'withdrawn') {
    const sentences =
      reply.kind === 'refused' && reply.issues.length > 0
        ? reply.issues.map((i) => i.sentence)
        : [reply.detail];
    store.set({ notice: { title: `${what} was not opened. The job on the page is as it was.`, sentences } });
  }
}

export async function openFile(store: Store, file: File): Promise<void> {
  if (file.size > largest_bytes) {
    const sentences = ['It is larger than 2 MB, and no job is. Choose the file that this page saved.'];
    store.set({
      notice: { title: `“${file.name}” was not opened. The job on the page is as it was.`, sentences },
    });
    return;
  }
  takeJob(store, await askJobOfFile(await file.text()), `“${file.name}”`);
}

export async function openDemo(store: Store, id: string): Promise<void> {
  takeJob(store, await askDemoJob(id), 'The demo job');
}
