import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { gaps } from './recompute.ts';
import type { Draft, KeptBase, State, Store } from './store.ts';

const key = 'slotwatt-draft';

const isRecord = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null;

/** A job as it was stored, of whatever format; undefined where more is amiss than that it has no slots yet. */
function readUnfinished(stored: Record<string, unknown>): Job | undefined {
  const read = readJob({ ...stored, slots: newJob().slots });
  if (!read.ok) return undefined;
  const job = { ...read.value, slots: stored.slots } as Job;
  const isShown = gaps(job).every((gap) => /^slots\.(lengths_mm|segments)$/.test(gap.place.field ?? ''));
  return isShown ? job : undefined;
}

/** The version in the workshop that a stored draft goes back to, in today's format where it was of an earlier one. */
function keptOf({ kept }: Record<string, unknown>): Partial<Draft> {
  if (!isRecord(kept)) return {};
  const read = readJob(kept.job);
  return read.ok ? { kept: { ...(kept as unknown as KeptBase), job: read.value } } : {};
}

/** A stored draft, if it is one this page can show. An empty list of slots is an unfinished job, not a broken one. */
export function readDraft(text: string | null): Draft | undefined {
  try {
    const stored: unknown = JSON.parse(text ?? 'null');
    if (!isRecord(stored) || !isRecord(stored.job) || !isRecord(stored.entries) || !isRecord(stored.parked)) {
      return undefined;
    }
    const job = readUnfinished(stored.job);
    return job && ({ ...stored, ...keptOf(stored), job } as unknown as Draft);
  } catch {
    return undefined;
  }
}

const attempt = (write: () => void): void => {
  try {
    write();
  } catch {
    // Private windows and full disks refuse storage; the page works on without it.
  }
};

/** This tab's own draft after a reload, else the newest draft of any tab. */
export function storedDraft(): Draft | undefined {
  try {
    return readDraft(sessionStorage.getItem(key)) ?? readDraft(localStorage.getItem(key));
  } catch {
    return undefined;
  }
}

/**
 * Keeps the draft through reloads and closed windows. Each tab keeps its own copy; the copy shared by all tabs is
 * left alone from the moment another tab wrote it until somebody decides which of the two to keep.
 */
export function keepStored(store: Store): void {
  let written: Draft | undefined = store.get().draft;
  store.listen(() => {
    const { draft, otherTab } = store.get();
    if (!draft || draft === written) return;
    written = draft;
    const text = JSON.stringify(draft);
    attempt(() => sessionStorage.setItem(key, text));
    if (!otherTab) attempt(() => localStorage.setItem(key, text));
  });
  window.addEventListener('storage', (event) => {
    if (event.key !== key || event.newValue === null) return;
    const theirs = readDraft(event.newValue);
    if (theirs && event.newValue !== JSON.stringify(store.get().draft)) store.set({ otherTab: theirs });
  });
}

const stepsKey = 'slotwatt-steps';

/** What a tab keeps of its steps of undo; browsers give a page some 5 MB for everything. */
const mostSteps = 60;
const mostLetters = 1_500_000;

type Steps = Pick<State, 'past' | 'future'>;

/** The nearest steps that have room, the farthest dropped first. */
function stepsText({ past, future }: Steps): string {
  for (let count = mostSteps; count > 0; count = Math.floor(count / 2)) {
    const text = JSON.stringify({ past: past.slice(-count), future: future.slice(0, count) });
    if (text.length <= mostLetters) return text;
  }
  return '';
}

/** Steps of undo and redo of this tab before a reload; none where its draft is not there any more. */
export function storedSteps(): Steps {
  const drafts = (list: unknown): Draft[] =>
    Array.isArray(list) ? list.flatMap((each) => readDraft(JSON.stringify(each)) ?? []) : [];
  try {
    const stored: unknown = JSON.parse(sessionStorage.getItem(stepsKey) ?? 'null');
    if (!isRecord(stored) || sessionStorage.getItem(key) === null) return { past: [], future: [] };
    return { past: drafts(stored.past), future: drafts(stored.future) };
  } catch {
    return { past: [], future: [] };
  }
}

/** Keeps the steps of undo through a reload; written when the page is left, since nobody else reads them. */
export function keepSteps(store: Store): void {
  window.addEventListener('pagehide', () =>
    attempt(() => sessionStorage.setItem(stepsKey, stepsText(store.get()))),
  );
}

/** Writes this tab's draft over the other tab's. */
export function keepOurs(store: Store): void {
  const { draft } = store.get();
  store.set({ otherTab: undefined });
  if (draft) attempt(() => localStorage.setItem(key, JSON.stringify(draft)));
}
