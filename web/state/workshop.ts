import type { BinnedJob, KeptJob, ListedJob } from '../../server/contract/kept-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { isSameJob } from '../../src/job/job-differences.ts';
import type { Refusal, Reply } from '../api.ts';
import {
  askBin,
  askKeptJob,
  askKeptJobs,
  askLastGoodCopy,
  askRevisions,
  deleteKeptJob,
  duplicateKeptJob,
  keepJob,
  keepNewJob,
  type OpenedJob,
  renameKeptJob,
  restoreFromBin,
} from '../api-kept-jobs.ts';
import { counted, moment } from '../format.ts';
import { problemsOf } from './edit.ts';
import { begin } from './files.ts';
import { throughout, undo } from './history.ts';
import type { Draft, KeptBase, Notice, Remedy, Store, Workshop } from './store.ts';

/** The longest name that fits its box on paper. */
const longestName = 60;

export const setWorkshop = (store: Store, change: Partial<Workshop>): void =>
  store.set({ workshop: { ...store.get().workshop, ...change } });

/** Opens the list of jobs, whose entries are there when this is done, or closes it. */
export async function toggleWorkshop(store: Store, isOpen: boolean): Promise<void> {
  setWorkshop(store, { isOpen });
  if (isOpen) await refreshWorkshop(store);
}

/** Says something that does not fit beside a field. */
export const tell = (store: Store, notice: Notice): void => store.set({ notice });

/** Says why the service did not do it; a question that was withdrawn needs no words. */
export function tellRefusal(
  store: Store,
  title: string,
  reply: Reply<unknown>,
  remedies: Remedy[] = [],
): void {
  if (reply.kind === 'answer' || reply.kind === 'withdrawn') return;
  const reasons = reply.kind === 'refused' ? reply.issues.map((issue) => issue.sentence) : [];
  tell(store, { title, sentences: reasons.length > 0 ? reasons : [reply.detail], remedies });
}

const newestFirst = (jobs: readonly ListedJob[]): ListedJob[] =>
  jobs.toSorted((a, b) => b.saved.localeCompare(a.saved));

/** Asks for the lists of the workshop again. What cannot be had stays as it was. */
export async function refreshWorkshop(store: Store): Promise<void> {
  const kept = store.get().draft?.kept;
  const [jobs, bin, revisions] = await Promise.all([
    askKeptJobs(),
    askBin(),
    kept ? askRevisions(kept.id) : undefined,
  ]);
  setWorkshop(store, {
    ...(jobs.kind === 'answer' ? { jobs: newestFirst(jobs.value) } : {}),
    ...(bin.kind === 'answer' ? { bin: bin.value } : {}),
    revisions: revisions?.kind === 'answer' ? revisions.value : [],
    trouble: jobs.kind === 'failed' ? jobs.detail : undefined,
  });
}

/**
 * Does one thing at a time with the workshop and asks for its lists afterwards. It stays busy until they are there,
 * so that no row changes places under a finger about to press its button.
 */
export async function during(store: Store, busy: string, task: () => Promise<void>): Promise<void> {
  if (store.get().workshop.busy !== undefined) return;
  setWorkshop(store, { busy });
  try {
    await task();
    await refreshWorkshop(store);
  } finally {
    setWorkshop(store, { busy: undefined });
  }
}

const baseOf = (id: string, { job, etag, saved, savedBy }: OpenedJob): KeptBase => ({
  id,
  etag,
  saved,
  savedBy,
  job,
});

/** Whether the page holds something that the workshop does not. */
export function differsFromKept({ job, kept, entries }: Draft): boolean {
  return !kept || kept.isCopy === true || !isSameJob(job, kept.job) || Object.keys(entries).length > 0;
}

const undoRemedy = (store: Store): Remedy => ({
  text: 'Undo',
  act: () => {
    undo(store);
    store.set({ notice: undefined });
  },
});

/** Puts a kept job on the page and says where the former one is, unless that was kept. */
function put(store: Store, base: KeptBase, notice?: Notice): void {
  const { draft } = store.get();
  const isLoose = draft !== undefined && differsFromKept(draft);
  begin(store, base.job, { kept: base });
  setWorkshop(store, { isOpen: false });
  if (notice) tell(store, notice);
  else if (isLoose) {
    tell(store, {
      title: `“${base.job.title.job || base.id}” is on the page.`,
      sentences: ['What was there before is not kept as it stood. Undo brings it back.'],
      remedies: [undoRemedy(store)],
    });
  }
}

function openCopy(store: Store, id: string): Promise<void> {
  return during(store, 'opening', async () => {
    const reply = await askLastGoodCopy(id);
    if (reply.kind !== 'answer') return tellRefusal(store, 'The last good copy was not opened.', reply);
    const when = moment(reply.value.saved, new Date());
    put(
      store,
      { ...baseOf(id, reply.value), isCopy: true },
      {
        title: `This is the last good copy, kept ${when}.`,
        sentences: [
          'Keep it to put it in place of the file that cannot be read; until then that file stays as it is.',
        ],
      },
    );
  });
}

const copyRemedy = (store: Store, id: string): Remedy => ({
  text: 'Open the last good copy',
  act: () => void openCopy(store, id),
});

export function openKept(store: Store, id: string): Promise<void> {
  return during(store, 'opening', async () => {
    const reply = await askKeptJob(id);
    if (reply.kind === 'answer') return put(store, baseOf(id, reply.value));
    const remedies = reply.kind === 'refused' && reply.hasGoodCopy ? [copyRemedy(store, id)] : [];
    tellRefusal(store, 'The job was not opened. The page is as it was.', reply, remedies);
  });
}

/** Where somebody else kept the job meanwhile: shows both versions, and overwrites neither. */
async function meetOther(store: Store, draft: Draft, id: string): Promise<void> {
  const reply = await askKeptJob(id);
  if (reply.kind !== 'answer') {
    const remedies = reply.kind === 'refused' && reply.hasGoodCopy ? [copyRemedy(store, id)] : [];
    return tellRefusal(store, 'Somebody else kept this job, and theirs cannot be opened.', reply, remedies);
  }
  const theirs = baseOf(id, reply.value);
  if (isSameJob(theirs.job, draft.job)) throughout(store, draft, (other) => ({ ...other, kept: theirs }));
  else store.set({ conflict: { id, theirs }, notice: undefined });
}

const restoreRemedy = (store: Store, { id }: BinnedJob): Remedy => ({
  text: 'Bring it back from the bin',
  act: () => void restore(store, id),
});

async function tellGone(store: Store, id: string, reply: Refusal): Promise<void> {
  const bin = await askBin();
  const binned = bin.kind === 'answer' ? bin.value.find((entry) => entry.id.endsWith(`-${id}`)) : undefined;
  const remedies = binned ? [restoreRemedy(store, binned)] : [];
  tellRefusal(store, 'The job was not kept: it is no longer in the workshop.', reply, [
    ...remedies,
    { text: 'Keep it as a new job', act: () => void keepAsNew(store) },
  ]);
}

function tellLeftOut(store: Store, draft: Draft): void {
  const wrong = problemsOf(draft).size;
  if (wrong === 0) return;
  tell(store, {
    title: `Kept without ${counted(wrong, 'entry that needs', 'entries that need')} correcting.`,
    sentences: [
      'The workshop has the last values that made sense in those fields; what you typed stays here.',
    ],
  });
}

/** Keeps the draft over the version it rests on; true where it is in the workshop now. */
export async function keepNow(store: Store): Promise<KeptBase | undefined> {
  const { draft } = store.get();
  if (!draft) return undefined;
  const { kept, job } = draft;
  const reply = kept ? await keepJob(kept.id, kept.etag, job) : await keepNewJob(job);
  if (reply.kind === 'answer') {
    const { id, etag, saved } = reply.value;
    const base = { id, etag, saved, job };
    throughout(store, draft, (other) => ({ ...other, kept: base }));
    store.set({ conflict: undefined, notice: undefined });
    tellLeftOut(store, draft);
    return base;
  }
  if (kept && reply.kind === 'refused' && reply.status === 412) await meetOther(store, draft, kept.id);
  else if (kept && reply.kind === 'refused' && reply.status === 404) await tellGone(store, kept.id, reply);
  else tellRefusal(store, 'The job was not kept. It is still on the page.', reply);
  return undefined;
}

export const keep = (store: Store): Promise<void> =>
  during(store, 'keeping', async () => void (await keepNow(store)));

const named = (job: Job, name: string): Job => ({ ...job, title: { ...job.title, job: name } });

/** The name with something after it, shortened so that both fit. */
const nameWith = (name: string, addition: string): string =>
  `${(name || 'Job').slice(0, longestName - addition.length)}${addition}`;

/** Keeps the draft as a job of its own; what was kept before stays as it is. */
export function keepAsNew(store: Store, addition = ''): Promise<void> {
  return during(store, 'keeping', async () => {
    const { draft } = store.get();
    if (!draft) return;
    const job = addition === '' ? draft.job : named(draft.job, nameWith(draft.job.title.job, addition));
    const reply = await keepNewJob(job);
    if (reply.kind !== 'answer')
      return tellRefusal(store, 'The job was not kept. It is still on the page.', reply);
    const { id, etag, saved } = reply.value;
    const { job: name } = job.title;
    throughout(store, draft, (other) => ({
      ...other,
      job: named(other.job, name),
      kept: { id, etag, saved, job },
    }));
    store.set({ conflict: undefined, notice: undefined });
  });
}

/** Keeps the other version as a job of its own, and then this one in its place. */
export function keepBoth(store: Store): Promise<void> {
  return during(store, 'keeping', async () => {
    const { conflict, draft } = store.get();
    if (!conflict || !draft) return;
    const { theirs } = conflict;
    const copy = await keepNewJob(named(theirs.job, nameWith(theirs.job.title.job, ', other version')));
    if (copy.kind !== 'answer')
      return tellRefusal(store, 'Nothing was kept. Both versions are as they were.', copy);
    throughout(store, draft, (other) => ({ ...other, kept: theirs }));
    if (!(await keepNow(store))) return;
    tell(store, {
      title: 'Both versions are in the workshop.',
      sentences: [`Yours is kept as “${draft.job.title.job}”, the other one as “${copy.value.name}”.`],
    });
  });
}

/** Puts the other version on the page; undo brings this one back. */
export function takeTheirs(store: Store): void {
  const { conflict } = store.get();
  if (!conflict) return;
  put(store, conflict.theirs, {
    title: 'The other version is on the page.',
    sentences: [
      'Yours is one step back: Undo brings it back, and it is not lost until this window is closed.',
    ],
    remedies: [undoRemedy(store)],
  });
}

export function rename(store: Store, { id, etag, name: former }: KeptJob, name: string): Promise<void> {
  return during(store, 'renaming', async () => {
    const reply = await renameKeptJob(id, etag, name);
    if (reply.kind !== 'answer') return tellRefusal(store, `“${former}” keeps its name.`, reply);
    const { draft } = store.get();
    if (!draft?.kept || draft.kept.id !== id || draft.kept.etag !== etag) return;
    const base = { ...reply.value, job: named(draft.kept.job, reply.value.name) };
    const { saved, job } = base;
    throughout(store, draft, (other) => ({
      ...other,
      job: named(other.job, base.name),
      kept: { id, etag: base.etag, saved, job },
    }));
  });
}

export function duplicate(store: Store, { id, name: former }: KeptJob, name: string): Promise<void> {
  return during(store, 'copying', async () => {
    tellRefusal(store, `“${former}” was not copied.`, await duplicateKeptJob(id, name));
  });
}

export function remove(store: Store, { id, etag, name }: KeptJob): Promise<void> {
  return during(store, 'deleting', async () => {
    const reply = await deleteKeptJob(id, etag);
    if (reply.kind !== 'answer') return tellRefusal(store, `“${name}” was not deleted.`, reply);
    tell(store, {
      title: `“${reply.value.name}” is in the bin, with its revisions.`,
      sentences: ['What is on the page stays there.'],
      remedies: [restoreRemedy(store, reply.value)],
    });
  });
}

export function restore(store: Store, binnedId: string): Promise<void> {
  return during(store, 'restoring', async () => {
    const reply = await restoreFromBin(binnedId);
    if (reply.kind !== 'answer') return tellRefusal(store, 'The job stays in the bin.', reply);
    tell(store, { title: `“${reply.value.name}” is back in the workshop.`, sentences: [] });
  });
}
