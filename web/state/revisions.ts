import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { sizing as sizingSchema } from '../../src/answer/sizing.ts';
import { readJob } from '../../src/job/read-job.ts';
import { askReadings, askRevision, askRevisionChanges, issueRevision } from '../api-kept-jobs.ts';
import { draftStanding } from './document-status.ts';
import { choose } from './edit.ts';
import { saveFile } from './files.ts';
import { nextFree } from './next-revision.ts';
import type { Brought, Store } from './store.ts';
import { differsFromKept, during, keepNow, setWorkshop, tell, tellRefusal } from './workshop.ts';

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
    const next = nextFree(reply.value.revision, store.get().workshop.revisions);
    const then = next === undefined ? 'the next revision' : `revision ${next}, which it becomes by itself`;
    tell(store, {
      title: `Revision ${reply.value.revision} is issued and frozen.`,
      sentences: [
        `The first change you make from here on belongs to ${then}.`,
        'Readings are taken on what was issued: look at it, and type them into its test sheet.',
      ],
    });
  });
}

const nothingBrought: Brought = { readings: [], typed: {} };

/** Shows an issued revision with its own answer, read only; the draft waits behind it. */
export function look(
  store: Store,
  id: string,
  entry: ListedRevision,
  brought: Brought = nothingBrought,
): Promise<void> {
  return during(store, 'opening', async () => {
    const [reply, changes, readings] = await Promise.all([
      askRevision(id, entry.id),
      askRevisionChanges(id, entry.id),
      askReadings(id, entry.id),
    ]);
    if (reply.kind !== 'answer')
      return tellRefusal(store, `Revision ${entry.revision} was not opened.`, reply);
    const job = readJob(reply.value.job);
    const sizing = sizingSchema.safeParse(reply.value.sizing);
    if (job.ok && sizing.success) {
      const answer = { job: job.value, sizing: sizing.data };
      const known = changes.kind === 'answer' ? changes.value : undefined;
      setWorkshop(store, { isOpen: false });
      const { answer: now, draft } = store.get();
      const own = draft?.kept?.id === id ? draft : undefined;
      const frozen = {
        ...{ id, entry, answer, changes: known },
        readings: readings.kind === 'answer' ? readings.value.readings : undefined,
        isOfThisEngine: now?.sizing.engine === entry.engine,
        onDraft: own?.readings ?? {},
        taken: own?.taken ?? [],
        brought,
      };
      store.set({ frozen, notice: undefined });
      window.scrollTo(0, 0);
      return;
    }
    const text = JSON.stringify(reply.value, undefined, 2);
    const save = (): void =>
      saveFile(`${id}-${entry.id}.json`, new Blob([text], { type: 'application/json' }));
    tell(store, {
      title: `Revision ${entry.revision} cannot be drawn by this page.`,
      sentences: [
        `It was written by engine ${entry.engine}: Slotwatt ${entry.engine.split('+')[0]} draws and prints it. It is kept as it was, and its figures can be saved.`,
      ],
      remedies: [{ text: 'Save it as JSON', act: save }],
    });
  });
}

/** Goes back from an issued revision to the job on the page, and says which of the two is frozen. */
export function lookAway(store: Store): void {
  const { frozen, draft } = store.get();
  store.set({ frozen: undefined });
  if (!frozen || draft?.kept?.id !== frozen.id) return;
  const { entry } = frozen;
  tell(store, {
    title: `Revision ${entry.revision} is frozen; this is the job you work on.`,
    sentences: [draftStanding(store.get())].filter((sentence) => sentence !== ''),
  });
}
