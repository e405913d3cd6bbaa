import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { sizing as sizingSchema } from '../../src/answer/sizing.ts';
import { job as jobSchema } from '../../src/job/job.ts';
import { askRevision, askRevisionChanges, issueRevision } from '../api-kept-jobs.ts';
import { choose } from './edit.ts';
import { saveFile } from './files.ts';
import type { Store } from './store.ts';
import { differsFromKept, during, keepNow, setWorkshop, tell, tellRefusal } from './workshop.ts';

/** The revision after this one: `A` is followed by `B`, `Z` by `AA`, `C2` by `C3`; undefined where none is known. */
export function nextRevision(revision: string): string | undefined {
  const number = /^(.*?)(\d+)$/.exec(revision);
  if (number) return `${number[1]}${Number(number[2]) + 1}`;
  const letter = /^(.*)([A-Ya-y])$/.exec(revision);
  if (letter) return `${letter[1]}${String.fromCharCode(letter[2]!.charCodeAt(0) + 1)}`;
  if (/^[Zz]$/.test(revision)) return revision === 'Z' ? 'AA' : 'aa';
  return revision === '' ? 'A' : undefined;
}

/** Writes a revision into the title block. */
export const setRevision = (store: Store, revision: string): void =>
  choose(store, ['title', 'revision'], revision);

/** Issues the revision in the title block; what the page has beyond what is kept is kept first. */
export function issue(store: Store, note: string): Promise<void> {
  return during(store, 'issuing', async () => {
    const { draft } = store.get();
    const base = draft && !differsFromKept(draft) ? draft.kept : await keepNow(store);
    if (!base) return;
    const reply = await issueRevision(base.id, base.etag, note);
    if (reply.kind !== 'answer') return tellRefusal(store, 'No revision was issued.', reply);
    const next = nextRevision(reply.value.revision);
    tell(store, {
      title: `Revision ${reply.value.revision} is issued and frozen.`,
      sentences: ['Whatever you change from here on belongs to the next revision.'],
      remedies: next ? [{ text: `Go on with revision ${next}`, act: () => goOnWith(store, next) }] : [],
    });
  });
}

function goOnWith(store: Store, revision: string): void {
  setRevision(store, revision);
  store.set({ notice: undefined });
}

/** Shows an issued revision with its own answer, read only; the draft waits behind it. */
export function look(store: Store, id: string, entry: ListedRevision): Promise<void> {
  return during(store, 'opening', async () => {
    const [reply, changes] = await Promise.all([askRevision(id, entry.id), askRevisionChanges(id, entry.id)]);
    if (reply.kind !== 'answer')
      return tellRefusal(store, `Revision ${entry.revision} was not opened.`, reply);
    const job = jobSchema.safeParse(reply.value.job);
    const sizing = sizingSchema.safeParse(reply.value.sizing);
    if (job.success && sizing.success) {
      const answer = { job: job.data, sizing: sizing.data };
      const known = changes.kind === 'answer' ? changes.value : undefined;
      setWorkshop(store, { isOpen: false });
      store.set({ frozen: { id, entry, answer, changes: known }, notice: undefined });
      window.scrollTo(0, 0);
      return;
    }
    const text = JSON.stringify(reply.value, undefined, 2);
    const save = (): void =>
      saveFile(`${id}-${entry.id}.json`, new Blob([text], { type: 'application/json' }));
    tell(store, {
      title: `Revision ${entry.revision} cannot be drawn by this page.`,
      sentences: [
        `It was written by engine ${entry.engine}. It is kept as it was, and its figures can be saved.`,
      ],
      remedies: [{ text: 'Save it as JSON', act: save }],
    });
  });
}

/** Goes back from an issued revision to the job on the page. */
export const lookAway = (store: Store): void => store.set({ frozen: undefined });
